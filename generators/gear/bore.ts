import { coreLimit } from '../../core/foundry/holes.js';
import { keywayFor } from '../../core/gear/keyways.js';
import { maths } from '../../core/maths/maths.js';
import { type Finding, note, stop } from '../../core/part/finding.js';
import { isNoStock, type Stock } from '../../core/part/stock.js';
import { sampleCurve } from '../../core/solid/sample-curve.js';
import type { Polygon, Vec2 } from '../../core/solid/types.js';

export interface BoreParameters {
  /** Diameter, or size across the flats; 0 for none. */
  readonly bore: number;
  readonly boreShape: 'round' | 'keyed' | 'flat' | 'hexagon' | 'square';
  readonly keyStandard: 'metric' | 'inch';
  readonly boreFlat?: number | undefined;
  readonly boreCasting: 'auto' | 'cored' | 'pilot' | 'solid';
}

/** The hole in the state that is built. */
export interface BoreForm {
  /** Hole as drawn, as cast with its stock, a smaller round pilot, or none with a dimple to drill from. */
  readonly kind: 'finished' | 'cored' | 'pilot' | 'dimple' | 'none';
  /** Size of the hole in this state: diameter, or across the flats; 0 without a hole. */
  readonly size: number;
  /** Radius of the circle that holds the hole; 0 without one. */
  readonly mouthRadius: number;
  /** Keyway of this state, or null. */
  readonly key: null | { readonly width: number; readonly overDepth: number };
  /** D-shaped: from the flat to the round opposite. */
  readonly flat: number | null;
}

export interface BorePlan {
  readonly form: BoreForm;
  readonly findings: readonly Finding[];
}

const none: BoreForm = { kind: 'none', size: 0, mouthRadius: 0, key: null, flat: null };
const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;
/** mm */
const leastBore = 1;
/** A pilot leaves the drill something to follow and metal to cut (common practice, no source). */
const pilotShare = 0.6;

/** Radius of the smallest circle round the finished hole, mm: what walls are measured from. */
export function finishedReach(p: BoreParameters): number {
  const half = p.bore / 2;
  if (p.boreShape === 'hexagon') return half / maths.cos(Math.PI / 6);
  if (p.boreShape === 'square') return half * Math.SQRT2;
  if (p.boreShape === 'keyed') {
    const key = keywayFor(p.bore, p.keyStandard);
    return key ? maths.hypot(half + key.hubDepth, key.width / 2) : half;
  }
  return half;
}

/**
 * Chooses how the bore is made in this state. A keyway is cut after casting, in every casting; the rest of the hole is
 * cored where the mould can carry the core, as a pilot where only a thinner one is asked for, else cast solid.
 * @param depth length of the hole, mm
 */
export function planBore(p: BoreParameters, depth: number, stock: Stock): BorePlan {
  if (p.bore === 0) return { form: none, findings: [] };
  const wrong = checkBore(p);
  if (wrong) return { form: none, findings: [wrong] };
  if (isNoStock(stock)) return { form: finished(p), findings: [] };
  const cored = coredForm(p, stock.bore);
  const carries = (diameter: number): boolean => {
    if (diameter <= 0) return false;
    const limit = coreLimit(diameter, 'through');
    return limit.castable && depth <= limit.maxDepth;
  };
  const keyNote =
    p.boreShape === 'keyed'
      ? [
          note(
            'keyway-cut-after',
            'The keyway is not in the casting.',
            'Cut it after the bore is reamed.',
            'boreShape',
          ),
        ]
      : [];
  const pilot = Math.floor(2 * pilotShare * p.bore) / 2;
  const wantsPilot = p.boreCasting === 'pilot';
  if (p.boreCasting === 'auto' || p.boreCasting === 'cored') {
    if (carries(cored.size) || (p.boreCasting === 'cored' && cored.size >= leastBore)) {
      const long =
        carries(cored.size) || p.boreCasting === 'auto'
          ? []
          : [
              note(
                'bore-core-long',
                `A core ${mm(cored.size)} thick and ${mm(depth)} long is more than the mould carries safely.`,
                'Let boreCasting be auto, or drill the bore.',
                'boreCasting',
                'bore',
                { boreCasting: 'auto' },
              ),
            ];
      return { form: cored, findings: [...keyNote, ...long] };
    }
  }
  if (wantsPilot && carries(pilot)) {
    return {
      form: { kind: 'pilot', size: pilot, mouthRadius: pilot / 2, key: null, flat: null },
      findings: [
        ...keyNote,
        note(
          'bore-cast-as-pilot',
          `The casting has a ${mm(pilot)} pilot hole.`,
          `Drill and finish it to ${mm(p.bore)}.`,
          'boreCasting',
        ),
      ],
    };
  }
  return {
    form: { ...none, kind: 'dimple' },
    findings: [...keyNote, solidNote(p, wantsPilot ? pilot : cored.size, depth)],
  };
}

