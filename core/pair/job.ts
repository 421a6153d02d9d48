import type { Alloy } from '../foundry/alloys/index.js';
import { flasks } from '../foundry/flasks.js';
import { checkInvestment, investments } from '../foundry/investment.js';
import { gearGeometry } from '../gear/gear-geometry.js';
import { appraise } from '../gear/pair-appraisal.js';
import type { AnyRankedPair } from '../gear/pair-ranking.js';
import { bedFields } from '../job/bed-schema.js';
import { jobDefaults } from '../job/job-schema.js';
import { hasStop } from '../part/finding.js';
import { formatLength, formatTorque, type LengthUnit } from '../units/index.js';
import { memberNames } from './parts.js';

const titles = { external: 'Pair of gears', internal: 'Pinion and ring', rack: 'Pinion and rack' } as const;

/** What stands on the traveller of the pair: how it is mounted, its play, its contact and what it carries. */
export function pairNotes(p: AnyRankedPair, unit: LengthUnit): readonly string[] {
  const mm = (value: number): string => formatLength(value, unit, { digits: unit === 'in' ? 4 : 3 });
  const { distance, contactRatio, totalContactRatio } = appraise(p);
  const [first, second] = memberNames[p.mesh];
  const mounted =
    p.mesh === 'rack'
      ? `from the pinion’s axis to the pitch line of the rack ${mm(distance)}`
      : `centre distance a ${mm(distance)}`;
  const { circumferential, normal } = p.facts.backlash;
  const total = p.gear.helixAngle === 0 ? '' : `, ε_γ ${totalContactRatio.toFixed(2)}`;
  return [
    `${capital(first)} and ${second} run together: ${mounted}, backlash ${mm(circumferential)} along the pitch circle, ${mm(normal)} between the flanks by feeler gauge, contact ratio ε_α ${contactRatio.toFixed(2)}${total}.`,
    ...(p.load === null
      ? []
      : [
          `By Lewis and Buckingham the teeth are reckoned good for ${formatTorque(p.load.strength.gearTorque, unit)} on ${first.startsWith('gear') ? first : `the ${first}`}: a bench estimate, no design code and no proof of safety. Prove the pair above its working load before anyone relies on it.`,
        ]),
  ];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The whole plate job of a pair: with a mould that stands its metals, and room where the usual is too small. */
export function pairJob(
  p: AnyRankedPair,
  parts: readonly object[],
  alloys: readonly [Alloy, Alloy],
  unit: LengthUnit,
): object {
  const room = roomFor(p, parts.length > 1);
  const investment = investments.find((i) => !alloys.some((a) => hasStop(checkInvestment(i, a))));
  return {
    job: `${p.mesh === 'external' ? 'gear' : p.mesh === 'internal' ? 'ring' : 'rack'}-pair`,
    title: parts.length > 1 ? titles[p.mesh] : 'Gear for a mate that is there already',
    notes: [...pairNotes(p, unit), ...roomNote(room, unit)],
    units: unit,
    alloy: alloys[0].name,
    ...(investment === undefined || investment.name === jobDefaults.investment
      ? {}
      : { investment: investment.name }),
    ...(room.bed === null
      ? {}
      : {
          bed: { width: `${room.bed.side}mm`, depth: `${room.bed.side}mm`, height: `${room.bed.height}mm` },
        }),
    ...(room.flask === null ? {} : { flasks: flasksWith(room.flask) }),
    parts,
  };
}

/** Sizes in mm; null where the usual is large enough. */
interface Room {
  readonly bed: { readonly side: number; readonly height: number } | null;
  readonly flask: { readonly diameter: number; readonly height: number } | null;
}

const usualBed = bedFields.parse({});
const usualFlask = {
  diameter: Math.max(...flasks.map((f) => f.insideDiameter)),
  height: Math.max(...flasks.map((f) => f.insideHeight)),
};

/** Burnout programmes are known up to this flask, mm. */
const largestFlask = 300;

const up = (size: number): number => Math.ceil(size / 10) * 10;

/**
 * Print bed and flask for the larger part. The pattern is larger by contraction and stock; gates beside a ring, the
 * sprue above all, which grows with the casting, and the investment round them by what gating and moulds of such parts
 * come to (common practice, no source).
 */
function roomFor(p: AnyRankedPair, withMate: boolean): Room {
  const tips = (withMate && p.mesh === 'external' ? [p.gear, p.mate] : [p.gear]).map(
    (spec) => gearGeometry(spec).tipDiameter,
  );
  const rack = p.mesh === 'rack' && withMate ? (p.facts.travelPerTurn / p.gear.teeth) * p.mate.teeth : 0;
  const ring = p.mesh === 'internal' && withMate ? p.outsideDiameter : 0;
  const plain = Math.max(...tips, rack);
  const across = Math.max(1.03 * plain + 10, ring === 0 ? 0 : 1.03 * ring + 65);
  const height = p.faceWidth + 0.55 * Math.max(...tips, ring) + 75;
  const mould = { diameter: across + 35, height: height + 35 };
  const small = across + 10 > Number(usualBed.width) || height > Number(usualBed.height);
  // Plain gears take less than that on the whole; the usual flask is kept where it may well do.
  const least = ring === 0 ? 1.03 * plain + 27 : mould.diameter;
  const shallow = least > usualFlask.diameter || mould.height > usualFlask.height;
  return {
    bed: small
      ? {
          side: Math.max(Number(usualBed.width), up(across + 15)),
          height: Math.max(Number(usualBed.height), up(height)),
        }
      : null,
    flask: shallow
      ? { diameter: Math.min(largestFlask, up(mould.diameter)), height: up(mould.height) }
      : null,
  };
}

const flasksWith = (flask: { readonly diameter: number; readonly height: number }): readonly object[] =>
  [...[102, 152, 203].map((size) => ({ diameter: size, height: size })), flask].map(
    ({ diameter, height }) => ({
      name: `tube ${diameter} × ${height}`,
      diameter: `${diameter}mm`,
      height: `${height}mm`,
    }),
  );

function roomNote({ bed, flask }: Room, unit: LengthUnit): readonly string[] {
  const mm = (value: number): string => formatLength(value, unit, { digits: unit === 'in' ? 2 : 0 });
  const wants = [
    ...(bed === null ? [] : [`a print bed of ${mm(bed.side)}, ${mm(bed.height)} high`]),
    ...(flask === null ? [] : [`a flask of ${mm(flask.diameter)} × ${mm(flask.height)} inside`]),
  ];
  return wants.length === 0
    ? []
    : [
        `The larger part wants ${wants.join(' and ')}: the job is written as if the shop had such. Put in what it has.`,
      ];
}
