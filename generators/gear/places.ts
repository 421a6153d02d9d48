import { maths } from '../../core/maths/maths.js';
import type { GatePlace, VentPlace } from '../../core/part/contract.js';
import type { BodySizes } from './body-sizes.js';

/** One vent for this much of the root circle, mm (common practice, no source). */
const rimPerVent = 60;
/** Clear of the roots and of the recess, mm. */
const margin = 0.6;
/** A vent that prints and burns out, and the mould wall between it and the sprue, mm (common practice, no source). */
const leastVent = 2;
const mouldWall = 3.5;
/** Metal ring that a gate needs round a cored bore, mm. */
const leastGateRing = 2;
const widestVent = 6;

/** The upper end stands by itself: a hub that rises, or one inside a recess. */
const hasUpperHub = (sizes: BodySizes): boolean => sizes.upperEnd > sizes.upperFace || sizes.web !== null;

/** Where openings start in a solid disc: the gate stays inside them. */
function openRadius({ openings, rootRadius }: BodySizes): number {
  if (openings.windows) return openings.windows.innerRadius;
  if (openings.holes) return openings.holes.circle - openings.holes.radius;
  return rootRadius;
}

/** On a plain side face the gate leaves room for vents inside the roots; without that room it takes what there is. */
function plainGateRadius(sizes: BodySizes): number {
  const bore = sizes.bore.mouthRadius;
  const edge = Math.min(sizes.rootRadius, openRadius(sizes) - margin);
  const besideVents = Math.min(sizes.rootRadius - margin - leastVent - mouldWall, edge);
  if (besideVents >= bore + leastGateRing) return Math.min(besideVents, 0.75 * sizes.rootRadius);
  return bore + 0.8 * (edge - bore);
}

/** Metal enters at the upper hub end, round the bore when that is cored. */
export function gatePlaces(sizes: BodySizes): readonly GatePlace[] {
  const hub = hasUpperHub(sizes);
  return [
    {
      name: hub ? 'upper hub end' : 'upper side face',
      at: [0, 0, sizes.upperEnd],
      innerDiameter: 2 * sizes.bore.mouthRadius,
      outerDiameter: 2 * (hub ? sizes.hubRadius : plainGateRadius(sizes)),
    },
  ];
}

/**
 * Air gathers under the upper side face: vents stand on the rim, inside the tooth roots and clear of the flanks.
 * A pinion too small for a vent beside the gate names none.
 */
export function ventPlaces(sizes: BodySizes): readonly VentPlace[] {
  const gate = gatePlaces(sizes)[0] as GatePlace;
  const beside = gate.outerDiameter / 2 + mouldWall - margin;
  const outermost = sizes.openings.holes ? sizes.openings.holes.circle + sizes.openings.holes.radius : 0;
  const inner = sizes.web
    ? sizes.web.outerRadius
    : Math.max(beside, sizes.openings.windows?.outerRadius ?? outermost);
  const width = Math.min(widestVent, sizes.rootRadius - inner - 2 * margin);
  if (width < leastVent - margin) return [];
  const radius = sizes.rootRadius - margin - width / 2;
  const number = Math.min(12, Math.max(3, Math.round((2 * Math.PI * sizes.rootRadius) / rimPerVent)));
  return Array.from({ length: number }, (_, k) => {
    const angle = (2 * Math.PI * (k + 0.5)) / number;
    return {
      name: `rim vent ${k + 1}`,
      at: [radius * maths.cos(angle), radius * maths.sin(angle), sizes.upperFace] as const,
      footDiameter: width,
    };
  });
}
