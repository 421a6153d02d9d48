/**
 * Inch bolts and machine screws, UNC; the table is in inches.
 * Clearance holes ASME B18.2.8 (close, normal, loose); hexagon ASME B18.2.1 and B18.2.2, below 1/4 in the
 * machine-screw nuts of ASME B18.6.3; washers ASME B18.21.1 type A narrow; countersunk heads ASME B18.6.3, 82°.
 * All from memory.
 */
import type { Bolt } from './fastener.js';
import { unifiedStressArea } from './thread.js';

type Holes = readonly [close: number, normal: number, loose: number];
type Hex = readonly [headFlats: number, head: number, nutFlats: number, nut: number, washer: number];
/** Theoretical sharp, smallest with a blunt edge. */
type Head = readonly [sharp: number, least: number] | null;
type Row = readonly [name: string, d: number, threadsPerInch: number, holes: Holes, hex: Hex, flatHead: Head];

const rows: readonly Row[] = [
  ['#4-40', 0.112, 40, [0.12, 0.1285, 0.144], [3 / 16, 0.06, 1 / 4, 3 / 32, 0.312], [0.225, 0.195]],
  ['#6-32', 0.138, 32, [0.154, 0.1695, 0.185], [1 / 4, 0.093, 5 / 16, 7 / 64, 0.375], [0.279, 0.244]],
  ['#8-32', 0.164, 32, [0.18, 0.196, 0.213], [1 / 4, 0.11, 11 / 32, 1 / 8, 0.438], [0.332, 0.292]],
  ['#10-24', 0.19, 24, [0.2055, 0.221, 0.238], [5 / 16, 0.12, 3 / 8, 1 / 8, 0.5], [0.385, 0.34]],
  ['1/4in', 1 / 4, 20, [17 / 64, 9 / 32, 19 / 64], [7 / 16, 11 / 64, 7 / 16, 7 / 32, 0.625], [0.507, 0.452]],
  ['5/16in', 5 / 16, 18, [21 / 64, 11 / 32, 23 / 64], [1 / 2, 7 / 32, 1 / 2, 17 / 64, 0.688], [0.635, 0.568]],
  ['3/8in', 3 / 8, 16, [25 / 64, 13 / 32, 27 / 64], [9 / 16, 1 / 4, 9 / 16, 21 / 64, 0.812], [0.762, 0.685]],
  [
    '7/16in',
    7 / 16,
    14,
    [29 / 64, 15 / 32, 31 / 64],
    [5 / 8, 19 / 64, 11 / 16, 3 / 8, 0.922],
    [0.812, 0.723],
  ],
  ['1/2in', 1 / 2, 13, [17 / 32, 9 / 16, 39 / 64], [3 / 4, 11 / 32, 3 / 4, 7 / 16, 1.062], [0.875, 0.775]],
  ['5/8in', 5 / 8, 11, [21 / 32, 11 / 16, 47 / 64], [15 / 16, 27 / 64, 15 / 16, 35 / 64, 1.312], null],
];

const inch = 25.4;

export const inchBolts: readonly Bolt[] = rows.map(([name, d, threads, holes, hex, flat]) => ({
  name,
  kind: 'bolt',
  series: 'inch',
  diameter: d * inch,
  pitch: inch / threads,
  stressArea: unifiedStressArea(d * inch, inch / threads),
  tapDrill: (d - 1 / threads) * inch,
  clearanceHole: { fine: holes[0] * inch, medium: holes[1] * inch, coarse: holes[2] * inch },
  hexagon: {
    headAcrossFlats: hex[0] * inch,
    headHeight: hex[1] * inch,
    nutAcrossFlats: hex[2] * inch,
    nutHeight: hex[3] * inch,
    washerDiameter: hex[4] * inch,
  },
  countersunk:
    flat === null
      ? []
      : [
          {
            standard: 'ASME B18.6.3',
            theoreticalDiameter: flat[0] * inch,
            actualDiameter: { most: flat[0] * inch, least: flat[1] * inch },
            angle: (82 * Math.PI) / 180,
          },
        ],
}));
