/** Legal gating inputs for the tests. Parts are upright blocks or tubes so that they can be built too. */
import fc from 'fast-check';
import type { GatingInput, MetalFamily } from '../../../../core/foundry/gating/index.js';
import { metalFamilies } from '../../../../core/foundry/gating/index.js';

/** A round plate, hub or tube: outer and bore radius, height; the gate on its top round the bore. */
export interface TubeCase {
  readonly radius: number;
  readonly bore: number;
  readonly height: number;
  readonly input: GatingInput;
}

const density = 0.0088;

export const tubeInput = (
  radius: number,
  bore: number,
  height: number,
  gateDiameter: number,
  vents: readonly (readonly [radius: number, turn: number, foot: number])[],
  family: MetalFamily = 'tin-bronze',
  at: readonly [number, number] = [0, 0],
): TubeCase => {
  const volume = Math.PI * (radius ** 2 - bore ** 2) * height;
  const area = 2 * Math.PI * (radius ** 2 - bore ** 2) + 2 * Math.PI * (radius + bore) * height;
  return {
    radius,
    bore,
    height,
    input: {
      gates: [{ name: 'top', at: [...at, height], innerDiameter: 2 * bore, outerDiameter: gateDiameter }],
      vents: vents.map(([r, turn, footDiameter], i) => ({
        name: `vent ${i + 1}`,
        at: [at[0] + r * Math.cos(turn), at[1] + r * Math.sin(turn), height],
        footDiameter,
      })),
      casting: { volume, area, mass: volume * density, top: height, bottom: 0, radius },
      metal: {
        name: family,
        family,
        liquidDensity: 0.008,
        freezingContraction: 0.05,
        freezingFactor: 25,
        freezingRange: 150,
      },
    },
  };
};

/** Tubes and plates from thimbles to wheels, gates from tight to generous, vents anywhere on the top face. */
export const tubeCases: fc.Arbitrary<TubeCase> = fc
  .record({
    radius: fc.double({ min: 5, max: 90, noNaN: true }),
    boreShare: fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 0.6, noNaN: true })),
    height: fc.double({ min: 3, max: 80, noNaN: true }),
    gateShare: fc.double({ min: 0.2, max: 1, noNaN: true }),
    vents: fc.array(
      fc.tuple(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
        fc.double({ min: 1, max: 6, noNaN: true }),
      ),
      { maxLength: 8 },
    ),
    family: fc.constantFrom(...metalFamilies),
  })
  .map(({ radius, boreShare, height, gateShare, vents, family }) => {
    const bore = radius * boreShare;
    const gate = 2 * (bore + (radius - bore) * gateShare);
    // A vent place lies wholly on the top face.
    const places = vents
      .map(([where, turn, foot]) => [bore + (radius - bore) * where, turn, foot] as const)
      .filter(([r, , foot]) => r - foot / 2 > bore && r + foot / 2 < radius);
    return tubeInput(radius, bore, height, gate, places, family);
  });

const share = (): fc.Arbitrary<number> => fc.noBias(fc.double({ min: 0, max: 1, noNaN: true }));

/** Thin plates with a small gate and many vents, near the cup and near each other. */
export const crowdedCases: fc.Arbitrary<TubeCase> = fc
  .record({
    radius: share(),
    height: share(),
    gate: share(),
    vents: fc.array(fc.tuple(share(), share(), share()), { minLength: 4, maxLength: 10 }),
  })
  .map(({ radius, height, gate, vents }) => {
    const outer = 15 + 40 * radius;
    const gateDiameter = 6 + 8 * gate;
    const inner = gateDiameter / 2 + 6;
    return tubeInput(
      outer,
      0,
      3 + 7 * height,
      gateDiameter,
      vents.map(([where, turn, foot]) => [
        Math.sqrt(inner ** 2 + where * ((outer - 2) ** 2 - inner ** 2)),
        2 * Math.PI * turn,
        1.5 + 2 * foot,
      ]),
    );
  });
