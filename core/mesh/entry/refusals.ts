import type { GatePlace } from '../../part/contract.js';
import { stop } from '../../part/finding.js';
import type { Foot, FootFault } from './feet.js';
import type { GatePlaces } from './gate-search.js';
import type { Site } from './sites.js';

export const say = (value: number): string => value.toFixed(1);

export const sayFault = (fault: FootFault, least: number): string => {
  const foot = `a foot of ${least.toFixed(1)} mm`;
  switch (fault.why) {
    case 'edge':
      return `${foot} reaches out over the part's edge there.`;
    case 'marked':
      return `${foot} touches a marked face there.`;
    case 'thin':
      return `the part is too thin there to sink ${foot} into.`;
    case 'steep':
      return `the surface under ${foot} falls away ${fault.fall.toFixed(1)} mm there; ${fault.most.toFixed(1)} mm is the most.`;
    case 'beside':
      return `the part stands ${fault.by.toFixed(1)} mm higher right beside ${foot} there.`;
  }
};

/** Nothing stands where it is asked for. */
export const refusedAt = (message: string, nearest: GatePlace | undefined): GatePlaces => ({
  ok: false,
  refusal: stop(
    'no-gate-there',
    message,
    nearest
      ? `The nearest place that serves is (${say(nearest.at[0])}, ${say(nearest.at[1])}, ${say(nearest.at[2])}), ${nearest.outerDiameter.toFixed(1)} mm across.`
      : 'No other place serves either: turn the part, or add a flat boss.',
  ),
  ...(nearest ? { nearest } : {}),
});

/** Nothing stands anywhere. */
export function noneAtAll(
  sites: readonly Site[],
  measured: (site: Site) => Foot | FootFault,
  least: number,
  heaviest: { readonly depth: number },
): GatePlaces {
  const [best] = sites;
  const fault = best && measured({ ...best, diameter: least });
  const isMarked = fault && 'why' in fault && fault.why === 'marked';
  const where = best ? `(${say(best.x)}, ${say(best.y)})` : 'nowhere';
  const why =
    fault && !('diameter' in fault)
      ? ` At the best spot, ${where}, ${sayFault(fault, least)}`
      : ` The best spot is ${where}.`;
  return {
    ok: false,
    refusal: stop(
      'no-gate-place-found',
      `Nothing of the part as it stands looks up and holds a gate of ${least.toFixed(1)} mm.${why}`,
      `Turn the part so that a flat over its heaviest section, ${(2 * heaviest.depth).toFixed(1)} mm, looks up, or add a flat boss of at least ${Math.ceil(least)} mm at ${where}.${isMarked ? ' Or name the marked face for the gate (gateAt), where its stock may take the stub.' : ''}`,
    ),
  };
}