const solidNote = (p: BoreParameters, core: number, depth: number): Finding =>
  note(
    'bore-cast-solid',
    p.boreCasting === 'solid'
      ? 'The bore is cast solid, as asked.'
      : `A core ${mm(Math.max(0, core))} thick and ${mm(depth)} long would not stand in the mould: the bore is cast solid.`,
    'Drill it from the dimple in the lower side, and finish it.',
    'bore',
    'boreCasting',
  );

/** What is wrong with a bore by itself. */
export function checkBore(p: BoreParameters): Finding | null {
  if (p.bore < leastBore) {
    return stop(
      'bore-too-small',
      `A bore of ${mm(p.bore)} cannot be made; at least ${leastBore} mm.`,
      'Use a larger bore, or 0 for none.',
      'bore',
      { bore: leastBore },
    );
  }
  if (p.boreShape === 'keyed' && !keywayFor(p.bore, p.keyStandard)) {
    return stop(
      'no-keyway-for-bore',
      `The ${p.keyStandard === 'inch' ? 'ANSI B17.1' : 'ISO/R 773'} table has no keyway for a bore of ${mm(p.bore)}.`,
      p.keyStandard === 'inch'
        ? 'Use a bore from 8 to 82 mm (5/16 to 3 1/4 in).'
        : 'Use a bore over 6 and up to 95 mm.',
      'bore',
      'boreShape',
    );
  }
  const flat = p.boreFlat ?? 0.9 * p.bore;
  if (p.boreShape === 'flat' && (flat <= 0.55 * p.bore || flat >= p.bore - 0.05)) {
    return stop(
      'bore-flat-out-of-range',
      `A flat ${mm(flat)} from the round opposite does not make a D of a ${mm(p.bore)} bore.`,
      `Use from ${mm(0.6 * p.bore)} to ${mm(0.97 * p.bore)}.`,
      'boreFlat',
      'bore',
      { boreFlat: Math.round(90 * p.bore) / 100 },
    );
  }
  return null;
}

function finished(p: BoreParameters): BoreForm {
  const key = p.boreShape === 'keyed' ? keywayFor(p.bore, p.keyStandard) : undefined;
  return {
    kind: 'finished',
    size: p.bore,
    mouthRadius: finishedReach(p),
    key: key ? { width: key.width, overDepth: p.bore + key.hubDepth } : null,
    flat: p.boreShape === 'flat' ? (p.boreFlat ?? 0.9 * p.bore) : null,
  };
}

function coredForm(p: BoreParameters, stock: number): BoreForm {
  const size = p.bore - 2 * stock;
  return {
    kind: 'cored',
    size,
    mouthRadius: finishedReach({
      ...p,
      bore: size,
      boreShape: p.boreShape === 'keyed' ? 'round' : p.boreShape,
    }),
    key: null,
    flat: p.boreShape === 'flat' ? (p.boreFlat ?? 0.9 * p.bore) - 2 * stock : null,
  };
}

/** The hole's outline in plan, counter-clockwise, flat or keyway towards +Y; null without a hole. */
export function boreOutline(
  shape: BoreParameters['boreShape'],
  form: BoreForm,
  tolerance: number,
): Polygon | null {
  if (form.size <= 0) return null;
  const r = form.size / 2;
  if (form.kind !== 'pilot' && (shape === 'hexagon' || shape === 'square')) {
    const sides = shape === 'hexagon' ? 6 : 4;
    return Array.from({ length: sides }, (_, k): Vec2 => {
      const angle = (2 * Math.PI * (k + 0.5)) / sides;
      return [form.mouthRadius * maths.cos(angle), form.mouthRadius * maths.sin(angle)];
    });
  }
  if (form.key) {
    const half = form.key.width / 2;
    const start = maths.asin(half / r);
    const top = form.key.overDepth - r;
    return [
      ...roundArc(r, Math.PI / 2 + start, (5 * Math.PI) / 2 - start, tolerance),
      [half, top],
      [-half, top],
    ];
  }
  if (form.flat !== null) {
    const reach = maths.acos((form.flat - r) / r);
    return roundArc(r, Math.PI / 2 + reach, (5 * Math.PI) / 2 - reach, tolerance);
  }
  return roundArc(r, 0, 2 * Math.PI, tolerance).slice(0, -1);
}

const roundArc = (r: number, from: number, to: number, tolerance: number): Polygon =>
  sampleCurve({ from, to, at: (t) => [r * maths.cos(t), r * maths.sin(t)] }, tolerance, 8).points;
