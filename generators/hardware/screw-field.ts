import {
  type Bolt,
  bolts,
  type CountersinkSeat,
  countersinkSeat,
  type FastenerSeries,
} from '../../core/hardware/index.js';
import { choice } from '../../core/part/fields.js';

/** Machine screws and bolts with countersunk heads, thinnest first in each series. */
export const countersunkBolts: Readonly<Record<FastenerSeries, readonly Bolt[]>> = {
  metric: bolts.metric.filter((bolt) => bolt.countersunk.length > 0),
  inch: bolts.inch.filter((bolt) => bolt.countersunk.length > 0),
};

const all = [...countersunkBolts.metric, ...countersunkBolts.inch];
const names = ['auto', ...all.map((bolt) => bolt.name)] as const;

/** Which countersunk bolt holds a fitting down. */
export const screwField = (derived: string) =>
  choice(names as readonly [string, ...string[]], {
    group: 'Fasteners',
    help: `Countersunk bolt; auto: ${derived}`,
    default: 'auto',
  });

/** The bolt that was asked for, or undefined for `auto`. */
export const askedScrew = (name: string): Bolt | undefined => all.find((bolt) => bolt.name === name);

/** The bolt itself, or the thickest with a countersunk head where it has none. */
export const withCountersunkHead = (bolt: Bolt): Bolt =>
  bolt.countersunk.length > 0 ? bolt : (countersunkBolts[bolt.series].at(-1) as Bolt);

/** Its seat. Throws for a bolt without a countersunk head, which `withCountersunkHead` never gives. */
export function seatOf(bolt: Bolt): CountersinkSeat {
  const seat = countersinkSeat(bolt);
  if (seat === undefined) throw new RangeError(`${bolt.name} has no countersunk head`);
  return seat;
}
