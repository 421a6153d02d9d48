import {
  type Bolt,
  bolts,
  type CountersinkSeat,
  countersinkSeat,
  type Fastener,
  type FastenerSeries,
  fasteners,
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

const countersunk = fasteners.filter((f) => f.countersunk.length > 0);

/** Which countersunk screw holds a fitting that goes on wood: a wood screw by gauge or in mm, or a machine screw. */
export const woodOrMachineScrewField = (derived: string) =>
  choice(['auto', ...countersunk.map((f) => f.name)] as [string, ...string[]], {
    group: 'Fasteners',
    help: `Countersunk wood or machine screw; auto: ${derived}`,
    default: 'auto',
  });

/** The bolt that was asked for, or undefined for `auto`. */
export const askedScrew = (name: string): Bolt | undefined => all.find((bolt) => bolt.name === name);

/** The bolt itself, or the thickest with a countersunk head where it has none. */
export const withCountersunkHead = (bolt: Bolt): Bolt =>
  bolt.countersunk.length > 0 ? bolt : (countersunkBolts[bolt.series].at(-1) as Bolt);

/** Its seat. Throws for a fastener without a countersunk head, which `withCountersunkHead` and the fields never give. */
export function seatOf(fastener: Fastener): CountersinkSeat {
  const seat = countersinkSeat(fastener);
  if (seat === undefined) throw new RangeError(`${fastener.name} has no countersunk head`);
  return seat;
}
