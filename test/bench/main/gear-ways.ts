import { builtProgram } from '../built-program.js';
import { measureChild } from '../child.js';
import type { GearWaysRequest, GearWaysResult } from '../programs/gear-ways.js';

/** A double-helical gear with a hub and a bore. */
export interface GearSize {
  readonly name: string;
  readonly parameters: Readonly<Record<string, number | string>>;
  /** mm */
  readonly tolerance: number;
}

const size = (teeth: number, tolerance: number, sizes: Readonly<Record<string, number>>): GearSize => ({
  name: `z ${teeth}, ${tolerance} mm`,
  tolerance,
  parameters: { module: 2, teeth, helixAngle: 25, hub: 'one', ...sizes },
});

const small = { faceWidth: 12, bore: 6, hubDiameter: 14, hubLength: 4 };
const middling = { faceWidth: 16, bore: 10, hubDiameter: 18, hubLength: 5 };

/** They end soon, and show how the times grow. */
export const smallSizes: readonly GearSize[] = [
  size(12, 0.05, small),
  size(12, 0.02, small),
  size(20, 0.05, middling),
  size(20, 0.02, middling),
];

/** About as large as the demo's main wheel, at the usual tolerance. */
export const fullSize = size(40, 0.01, { faceWidth: 24, bore: 16, hubDiameter: 32, hubLength: 6 });

/** @throws Error where the ways do not give the same shape, to 0.5 % of its volume */
export async function gearWays(
  { parameters, tolerance }: GearSize,
  turns: number,
  modeling: GearWaysRequest['modeling'],
): Promise<GearWaysResult> {
  const request: GearWaysRequest = { parameters, tolerance, turns, modeling };
  const { out } = await measureChild(builtProgram('gear-ways'), [JSON.stringify(request)]);
  const result = JSON.parse(out) as GearWaysResult;
  for (const other of [result.volume.floor, result.volume.modeling])
    if (other !== null && Math.abs(other / result.volume.ours - 1) > 0.005)
      throw new Error(`volumes differ by more than 0.5 %: ${JSON.stringify(result.volume)}`);
  return result;
}
