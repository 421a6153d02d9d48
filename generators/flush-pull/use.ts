import {
  bendingStress,
  boltAllowables,
  cantilever,
  checkLoad,
  type LoadCheck,
  rectangleSection,
  stressCheck,
} from '../../core/hardware/index.js';
import { type Finding, note } from '../../core/part/finding.js';
import { noStock } from '../../core/part/stock.js';
import { strengthAllowables } from '../hardware/load-fields.js';
import { cupSide, flareEnd } from './profile.js';
import type { FlushPullParameters, FlushPullSizes } from './sizes.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/** Breadth of one finger pressing on the wall, mm (common practice, no source). */
const fingerPress = 20;

/** What the wood wants, so that the plate lies flush and the cup does not bear. */
export function pocketNote(s: FlushPullSizes): Finding {
  const cup = cupSide(s, noStock);
  const [length, width] = [s.recessLength, s.recessWidth].map((size) =>
    Math.ceil(2 * (size / 2 + flareEnd(cup)) + 1),
  );
  return note(
    'pocket-in-the-wood',
    `the door wants a pocket ${length} × ${width} mm, ${mm(Math.ceil(s.top + 1))} deep, and a seat for the plate ${mm(s.plateThickness)} deep`,
    `leave 4 mm of wood or more behind it: a door ${Math.ceil(s.top + 5)} mm thick`,
    'recessDepth',
    'plateThickness',
    'wall',
  );
}

/** The wall pressed by the fingers at half its height, as if the floor alone held it, and the screws. */
export function flushLoad(p: FlushPullParameters, s: FlushPullSizes): LoadCheck {
  const { pull } = s;
  const breadth = Math.min(fingerPress * s.fingers, s.recessLength);
  const wall = rectangleSection(breadth, s.wall);
  const shank = s.screw.kind === 'bolt' ? s.screw.stressArea : (Math.PI / 4) * s.screw.rootDiameter ** 2;
  return checkLoad(pull, [
    stressCheck(
      'wall',
      'bending by the fingers',
      bendingStress(cantilever(pull, s.recessDepth / 2), wall),
      strengthAllowables(p.strengthOf),
    ),
    stressCheck(
      'screws',
      'shear',
      pull / (s.screws.length * shank),
      boltAllowables('silicon bronze'),
      'shear',
    ),
  ]);
}
