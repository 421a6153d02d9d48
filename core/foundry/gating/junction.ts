/** Runners wide enough that the metal's way where they meet does not choke what they feed. */
import { type GateDesign, gateRoom, up } from './gate-size.js';
import { junctionDiameter, runnerForJunction } from './runners.js';

/** Wider runners meet higher up, under less head, which asks for a little more: settled in a few rounds. */
const mostRounds = 50;

/**
 * The gates, none thinner than the way asks for, as far as the narrowest place allows: the thinnest runner sets it.
 * @param size all gates, with bars at least so wide, mm @param wanted diameter of the way that such gates ask for, mm
 */
export function widenForJunction(
  size: (least: number) => readonly GateDesign[],
  wanted: (gates: readonly GateDesign[]) => number,
): readonly GateDesign[] {
  let gates = size(0);
  const most = Math.min(...gates.map((g) => gateRoom(g.place).outer));
  let least = 0;
  for (let round = 0; round < mostRounds && junctionDiameter(gates) < wanted(gates); round++) {
    const asked = Math.min(up * runnerForJunction(wanted(gates)), most);
    if (asked <= least) break;
    least = asked;
    gates = size(least);
  }
  return gates;
}
