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

const hasHubEnd = (sizes: BodySizes): boolean => sizes.hasHub || sizes.web !== null;

/** On a plain side face the gate leaves room for vents inside the roots; without that room it takes what there is. */
function plainGateRadius({ boreRadius, rootRadius }: BodySizes): number {
  const besideVents = rootRadius - margin - leastVent - mouldWall;
  if (besideVents >= boreRadius + leastGateRing) return Math.min(besideVents, 0.75 * rootRadius);
  return boreRadius + 0.8 * (rootRadius - boreRadius);
}

/** Metal enters at the upper hub end, round the bore when that is cored. */
export function gatePlaces(sizes: BodySizes): readonly GatePlace[] {
  const hub = hasHubEnd(sizes);
  return [
    {
      name: hub ? 'upper hub end' : 'upper side face',
      at: [0, 0, sizes.upperEnd],
      innerDiameter: 2 * sizes.boreRadius,
      outerDiameter: 2 * (hub ? sizes.hubRadius : plainGateRadius(sizes)),
    },
  ];
}

/**
 * Air gathers under the upper side face: vents stand on the rim, inside the tooth roots and clear of the flanks.
 * A pinion too small for a vent beside the gate names none.
 */
export function ventPlaces(sizes: BodySizes): readonly VentPlace[] {
  const inner = sizes.web
    ? sizes.web.outerRadius
    : (gatePlaces(sizes)[0] as GatePlace).outerDiameter / 2 + mouldWall - margin;
  const width = Math.min(6, sizes.rootRadius - inner - 2 * margin);
  if (width < leastVent - margin) return [];
  const radius = sizes.rootRadius - margin - width / 2;
  const number = Math.min(12, Math.max(3, Math.round((2 * Math.PI * sizes.rootRadius) / rimPerVent)));
  return Array.from({ length: number }, (_, k) => {
    const angle = (2 * Math.PI * (k + 0.5)) / number;
    return {
      name: `rim vent ${k + 1}`,
      at: [radius * Math.cos(angle), radius * Math.sin(angle), sizes.upperFace] as const,
      footDiameter: width,
    };
  });
}
