import type { Basis } from '../../foundry/plans.js';
import { moveMargin } from './after-freezing.js';

/** Rules and sources of the readings. */
export const readingBases: Readonly<
  Record<'latePlaces' | 'void' | 'leastGradient' | 'feed' | 'niyama' | 'facePeak' | 'move' | 'quench', Basis>
> = {
  latePlaces: {
    rule: 'going back in time, liquid grows from where it is last; a place is cut off where it meets liquid that lasts in the gating and can feed it; at least 2 % later than its way out, 20 mm³ and 8 cells',
    source: 'Join tree: Carr, Snoeyink and Axen, 2003; least sizes: common practice, no source',
  },
  void: {
    rule: 'freezing shrinkage × what is liquid as the way closes; what froze before was fed. Gravity and gas are not counted',
    source: 'Mass balance; the alloy’s row of the table',
  },
  leastGradient: {
    rule: 'least on the shortest liquid way to where it closes, without the place itself',
    source: 'calculated, as the last tenth is about to freeze',
  },
  feed: {
    rule: 'gating plan’s demand and supply; to it the liquid’s contraction from the pour to the liquidus',
    source: 'J. Campbell, Complete Casting Handbook; Iida and Guthrie, 1988 (from memory)',
  },
  niyama: {
    rule: 'G/√Ṫ ≥ 1 √(K·min)/cm: found on steel plates in sand, for the middle of walls. In hot plaster and in alloys of long freezing range much lies under it whatever the gating: it ranks gatings, no more',
    source: 'Niyama, Uchida, Morikawa and Saito, AFS Int. Cast Metals J. 7, 1982 (from memory)',
  },
  facePeak: {
    rule: 'a plaster face comes within some 5 % of the metal’s own temperature while the superheat lasts, so it is held against the hottest metal that the investment takes',
    source: 'Carslaw and Jaeger, contact of two half-spaces; limit: the investment’s row of the table',
  },
  move: { rule: `all solid × ${moveMargin}`, source: 'common practice, no source' },
  quench: {
    rule: 'hottest metal under 480 °C, black heat, and under 3/4 of the solidus in K; shells are not quenched',
    source: 'common practice, no source; the investment’s datasheet comes first',
  },
};
