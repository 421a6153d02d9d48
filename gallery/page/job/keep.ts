/** Work that survives a reload, in the browser's own storage. */
import type { MeshRef } from '../mesh/mesh-ref.js';
import type { NamedText, Sources } from '../work/protocol.js';
import { longestJob } from './share.js';

const key = 'patternwright:work';
const form = 1;

/** The part of `Storage` that is used. */
export interface Shelf {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

/** Puts the work away. @returns whether it could: storage may be full or forbidden, or the job too long to be had back */
export function keepWork(shelf: Shelf | undefined, sources: Sources): boolean {
  if (!isText(sources.job)) return false;
  try {
    shelf?.setItem(key, JSON.stringify({ form, sources }));
    return shelf !== undefined;
  } catch {
    return false;
  }
}

/** What was put away; undefined where there is none or it is not of this form. */
export function keptWork(shelf: Shelf | undefined): Sources | undefined {
  try {
    const kept: unknown = JSON.parse(shelf?.getItem(key) ?? 'null');
    return isKept(kept) ? kept.sources : undefined;
  } catch {
    return undefined;
  }
}

const isText = (value: unknown): value is string => typeof value === 'string' && value.length <= longestJob;

const isNamedText = (value: unknown): value is NamedText =>
  typeof value === 'object' &&
  value !== null &&
  isText((value as NamedText).fileName) &&
  typeof (value as NamedText).text === 'string';

const isMeshRef = (value: unknown): value is MeshRef =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as MeshRef).name === 'string' &&
  typeof (value as MeshRef).id === 'string';

function isKept(value: unknown): value is { readonly sources: Sources } {
  if (typeof value !== 'object' || value === null || (value as { form?: unknown }).form !== form)
    return false;
  const { sources } = value as { sources?: Partial<Sources> };
  return (
    sources !== undefined &&
    sources !== null &&
    isText(sources.job) &&
    (sources.shop === undefined || isNamedText(sources.shop)) &&
    (sources.log === undefined || isNamedText(sources.log)) &&
    (sources.meshes === undefined || (Array.isArray(sources.meshes) && sources.meshes.every(isMeshRef)))
  );
}
