/** How wide gate places are to be where those there are choke what they feed. */
import { circleArea, circleDiameter } from './choke.js';
import { type Frame, fillsInTime, settleDesign } from './design.js';
import { edgeMargin } from './sprue.js';

/** Wider than any place is asked to be, mm. */
const ample = 1e4;

/**
 * Over narrower places runners meet lower down, under less head, so that a little more is asked for than over ample
 * ones: steps of a tenth tried at most.
 */
const mostSteps = 50;

/** For each gate how far across its place is to be, mm, for all castings to fill in time and to be fed. */
export const placesWanted = (frame: Frame): readonly number[] => {
  /** With places at least so far across. */
  const widened = (across: readonly number[]): Frame => ({
    ...frame,
    places: frame.places.map((place, i) => ({
      ...place,
      outerDiameter: Math.max(place.outerDiameter, across[i] as number),
    })),
  });
  const { gates } = settleDesign(widened(frame.places.map(() => ample)));
  const least = gates.map(({ diameter, inner }) =>
    Math.ceil(10 * (circleDiameter(circleArea(diameter) + circleArea(inner)) + 2 * edgeMargin)),
  );
  for (let step = 0; ; step++) {
    const tried = least.map((tenths) => (tenths + step) / 10);
    const wide = widened(tried);
    if (step === mostSteps || fillsInTime(settleDesign(wide), wide)) return tried;
  }
};
