import type { Basis } from '../plans.js';
import type { Frame } from './design.js';
import { settingBasis } from './input.js';
import { reachBasis } from './reach.js';
import { velocityLimits } from './velocity.js';

const rao = 'P. N. Rao, Manufacturing Technology: Foundry, Forming and Welding';

const both = (a: Basis, b: Basis): Basis => ({
  rule: `${a.rule}; ${b.rule}`,
  source: `${a.source}; ${b.source}`,
});

const runnersBasis: Basis = {
  rule: 'runners at least 50° above the horizontal, each by the modulus rule and so wide that they pass the flow where they meet; the sprue 1.1 times as wide as they are',
  source:
    '45° prints without support; casting : neck : feeder 1 : 1.1 : 1.2, R. Wlodawer, Directional Solidification of Steel Castings (from memory)',
};

/** Where each group of the plan's numbers comes from. */
export const gatingBases = (
  frame: Frame,
  handbook: { readonly time: number; readonly basis: Basis },
  freezing: number,
): Readonly<Record<string, Basis>> => {
  const { settings, input } = frame;
  const from = (key: Parameters<typeof settingBasis>[1]): Basis => settingBasis(settings, key);
  const pourTime: Basis =
    settings.pourTime !== null
      ? from('pourTime')
      : freezing < handbook.time
        ? {
            rule: `at most ${freezing.toFixed(1)} s: ${from('freezingShare').rule}`,
            source: from('freezingShare').source,
          }
        : {
            rule: `at most ${handbook.time.toFixed(1)} s: ${handbook.basis.rule}`,
            source: handbook.basis.source,
          };
  return {
    pourTime,
    choke: both(
      { rule: 'A = W/(ρ t C √(2 g h_p)), h_p = H − h1²/(2 h2)', source: rao },
      from('dischargeCoefficient'),
    ),
    flow: {
      rule: 'Q = C A √(2 g h_p) through the smaller of sprue bottom and gate ring, cup kept full',
      source: rao,
    },
    sprueTaper: { rule: 'A_top/A_bottom = √(h_bottom/h_top)', source: rao },
    sprueBottom: both(
      {
        rule: 'greatest of choke, 4 × ratio × V/A and smallest printable',
        source: 'D/4 for a long round bar',
      },
      from('modulusRatio'),
    ),
    velocityLimit:
      settings.velocityLimit === null ? velocityLimits[input.metal.family].basis : from('velocityLimit'),
    feed: both(
      { rule: 'V_f (e − α) ≥ α V_c', source: 'J. Campbell, Complete Casting Handbook (from memory)' },
      from('feederEfficiency'),
    ),
    cup: both(both(from('cupSeconds'), from('cupShare')), {
      rule: 'enough to feed, and not frozen before the sprue: 2.5 × its top diameter',
      source: 'V/A of the frustum against D/4',
    }),
    cupWall: from('cupWallAngle'),
    head: from('leastHead'),
    vents: both(
      { rule: 'total vent area ≈ choke area', source: 'common practice, no source' },
      both(from('ventLeastDiameter'), from('ventLargestDiameter')),
    ),
    clearance: from('clearance'),
    reach: reachBasis(input.metal),
    ...(frame.places.length > 1 ? { runners: runnersBasis } : {}),
  };
};
