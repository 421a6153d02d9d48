/**
 * Metric bolts and machine screws, coarse thread, mm.
 * Clearance holes ISO 273; hexagon ISO 4014/4017 and 4032; washers ISO 7089; countersunk heads ISO 7046 (the same
 * as ISO 2009 and 7047) and ISO 10642; pitches ISO 261. All from memory, ISO 7046 M3 to M8 and the theoretical
 * diameters of ISO 10642 M3 to M8 seen on fastener data pages.
 */
import type { Bolt, CountersunkHead } from './fastener.js';
import { metricStressArea } from './thread.js';

type Holes = readonly [fine: number, medium: number, coarse: number];
type Hex = readonly [flats: number, head: number, nut: number, washer: number];
/** Theoretical, largest actual, smallest actual diameter. */
type Head = readonly [theoretical: number, most: number, least: number];
type Row = readonly [d: number, pitch: number, holes: Holes, hex: Hex, iso7046: Head | null, iso10642: Head];

const rows: readonly Row[] = [
  [3, 0.5, [3.2, 3.4, 3.6], [5.5, 2, 2.4, 7], [6.3, 5.5, 5.2], [6.72, 6.72, 5.54]],
  [4, 0.7, [4.3, 4.5, 4.8], [7, 2.8, 3.2, 9], [9.4, 8.4, 8.04], [8.96, 8.96, 7.53]],
  [5, 0.8, [5.3, 5.5, 5.8], [8, 3.5, 4.7, 10], [10.4, 9.3, 8.94], [11.2, 11.2, 9.43]],
  [6, 1, [6.4, 6.6, 7], [10, 4, 5.2, 12], [12.6, 11.3, 10.87], [13.44, 13.44, 11.34]],
  [8, 1.25, [8.4, 9, 10], [13, 5.3, 6.8, 16], [17.3, 15.8, 15.37], [17.92, 17.92, 15.24]],
  [10, 1.5, [10.5, 11, 12], [16, 6.4, 8.4, 20], [20, 18.3, 17.78], [22.4, 22.4, 19.22]],
  [12, 1.75, [13, 13.5, 14.5], [18, 7.5, 10.8, 24], null, [26.88, 26.88, 23.12]],
  [14, 2, [15, 15.5, 16.5], [21, 8.8, 12.8, 28], null, [30.8, 30.8, 26.52]],
  [16, 2, [17, 17.5, 18.5], [24, 10, 14.8, 30], null, [33.6, 33.6, 29.01]],
];

const head = (standard: string, row: Head | null): readonly CountersunkHead[] =>
  row === null
    ? []
    : [
        {
          standard,
          theoreticalDiameter: row[0],
          actualDiameter: { most: row[1], least: row[2] },
          angle: Math.PI / 2,
        },
      ];

export const metricBolts: readonly Bolt[] = rows.map(([d, pitch, holes, hex, iso7046, iso10642]) => ({
  name: `M${d}`,
  kind: 'bolt',
  series: 'metric',
  diameter: d,
  pitch,
  stressArea: metricStressArea(d, pitch),
  tapDrill: d - pitch,
  clearanceHole: { fine: holes[0], medium: holes[1], coarse: holes[2] },
  hexagon: {
    headAcrossFlats: hex[0],
    headHeight: hex[1],
    nutAcrossFlats: hex[0],
    nutHeight: hex[2],
    washerDiameter: hex[3],
  },
  countersunk: [...head('ISO 7046', iso7046), ...head('ISO 10642', iso10642)],
}));
