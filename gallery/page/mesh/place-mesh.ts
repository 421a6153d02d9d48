/** Where a job names mesh files, and what becomes of it when one is opened. */
import { listSchemaFields } from '../../../core/part/field-list.js';
import type { Entry } from '../bench/state.js';
import { addEntry, setValues } from '../job/document.js';
import { freeName } from '../job/free-name.js';
import type { Path } from '../job/path.js';
import type { Sources } from '../work/protocol.js';
import { baseName, pieceNameOf } from './mesh-names.js';
import type { MeshRef } from './mesh-ref.js';

/** A key of the job that names a file. */
export interface MeshPlace {
  readonly path: Path;
  readonly name: string;
}

export const meshPlaces = (entries: readonly Entry[]): readonly MeshPlace[] =>
  entries.flatMap(({ index, definition, raw }) => {
    const { parameters } = raw;
    if (!definition || typeof parameters !== 'object' || parameters === null) return [];
    const given = parameters as Readonly<Record<string, unknown>>;
    return listSchemaFields(definition.parameters).flatMap(({ name, option, info }) => {
      if (info.kind !== 'file') return [];
      const key = Object.hasOwn(given, name) ? name : option;
      const file = Object.hasOwn(given, key) ? given[key] : undefined;
      return typeof file === 'string' || typeof file === 'number'
        ? [{ path: ['parts', String(index), 'parameters', key], name: String(file) }]
        : [];
    });
  });

/** Names of files that the job wants and that are not open, each once. */
export function missingMeshes(
  entries: readonly Entry[],
  { meshes = [] }: Pick<Sources, 'meshes'>,
): readonly string[] {
  const names = meshPlaces(entries).map(({ name }) => name);
  return [...new Set(names)].filter((name) => !meshes.some((ref) => ref.name === name));
}

export interface Placed {
  readonly sources: Sources;
  /** A piece came in; an open file of the same name was put in place of; a file that was wanted is there; or the text has to be mended first. */
  readonly how: 'added' | 'replaced' | 'mended' | 'unreadable';
}

/** An opened file: the one that is missing by that name, a newer one of that name, or else a piece of its own. */
export function placeMesh(sources: Sources, entries: readonly Entry[], ref: MeshRef): Placed {
  const missing = named(missingMeshes(entries, sources), ref);
  if (missing !== undefined)
    return { sources: withMesh(sources, entries, { ...ref, name: missing }), how: 'mended' };
  const open = named(
    meshPlaces(entries).map(({ name }) => name),
    ref,
  );
  if (open !== undefined)
    return { sources: withMesh(sources, entries, { ...ref, name: open }), how: 'replaced' };
  const taken = entries.flatMap((e) => [e.name, ...e.castings]);
  const job = addEntry(sources.job, meshEntry(ref.name, taken));
  return job === sources.job
    ? { sources, how: 'unreadable' }
    : { sources: { ...withMesh(sources, entries, ref), job }, how: 'added' };
}

/** The name that jobs give the file: its own, or the path of one that is called so. */
const named = (names: readonly string[], ref: MeshRef): string | undefined =>
  names.find((name) => name === ref.name) ?? names.find((name) => baseName(name) === ref.name);

/** A file opened for one that the job names: where its name is another, the job gets it, at `path` alone or wherever it named that. */
export function placeMeshFor(
  sources: Sources,
  entries: readonly Entry[],
  ref: MeshRef,
  instead: string | undefined,
  path?: Path,
): Placed {
  if (instead !== undefined && baseName(instead) === ref.name)
    return { sources: withMesh(sources, entries, { ...ref, name: instead }), how: 'mended' };
  const places =
    path === undefined
      ? meshPlaces(entries)
          .filter(({ name }) => name === instead)
          .map((place) => place.path)
      : [path];
  const job = setValues(
    sources.job,
    places.map((at) => ({ path: at, value: ref.name })),
  );
  return job === sources.job
    ? { sources, how: 'unreadable' }
    : { sources: { ...withMesh(sources, entries, ref), job }, how: 'mended' };
}

/** A further piece of a file. */
export const meshEntry = (file: string, taken: readonly string[]) => ({
  name: freeName(pieceNameOf(file), taken),
  part: 'mesh',
  parameters: { file },
});

/** With this file open beside those that the job names; others are let go. */
function withMesh(sources: Sources, entries: readonly Entry[], ref: MeshRef): Sources {
  const wanted = new Set(meshPlaces(entries).map(({ name }) => name));
  const others = (sources.meshes ?? []).filter(({ name }) => name !== ref.name && wanted.has(name));
  return { ...sources, meshes: [...others, ref] };
}
