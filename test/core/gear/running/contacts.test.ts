import { describe, expect, it } from 'vitest';
import { gearGeometry } from '../../../../core/gear/gear-geometry.js';
import {
  type ContactPlace,
  contactLines,
  contactsAt,
  slidingAt,
  teethInContact,
} from '../../../../core/gear/running/contacts.js';
import { type RunningPair, turnAt } from '../../../../core/gear/running/running-pair.js';
import { type FlankSide, standsAt } from '../../../../core/gear/running/stand.js';
import type { ToothForm } from '../../../../core/gear/tooth-form.js';
import { formProfile } from '../../../helpers/form-profile.js';
import { rackOracle } from '../../../helpers/rack-oracle.js';
import { factsOf, heights, type RunningCase, runningCases } from './running-cases.js';

const angles = [0, 0.07, 0.131, 0.2, -0.33, 5.9];
const sides: readonly FlankSide[] = ['leading', 'trailing'];
const cases = Object.entries(runningCases);

/** How far a point is from a member's profile, along its circle or the rack, mm, by means that know no involute. */
type OffProfile = (x: number, y: number) => number;

function nearest(around: number, pitch: number, half: number): number {
  const inPitch = around - pitch * Math.round(around / pitch);
  return Math.abs(inPitch) - half;
}

/** The tooth that a rack leaves in rolling, by brute force. */
function byRack(spec: RunningPair['mesh']['gear']): OffProfile {
  const oracle = rackOracle({ ...spec, tipDiameter: gearGeometry(spec).tipDiameter });
  return (x, y) => {
    const r = Math.hypot(x, y);
    return r * nearest(Math.atan2(y, x), (2 * Math.PI) / spec.teeth, oracle.halfAngleAt(r));
  };
}

function byProfile(space: ToothForm): OffProfile {
  const { profile } = formProfile(space, 1e-5);
  return (x, y) => {
    const r = Math.hypot(x, y);
    const above = profile.findIndex((p) => p.radius >= r);
    const [a, b] = [profile[above - 1]!, profile[above]!];
    const half = a.angle + ((r - a.radius) / (b.radius - a.radius)) * (b.angle - a.angle);
    return r * nearest(Math.atan2(y, x), (2 * Math.PI) / space.teeth, half);
  };
}

/** ISO 53's straight flank, thinned. */
function byStraightFlank({ mesh }: RunningPair): OffProfile {
  const { normalModule: m, helixAngle, normalPressureAngle, thinning } = mesh.mate;
  const stretch = 1 / Math.cos(helixAngle);
  const pitch = Math.PI * m * stretch;
  return (x, height) =>
    nearest(
      x - pitch / 2,
      pitch,
      ((Math.PI * m) / 4 - thinning / 2 - height * Math.tan(normalPressureAngle)) * stretch,
    );
}

const mateProfile = (pair: RunningPair): OffProfile =>
  pair.mesh.kind === 'rack'
    ? byStraightFlank(pair)
    : pair.mesh.kind === 'internal'
      ? byProfile(pair.mateForm as ToothForm)
      : byRack(pair.mesh.mate);

const local = ([x, y]: readonly number[], turn: number, [ox, oy]: readonly number[]): [number, number] => {
  const [u, v] = [(x as number) - (ox as number), (y as number) - (oy as number)];
  return [u * Math.cos(turn) + v * Math.sin(turn), v * Math.cos(turn) - u * Math.sin(turn)];
};

/** Whatever its height, a section stands as the pair would stand turned on by what the helix turns it. */
const sectionAt = (pair: RunningPair, angle: number, z: number, side: FlankSide) =>
  standsAt(pair, angle + turnAt(pair, z), side);

describe('contact points lie on both flanks within 1 µm', () => {
  it.each(cases)('%s', (_, { pair }) => {
    const [onGear, onMate] = [byRack(pair.mesh.gear), mateProfile(pair)];
    let seen = 0;
    for (const side of sides)
      for (const angle of angles)
        for (const z of heights) {
          const { gear, mate } = sectionAt(pair, angle, z, side);
          for (const { at } of contactsAt(pair, angle, z, side)) {
            seen++;
            expect(Math.abs(onGear(...local(at, gear.turn, gear.at)))).toBeLessThan(1e-3);
            expect(Math.abs(onMate(...local(at, mate.turn, mate.at)))).toBeLessThan(1e-3);
            expect(at[2]).toBe(z);
          }
        }
    expect(seen).toBeGreaterThanOrEqual(sides.length * angles.length * heights.length);
  });
});

