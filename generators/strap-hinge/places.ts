import { maths } from '../../core/maths/maths.js';
import type { GatePlace, VentPlace } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import { offsetOutline } from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { type Circle, flatRoom, leastRoom, roomiest } from '../hardware/flat-room.js';
import { barrelVents } from '../hinge/barrel-vents.js';
import { faceStart, grownSection } from '../hinge/knuckle-section.js';
import { knuckleSpans } from '../hinge/knuckles.js';
import { faceHeight, leafOutlineOf, type StrapLeaf, screwsOf, sideOf } from './body.js';
import type { StrapHingeSizes } from './sizes.js';

const leastVent = 1.5;
const widestVent = 3;
/** Mould between a gate and a vent, mm. */
const ventToGate = 3.5;

/** The roomiest place of each fifth of a long strap. */
const furtherPlaces = (
  room: (x: number, y: number) => number,
  [from, to]: readonly [number, number],
): readonly Circle[] =>
  [0, 1, 2, 3, 4]
    .map((i) =>
      roomiest(room, { x: [from + (i / 5) * (to - from), from + ((i + 1) / 5) * (to - from)], y: [0, 0] }),
    )
    .filter(({ radius }) => radius > leastRoom);

/** Metal enters on the inner face, of the strap near its middle; air leaves at the knuckles and the far ends. */
export function strapPlaces(
  s: StrapHingeSizes,
  leaf: StrapLeaf,
  stock: Stock,
): { readonly gates: readonly GatePlace[]; readonly vents: readonly VentPlace[] } {
  const { skin } = stock;
  const section = grownSection(s.strapSection, skin);
  const from = Math.max(faceStart(section), s.notchFloor) + 0.1;
  const face = faceHeight(s) + skin;
  // The flat ends where the edges' rounding begins.
  const flat = flatRoom(
    offsetOutline(leafOutlineOf(s, leaf), -s.edge),
    [],
    screwsOf(s, leaf).map((at) => ({ at, radius: s.screw.seat.mouthDiameter / 2 + skin })),
  );
  const room = (x: number, y: number): number => Math.min(flat(x, y), x - from);
  const reach = leaf === 'plate' ? s.plateWidth : s.length;
  const half = s.rootWidth / 2;
  const middle = from + 0.4 * (reach - from);
  let gate: { at: Vec2; radius: number } = { at: [middle, 0], radius: room(middle, 0) };
  const worth = ({ at, radius }: typeof gate): number => radius - 0.025 * maths.hypot(at[0] - middle, at[1]);
  const [nx, ny] = [Math.min(200, Math.ceil(reach - from)), leaf === 'plate' ? 60 : 8];
  for (let i = 1; i < nx; i++) {
    for (let j = 0; j <= ny; j++) {
      const at: Vec2 = [from + ((reach - from) * i) / nx, half * ((2 * j) / ny - 1)];
      const place = { at, radius: room(at[0], at[1]) };
      if (worth(place) > worth(gate)) gate = place;
    }
  }
  const vents: VentPlace[] = [...barrelVents(section, knuckleSpans(s.row, sideOf(leaf)), s.barrelRadius)];
  const corners: readonly Vec2[] =
    leaf === 'plate'
      ? [-1, 1].map((hand): Vec2 => [reach - s.corner, hand * (half - s.corner)])
      : [[reach - s.edge - widestVent / 2 - 0.2, 0]];
  for (const [x, y] of corners) {
    const foot = 2 * Math.min(room(x, y), widestVent / 2);
    const clear = maths.hypot(x - gate.at[0], y - gate.at[1]) - gate.radius - foot / 2;
    if (foot < leastVent || clear < ventToGate) continue;
    vents.push({
      name: leaf === 'plate' ? 'corner of the plate' : "strap's tip",
      at: [x, y, face],
      footDiameter: foot,
    });
  }
  return {
    gates: [
      {
        name: 'inner face',
        at: [gate.at[0], gate.at[1], face],
        innerDiameter: 0,
        outerDiameter: Math.max(0, 2 * gate.radius),
      },
      ...(leaf === 'strap' ? furtherPlaces(room, [from, reach]) : []).map(
        ({ at, radius }, i): GatePlace => ({
          name: `inner face, place ${i + 1} from the knuckles`,
          at: [at[0], at[1], face],
          innerDiameter: 0,
          outerDiameter: 2 * radius,
          further: true,
        }),
      ),
    ],
    vents,
  };
}
