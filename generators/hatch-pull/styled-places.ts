import type { GatePlace, VentPlace } from '../../core/part/contract.js';
import { offsetOutline } from '../../core/shape/index.js';
import type { Vec2 } from '../../core/solid/types.js';
import { type Circle, flatRoom, leastRoom, roomiest } from '../hardware/flat-room.js';
import type { ScrewHolePlan } from '../hardware/screw-holes.js';
import type { PullState } from './levels.js';
import { flatHalf, ovalSection } from './oval-ring.js';
import { leastVent, type PullPlaces, ventToGate } from './places.js';
import { eyeOutline } from './styled-body.js';
import { pullPlanOutline, tabOutline } from './tab-outline.js';

/** Wider vents are of no use, mm. */
const widestVent = 6;

/** Metal enters on the tab's underside; air leaves at the ring's far end, both its sides and the tab's end. */
export function styledPlaces(state: PullState, screws: ScrewHolePlan | null): PullPlaces {
  const { plan, sizes, top, tabEnd } = state;
  const { room, land, landZ } = flats(state, screws);
  const gate = roomiest(room, { x: [-tabEnd, -(plan.halfX + plan.inner)], y: [0, 0] });
  const gates: readonly GatePlace[] =
    gate.radius < leastRoom
      ? []
      : [
          {
            name: "tab's underside",
            at: [gate.at[0], 0, top],
            innerDiameter: 0,
            outerDiameter: 2 * gate.radius,
          },
        ];

  const vents: VentPlace[] = [];
  const vent = (name: string, [x, y]: Vec2, z: number, footDiameter: number): void => {
    if (footDiameter >= leastVent) vents.push({ name, at: [x, y, z], footDiameter });
  };
  const middle = plan.inner + sizes.rimWidth / 2;
  const foot = Math.min(land, widestVent);
  vent('free end', [plan.halfX + middle, 0], landZ, foot);
  vent('loop, left side', [plan.halfX, plan.halfY + middle], landZ, foot);
  vent('loop, right side', [plan.halfX, -(plan.halfY + middle)], landZ, foot);
  const before = gate.at[0] - gate.radius - ventToGate;
  let end: Circle = { at: [0, 0], radius: 0 };
  for (let i = 0; i <= 100; i++) {
    const x = -tabEnd + (i / 100) * Math.max(0, before + tabEnd);
    const radius = Math.min(room(x, 0), before - x, widestVent / 2);
    if (radius > end.radius + 1e-6) end = { at: [x, 0], radius };
  }
  vent("tab's end", end.at, top, 2 * end.radius);
  return { gates, vents };
}

/** Room for circles on the tab's flat underside; width and height of the flat on the ring's. */
function flats(state: PullState, screws: ScrewHolePlan | null) {
  const { sizes, plan, skin, under, flatInset } = state;
  const shanks: readonly Circle[] =
    sizes.screwed === null || screws === null || screws.diameter === 0
      ? []
      : sizes.screwed.at.map((at) => ({ at, radius: screws.diameter / 2 }));
  if (sizes.section === 'oval') {
    const inTab = flatRoom(offsetOutline(tabOutline(state), skin), [], shanks);
    // A faced tab's flat ends in a step at the rim's back.
    const step = -(plan.halfX + plan.outer + skin) - 0.08;
    return {
      room: under === skin ? inTab : (x: number, y: number) => Math.min(inTab(x, y), step - x),
      land: 2 * flatHalf(ovalSection(sizes, plan), sizes.thickness, skin) - 0.1,
      landZ: sizes.thickness + skin,
    };
  }
  const flat = offsetOutline(pullPlanOutline(state), -flatInset);
  return {
    room: flatRoom(flat, [offsetOutline(eyeOutline(state), flatInset)], shanks),
    land: sizes.rimWidth - 2 * flatInset - 0.1,
    landZ: sizes.thickness + under,
  };
}
