import type { BasicRackName } from '../../../core/gear/basic-rack.js';
import type { ApexShape, Hand } from '../../../core/gear/helix.js';
import { moduleSeriesOf } from '../../../core/gear/module-series.js';
import type { ModuleChoice } from '../../../core/gear/pair-request.js';
import type { GearSpec } from '../../../core/gear/spec.js';
import type { ToothedMember } from '../../../core/pair/mate/member.js';
import type { Finding } from '../../../core/part/finding.js';
import { usualApexWidth, usualRingRim } from '../../../generators/gear/implied-sizes.js';
import { gearSpecOf } from '../../../generators/gear/tooth-spec.js';

/** A part's parameters as the job's reader gives them: mm, radians, words. */
export type ReadParameters = Readonly<Record<string, unknown>>;

const kinds: Readonly<Record<string, ToothedMember['kind']>> = {
  'spur-gear': 'gear',
  'helical-gear': 'gear',
  'double-helical-gear': 'gear',
  'ring-gear': 'ring',
  rack: 'rack',
};

/** Whether a part has teeth that a mate can be chosen for. */
export const isToothed = (part: string): boolean => Object.hasOwn(kinds, part);

export type MemberReading =
  | { readonly ok: true; readonly member: ToothedMember }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** The toothed part that the parameters describe; findings where they contradict each other. */
export function toothedMember(part: string, p: ReadParameters): MemberReading {
  const kind = kinds[part] ?? 'gear';
  const helixAngle = part === 'spur-gear' ? 0 : number(p.helixAngle, 0);
  const spec = gearSpecOf(
    {
      module: optional(p.module),
      diametralPitch: optional(p.diametralPitch),
      teeth: number(p.teeth, 24),
      pressureAngle: number(p.pressureAngle, Math.PI / 9),
      profileShift: kind === 'rack' ? 0 : number(p.profileShift, 0),
      rackProfile: (p.rackProfile ?? 'A') as BasicRackName,
      addendum: optional(p.addendum),
      dedendum: optional(p.dedendum),
      rootRadius: optional(p.rootRadius),
      thinning: number(p.thinning, 0),
      tipShortening: number(p.tipShortening, 0),
      tipRounding: number(p.tipRounding, 0),
    },
    helixAngle,
  );
  if ('severity' in spec) return { ok: false, findings: [spec] };
  const faceWidth = number(p.faceWidth, 20);
  const double = part === 'double-helical-gear';
  const shape = double ? ((p.apex ?? 'sharp') as ApexShape) : 'sharp';
  return {
    ok: true,
    member: {
      kind,
      gearType: double ? 'double-helical' : helixAngle === 0 ? 'spur' : 'helical',
      spec,
      rackProfile: (p.rackProfile ?? 'A') as BasicRackName,
      module: moduleOf(spec, optional(p.diametralPitch)),
      hand: ((double ? p.lowerHand : p.hand) ?? (double ? 'left' : 'right')) as Hand,
      apex: { shape, width: shape === 'sharp' ? 0 : number(p.apexWidth, usualApexWidth(faceWidth)) },
      faceWidth,
      tipRounding: kind === 'ring' ? 0 : number(p.tipRounding, 0),
      ...(typeof p.cutterTeeth === 'number' ? { cutterTeeth: p.cutterTeeth } : {}),
      ...(kind === 'ring' ? { rimThickness: number(p.rimThickness, usualRingRim(spec)) } : {}),
    },
  };
}

const moduleOf = ({ normalModule }: GearSpec, diametralPitch: number | undefined): ModuleChoice =>
  diametralPitch === undefined
    ? { module: normalModule, series: moduleSeriesOf(normalModule) ?? 'asked' }
    : { module: normalModule, series: 'DP', diametralPitch };

const optional = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);
const number = (value: unknown, fallback: number): number => optional(value) ?? fallback;
