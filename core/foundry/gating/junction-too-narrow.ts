import { type Finding, warn } from '../../part/finding.js';
import type { Design, Frame } from './design.js';
import { junctionDiameter } from './runners.js';

/** The way where runners meet chokes what they feed, since a place holds no runner wide enough. @param time s @param wider what would mend it */
export const junctionTooNarrow = (design: Design, frame: Frame, time: number, wider: string): Finding => {
  const way = Math.min(design.shape.bottomDiameter, junctionDiameter(design.gates));
  const onTree = frame.served !== undefined || (frame.input.tree?.length ?? 1) > 1;
  const fills = onTree ? 'the castings fill' : 'the casting fills';
  return warn(
    'junction-too-narrow',
    `Where the runners meet the metal's way is ${way.toFixed(1)} mm across, so that ${fills} in ${time.toFixed(1)} s; it should take at most ${frame.longestPour.toFixed(1)} s.`,
    `${wider}, or ${onTree ? 'hang fewer patterns on the tree' : 'pour hotter into a hotter flask'}.`,
  );
};
