/**
 * Wood screws with countersunk heads.
 * By gauge, ANSI B18.6.1: shank 0.060 + 0.013 n in, head 82°; the sharp diameters of 2 to 7 seen on a woodworking
 * screw chart, the rest and the smallest heads from memory (they are those of the machine screws of B18.6.3).
 * Metric, DIN 97 (slotted, 90°), from memory.
 */
import type { WoodScrew } from './fastener.js';

const inch = 25.4;

/** Shank of a gauge, mm: 0.060 + 0.013 n in (ANSI B18.6.1). */
export const gaugeDiameter = (gauge: number): number => (0.06 + 0.013 * gauge) * inch;

/** Root of the thread by the shank (Wood Handbook, FPL-GTR-282, 8: about two thirds, from memory). */
const rootShare = 2 / 3;

/** Gauge, sharp head diameter and smallest real one, in. */
const gauges: readonly (readonly [gauge: number, sharp: number, least: number])[] = [
  [2, 0.172, 0.147],
  [3, 0.199, 0.171],
  [4, 0.225, 0.195],
  [5, 0.252, 0.22],
  [6, 0.279, 0.244],
  [7, 0.305, 0.268],
  [8, 0.332, 0.292],
  [9, 0.358, 0.316],
  [10, 0.385, 0.34],
  [12, 0.438, 0.389],
  [14, 0.507, 0.452],
];

/** Shank and head, mm. */
const metric: readonly (readonly [shank: number, head: number])[] = [
  [2.5, 4.7],
  [3, 5.6],
  [3.5, 6.5],
  [4, 7.5],
  [4.5, 8.3],
  [5, 9.2],
  [5.5, 10.2],
  [6, 11],
  [7, 12.5],
  [8, 14.5],
];

/**
 * Hole in the metal for a wood screw's shank: 0.25, 0.5 and 1 mm over it up to 5 mm, a tenth of it more beyond, the
 * steps of ISO 273 near these sizes (common practice, no source).
 */
function shankHole(shank: number): WoodScrew['clearanceHole'] {
  const grow = Math.max(1, shank / 5);
  return { fine: shank + 0.25 * grow, medium: shank + 0.5 * grow, coarse: shank + 0.8 * grow };
}

export const gaugeScrews: readonly WoodScrew[] = gauges.map(([gauge, sharp, least]) => {
  const diameter = gaugeDiameter(gauge);
  return {
    name: `#${gauge}`,
    kind: 'wood-screw',
    series: 'inch',
    diameter,
    rootDiameter: rootShare * diameter,
    clearanceHole: shankHole(diameter),
    countersunk: [
      {
        standard: 'ANSI B18.6.1',
        theoreticalDiameter: sharp * inch,
        actualDiameter: { most: sharp * inch, least: least * inch },
        angle: (82 * Math.PI) / 180,
      },
    ],
  };
});

export const metricWoodScrews: readonly WoodScrew[] = metric.map(([shank, head]) => ({
  name: `${shank}mm`,
  kind: 'wood-screw',
  series: 'metric',
  diameter: shank,
  rootDiameter: rootShare * shank,
  clearanceHole: shankHole(shank),
  countersunk: [
    {
      standard: 'DIN 97',
      // The table's head is the real one; a countersink made for it takes the head flush.
      theoreticalDiameter: head,
      actualDiameter: { most: head, least: 0.93 * head },
      angle: Math.PI / 2,
    },
  ],
}));
