import type { GatePlace, VentPlace } from '../../core/part/contract.js';
import type { BodySizes } from './body-sizes.js';

/** One vent a this much of rim, mm of the root circle (common practice, no source). */
const rimPerVent = 60;
/** Clear of the roots and of the recess, mm. */
const margin = 0.6;

/** Metal enters at the upper hub end, round the bore when that is cored. */
export function gatePlaces(sizes: BodySizes): readonly GatePlace[] {
  const hub = sizes.hasHub || sizes.web !== null;
  return [
    {
      name: hub ? 'upper hub end' : 'upper side face',
      at: [0, 0, sizes.upperEnd],
      innerDiameter: 2 * sizes.boreRadius,
      outerDiameter: 2 * (hub ? sizes.hubRadius : Math.max(sizes.boreRadius + 0.5 * (sizes.rootRadius - sizes.boreRadius), 0.55 * sizes.rootRadius)),
    },
  ];
}

/** Air gathers under the upper side face: vents stand on the rim, inside the tooth roots and clear of the flanks. */
export function ventPlaces(sizes: BodySizes): readonly VentPlace[] {
  const gate = (gatePlaces(sizes)[0] as GatePlace).outerDiameter / 2;
  const inner = sizes.web ? sizes.web.outerRadius : sizes.hasHub ? sizes.hubRadius : gate;
  const width = sizes.rootRadius - inner - 2 * margin;
  const radius = sizes.rootRadius - margin - Math.min(width, 6) / 2;
  const number = Math.min(12, Math.max(3, Math.round((2 * Math.PI * sizes.rootRadius) / rimPerVent)));
  return Array.from({ length: number }, (_, k) => {
    const angle = (2 * Math.PI * (k + 0.5)) / number;
    return {
      name: `rim vent ${k + 1}`,
      at: [radius * Math.cos(angle), radius * Math.sin(angle), sizes.upperFace] as const,
      footDiameter: Math.max(0, Math.min(width, 6)),
    };
  });
}
