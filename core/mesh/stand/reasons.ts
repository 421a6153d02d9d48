import type { Vec3 } from '../../solid/types.js';
import type { Bed, StandMeasures } from './measure.js';

const mm = (value: number): string => `${value.toFixed(value < 10 ? 1 : 0)} mm`;
const square = (value: number): string => `${(value / 100).toFixed(value < 1000 ? 2 : 1)} cm²`;
const litres = (value: number): string => `${(value / 1000).toFixed(2)} ml`;

/** Less support than this prints over thin air, mm²: as the job has it. */
const bridged = 25;

/** In plain sentences what speaks for a direction and against it, with numbers. */
export function sayReasons(m: StandMeasures, bed: Bed | undefined): readonly string[] {
  const { places, volume, estimated } = m.air;
  const size = `${mm(m.room[0])} by ${mm(m.room[1])}, ${mm(m.height)} high`;
  return [
    ...(bed && !m.fits
      ? [
          `It does not fit the bed: it takes ${size}${bed.headroom ? ` and ${mm(bed.headroom)} of gating over it` : ''}; the bed has ${mm(bed.width)} by ${mm(bed.depth)}, ${mm(bed.height)} high.`,
        ]
      : []),
    m.foot < 1
      ? 'It rests on a point or an edge: the print needs a support under it.'
      : m.balance <= 0
        ? `It falls over: its middle is not over the ${square(m.foot)} it rests on.`
        : `It stands on ${square(m.foot)} by itself.`,
    m.support <= bridged
      ? 'Nothing of it needs support.'
      : `${square(m.support)} faces down flatter than 45° and needs support.`,
    places === 0
      ? 'Metal rising in it traps no air.'
      : `Metal rising in it traps ${estimated ? 'about ' : ''}${litres(volume)} of air in ${places} ${places === 1 ? 'place, which needs a vent' : 'places, which need a vent each'}.`,
    `The middle of its heavy metal is ${Math.round(100 * m.feed)} % of the way up, ${m.feed >= 0.55 ? 'near the gate that feeds it' : m.feed <= 0.45 ? 'far from the gate that feeds it' : 'neither near the gate nor far'}.`,
    m.gate < 1
      ? 'Nothing near its top is level enough for a gate.'
      : `${square(m.gate)} near its top is level enough for a gate.`,
    ...(bed && !m.fits ? [] : [`It takes ${size}${bed ? ', which fits the bed' : ''}.`]),
  ];
}

const sides: readonly (readonly [Vec3, string])[] = [
  [[0, 0, 1], 'as it is'],
  [[0, 0, -1], 'upside down'],
  [[1, 0, 0], 'with its right side (+x) up'],
  [[-1, 0, 0], 'with its left side (−x) up'],
  [[0, 1, 0], 'with its back (+y) up'],
  [[0, -1, 0], 'with its front (−y) up'],
];

/** A direction in words. */
export function nameDirection(up: Vec3): string {
  const side = sides.find(([axis]) => axis.every((a, k) => a === up[k]));
  if (side) return side[1];
  const words = (v: Vec3): string => v.map((c) => (Math.round(100 * c) / 100 + 0).toFixed(2)).join(', ');
  const near = sides.find(([axis]) => words(axis) === words(up));
  return near ? `nearly ${near[1]}` : `with (${words(up).replaceAll('-', '−')}) up`;
}

export const axes: readonly Vec3[] = sides.map(([axis]) => axis);