describe('over a pitch', () => {
  it.each(cases)(
    '%s: as many pairs of flanks touch, on average, as the contact ratio says',
    (_, { pair }) => {
      const count = 2000;
      const pitch = (2 * Math.PI) / pair.mesh.gear.teeth;
      let sum = 0;
      for (let i = 0; i < count; i++)
        sum += contactsAt(pair, ((i + 0.5) / count) * pitch, 2.2, 'leading').length;
      expect(Math.abs(sum / count - factsOf(pair).contactRatio)).toBeLessThan(2 / count);
    },
  );

  it('spur 24/40 of module 2 at 64 mm: one or two pairs, ε_α by the handbook’s formula', () => {
    const { pair } = runningCases['spur 24/40'] as RunningCase;
    // (√(r_a1² − r_b1²) + √(r_a2² − r_b2²) − a sin α) / p_b
    const [b1, b2] = [24, 40].map((z) => z * Math.cos(Math.PI / 9)) as [number, number];
    const along = Math.sqrt(26 ** 2 - b1 ** 2) + Math.sqrt(42 ** 2 - b2 ** 2) - 64 * Math.sin(Math.PI / 9);
    expect(pair.path.to - pair.path.from).toBeCloseTo(along, 9);
    const numbers = angles.map((angle) => contactsAt(pair, angle, 1, 'leading').length);
    expect(new Set(numbers)).toEqual(new Set([1, 2]));
  });

  it('neither flank touches while the teeth stand midway', () => {
    const { pair } = runningCases['helical 18/29, right'] as RunningCase;
    expect(contactsAt(pair, 0.1, 1, 'midway')).toEqual([]);
    expect(contactLines(pair, 0.1, 'midway')).toEqual([]);
  });
});

describe('lines of contact', () => {
  it.each(cases)('%s: they pass through the contact points of every plane', (_, { pair }) => {
    for (const angle of angles) {
      const lines = contactLines(pair, angle, 'leading');
      for (const z of heights) {
        const points = contactsAt(pair, angle, z, 'leading');
        const through = lines.flatMap(({ points: p }) =>
          p.slice(1).flatMap((b, i) => {
            const a = p[i]!;
            if (z < a[2] || z >= b[2]) return [];
            const f = (z - a[2]) / (b[2] - a[2]);
            return [[a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])] as const];
          }),
        );
        expect(through.length).toBe(points.length);
        // Between the places of a rounded apex the line is a chord.
        for (const { at } of points)
          expect(Math.min(...through.map(([x, y]) => Math.hypot(x - at[0], y - at[1])))).toBeLessThan(2e-3);
      }
    }
  });

  it('a helical one leans by the base helix angle: sin β_b = sin β cos α_n', () => {
    const { pair } = runningCases['helical 18/29, right'] as RunningCase;
    const line = contactLines(pair, 0, 'leading').find(({ points }) => points.length > 4)!;
    const [a, b] = [line.points[0]!, line.points.at(-1)!];
    const lean = Math.atan(Math.hypot(b[0] - a[0], b[1] - a[1]) / Math.abs(b[2] - a[2]));
    expect(Math.sin(lean)).toBeCloseTo(Math.sin(Math.PI / 10) * Math.cos(Math.PI / 9), 9);
  });

  it('teeth in contact lie between the whole numbers about ε_γ', () => {
    const { pair } = runningCases['helical 18/29, right'] as RunningCase;
    const total = factsOf(pair).contactRatio + (12 * Math.sin(Math.PI / 10)) / (Math.PI * 2);
    const numbers = Array.from({ length: 50 }, (_, i) => teethInContact(pair, i / 100, 'leading').length);
    expect(Math.min(...numbers)).toBe(Math.floor(total));
    expect(Math.max(...numbers)).toBe(Math.ceil(total));
  });
});

describe('specific sliding', () => {
  /** How far the contact runs along a flank as the gear turns on by a little, mm. */
  const run = (pair: RunningPair, place: ContactPlace, angle: number): [number, number] => {
    const step = 1e-5;
    const on = contactsAt(pair, angle + step, 3.11, 'leading').find((p) => p.tooth === place.tooth)!;
    const lengths = (['gear', 'mate'] as const).map((which) => {
      const [before, after] = [[place, angle] as const, [on, angle + step] as const].map(([p, phi]) => {
        const { turn, at } = sectionAt(pair, phi, 3.11, 'leading')[which];
        return local(p.at, turn, at);
      }) as [[number, number], [number, number]];
      return Math.hypot(after[0] - before[0], after[1] - before[1]);
    });
    return lengths as [number, number];
  };

  it.each(cases)('%s: 1 less what the one flank runs over what the other does', (_, { pair }) => {
    const places = contactsAt(pair, 0.02, 3.11, 'leading');
    for (const place of places) {
      const [own, other] = run(pair, place, 0.02);
      const [gear, mate] = place.sliding;
      expect(Math.abs(1 - other / own - gear)).toBeLessThan(2e-3 * (1 + Math.abs(gear)));
      expect(Math.abs(1 - own / other - mate)).toBeLessThan(2e-3 * (1 + Math.abs(mate)));
    }
    const atPitchPoint = slidingAt(pair, pair.pitchRadius * Math.sin(pair.pressureAngle));
    for (const value of atPitchPoint) expect(value).toBeCloseTo(0, 9);
  });
});
