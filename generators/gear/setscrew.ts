import { type Finding, note, stop } from '../../core/part/finding.js';
import { isNoStock, type Stock } from '../../core/part/stock.js';
import type { BodyParameters, DrawnBody } from './body-sizes.js';

/** Coarse ISO threads: nominal diameter and tap drill, mm (ISO 2306, from memory). */
const screws = {
  M3: { diameter: 3, drill: 2.5 },
  M4: { diameter: 4, drill: 3.3 },
  M5: { diameter: 5, drill: 4.2 },
  M6: { diameter: 6, drill: 5 },
  M8: { diameter: 8, drill: 6.8 },
  M10: { diameter: 10, drill: 8.5 },
  M12: { diameter: 12, drill: 10.2 },
} as const;

export type SetscrewSize = keyof typeof screws;

/** The setscrew's place in the state that is built, mm. Its axis lies along +X, square to the bore. */
export interface HubScrew {
  readonly height: number;
  /** The tap drill's hole, 0 where it is left to drill. */
  readonly holeRadius: number;
  /** A boss on the hub, null where the hub is thick enough. */
  readonly boss: null | { readonly radius: number; readonly reach: number };
  /** Where a dimple marks the hole, from the axis. */
  readonly face: number;
}

/** Thread needs this many screw diameters of metal (common practice, no source). */
const threadShare = 1;
/** Boss as wide as this many screw diameters (common practice, no source). */
const bossShare = 2.2;

export function planSetscrew(
  size: 'none' | SetscrewSize,
  p: BodyParameters,
  d: DrawnBody,
  stock: Stock,
): { readonly screw: HubScrew | null; readonly findings: readonly Finding[] } {
  if (size === 'none') return { screw: null, findings: [] };
  const { diameter, drill } = screws[size];
  const rise = Math.max(d.upperRise, d.lowerRise);
  const refused = (finding: Finding) => ({ screw: null, findings: [finding] });
  const wall = d.hubDiameter / 2 - p.bore / 2;
  const needsBoss = wall < threadShare * diameter;
  const leastRise = (needsBoss ? bossShare + 0.3 : 1.6) * diameter;
  if (rise < leastRise || p.bore === 0) {
    return refused(
      stop(
        'setscrew-needs-hub',
        `A setscrew ${size} needs a bore and a hub that rises at least ${leastRise.toFixed(1)} mm; it rises ${rise.toFixed(1)} mm.`,
        'Give the gear a hub, a longer one or a thicker one, or use a smaller screw.',
        'setscrew',
        'hub',
        'hubLength',
      ),
    );
  }
  if (needsBoss && bossShare * diameter > 0.95 * d.hubDiameter) {
    return refused(
      stop(
        'setscrew-too-large',
        `A boss for ${size} is ${(bossShare * diameter).toFixed(1)} mm wide, the hub only ${d.hubDiameter.toFixed(1)} mm.`,
        'Use a smaller screw or a larger hub.',
        'setscrew',
        'hubDiameter',
      ),
    );
  }
  const reach = p.bore / 2 + 1.3 * threadShare * diameter;
  if (needsBoss && reach > d.rootRadius - 0.5) {
    return refused(
      stop(
        'setscrew-boss-too-long',
        `The boss for ${size} would reach the tooth roots.`,
        'Use a smaller screw or a larger hub.',
        'setscrew',
        'hubDiameter',
      ),
    );
  }
  const above = d.upperRise >= d.lowerRise;
  const height = above ? p.faceWidth + d.upperRise / 2 : -d.lowerRise / 2;
  const finished = isNoStock(stock);
  return {
    screw: {
      height,
      holeRadius: finished ? drill / 2 : 0,
      boss: needsBoss ? { radius: (bossShare / 2) * diameter + stock.skin, reach: reach + stock.skin } : null,
      face: (needsBoss ? reach : d.hubDiameter / 2) + stock.skin,
    },
    findings: finished
      ? []
      : [
          note(
            'setscrew-drilled',
            `The hole for the setscrew ${size} is cast solid, with a dimple.`,
            `Drill ${drill} mm through to the bore and tap ${size}; to pass the rim the drill and tap reach ${Math.ceil(d.tipRadius - p.bore / 2)} mm out of the chuck.`,
            'setscrew',
          ),
        ],
  };
}
