import { noStock } from '../../../core/part/stock.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import type { Kernel, Mesh } from '../../../core/solid/types.js';
import { findPart } from '../../../generators/index.js';
import { leastByCurvature } from '../../helpers/least-by-curvature.js';
import { faceWidth, type GearCase, leastOfGear, normalModule } from '../../helpers/least-gear.js';
import type { Row, Sheet } from '../sheet.js';
import { many, times } from './words.js';

const gears: readonly GearCase[] = (
  [
    ['spur-gear', 0],
    ['helical-gear', 25],
    ['double-helical-gear', 25],
    ['ring-gear', 0],
  ] as const
).flatMap(([part, beta]) => [40, 80].map((teeth) => ({ part, teeth, beta, x: 0, tolerance: 0.01 })));

/** Castings of smooth bodies, at their usual sizes; the hatch pull not bevelled, which is flat all over. */
const smooth: readonly (readonly [part: string, piece?: string | undefined, sizes?: object])[] = [
  ['horn-cleat'],
  ['jam-cleat'],
  ['deck-eye'],
  ['fairlead'],
  ['hatch-pull', undefined, { section: 'oval' }],
  ['ring-pull', 'ring'],
  ['bow-pull'],
  ['flush-pull'],
  ['knob'],
];
const smoothTolerance = 0.05;

/** Triangles against the least that stay within the tolerance. */
export async function benchTriangles(sheet: Sheet): Promise<void> {
  const kernel = await loadKernel();
  const row = (what: string, made: number, least: number, wanted?: number): Row => ({
    what,
    measured: many(made, 'triangles'),
    against: many(Math.round(least), 'at least'),
    ratio: times(made / least),
    ...(wanted === undefined
      ? {}
      : { wanted: { words: `at most ${wanted} ×`, met: made / least <= wanted } }),
  });
  const ofGears = gears.map((c) => {
    const bore = c.part === 'ring-gear' ? {} : { bore: 0 };
    const helix = c.part === 'spur-gear' ? {} : { helixAngle: (c.beta * Math.PI) / 180 };
    const sizes = { module: normalModule, teeth: c.teeth, profileShift: c.x, faceWidth, ...bore, ...helix };
    const made = build(kernel, c.part, undefined, sizes, c.tolerance).triangles.length / 3;
    return row(`${c.part}, z ${c.teeth}, ${c.tolerance} mm`, made, leastOfGear(c), 1.3);
  });
  const ofSmooth = smooth.map(([part, piece, sizes = {}]) => {
    const made = build(kernel, part, piece, sizes, smoothTolerance).triangles.length / 3;
    const fine = build(kernel, part, piece, sizes, smoothTolerance / 6);
    return row(
      `${part}${piece ? `, ${piece}` : ''}, ${smoothTolerance} mm`,
      made,
      leastByCurvature(fine, smoothTolerance, 2),
    );
  });
  sheet.add(
    'Triangles against the least for the tolerance',
    'Gears: the fewest chords and strips of a toothed body without bore, counted by other means than the program’s. Smooth ' +
      'bodies: what their curvature alone asks for, edges, fillets’ ends, holes and flats counted as nothing, so that ' +
      'no mesh can reach it.',
    [...ofGears, ...ofSmooth],
  );
}

function build(
  kernel: Kernel,
  name: string,
  piece: string | undefined,
  sizes: object,
  tolerance: number,
): Mesh {
  const part = findPart(name);
  if (!part) throw new Error(name);
  return kernel.scope(() => {
    const kit = { kernel, tolerance, ...(piece === undefined ? {} : { piece }) };
    const built = part.build(part.parameters.parse(sizes), noStock, kit);
    if (built.solid === null) throw new Error(built.findings.map((f) => f.message).join());
    return built.solid.mesh();
  });
}
