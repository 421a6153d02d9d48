/** Built-in flasks: round steel tubes in the sizes the trade stocks, and food cans by their can-maker's sizes. */

export interface Flask {
  /** The word in jobs. */
  readonly name: string;
  readonly title: string;
  readonly kind: 'tube' | 'can';
  /** mm, inside. */
  readonly insideDiameter: number;
  readonly insideHeight: number;
  /** Thickness of its steel, mm; 0 where the mould is stripped of it before the fire. */
  readonly wall: number;
}

/** mm: 16 gauge steel, and tinplate (both from memory). */
const tubeWall = 1.5;
const canWall = 0.25;

/**
 * Tubes by inside diameter × height, inch sizes of burnout charts. Cans: outside sizes of can-makers (diameter and
 * height over the seams, from memory) less 3 mm for seam and wall, less 3 mm for the end that stays.
 */
export const flasks: readonly Flask[] = [
  tube(2, 2.5),
  tube(2.5, 2.5),
  tube(2.5, 4),
  tube(3, 3),
  tube(3, 5),
  tube(3.5, 4),
  tube(3.5, 5),
  tube(4, 4),
  tube(4, 6),
  tube(4, 8),
  tube(5, 5),
  tube(5, 7),
  tube(6, 6),
  tube(6, 8),
  tube(7, 8),
  tube(8, 8),
  tube(8, 10),
  can('soup-can', 'Soup can (no. 1 picnic)', 2 + 11 / 16, 4),
  can('can-no-300', 'Can no. 300', 3, 4 + 7 / 16),
  can('can-no-2', 'Can no. 2', 3 + 7 / 16, 4 + 9 / 16),
  can('can-no-2-half', 'Can no. 2½', 4 + 1 / 16, 4 + 11 / 16),
  can('can-no-10', 'Can no. 10', 6 + 3 / 16, 7),
];

/** A flask by name, whatever the case; `undefined` when there is none. */
export function findFlask(name: string): Flask | undefined {
  const wanted = name.trim().toLowerCase();
  return flasks.find((f) => f.name === wanted);
}

/** mm³ inside. */
export const flaskVolume = (f: Pick<Flask, 'insideDiameter' | 'insideHeight'>): number =>
  (Math.PI / 4) * f.insideDiameter ** 2 * f.insideHeight;

function tube(diameter: number, height: number): Flask {
  const [d, h] = [diameter * 25.4, height * 25.4];
  return {
    name: `tube-${Math.round(d)}x${Math.round(h)}`,
    title: `Steel tube ${diameter} × ${height} in`,
    kind: 'tube',
    insideDiameter: d,
    insideHeight: h,
    wall: tubeWall,
  };
}

function can(name: string, title: string, diameter: number, height: number): Flask {
  return {
    name,
    title,
    kind: 'can',
    insideDiameter: diameter * 25.4 - 3,
    insideHeight: height * 25.4 - 3,
    wall: canWall,
  };
}
