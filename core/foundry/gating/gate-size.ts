import type { GatePlace } from '../../part/contract.js';
import type { GatingPlan } from '../plans.js';
import { circleArea, circleDiameter, flowThrough } from './choke.js';
import { modulus } from './freezing.js';
import type { GatingCasting, GatingSettings } from './input.js';
import { edgeMargin } from './sprue.js';

/** Thinnest ring of metal that a gate round a cored hole may be, mm: what prints and fills. Common practice, no source. */
const leastRing = 1.2;

/** Sizes are rounded up by this much, so that a rule met exactly is not missed by the last bit. */
export const up = 1 + 1e-7;

/** Inner and largest outer diameter of the ring a place offers, clear of its edges, mm. */
export const gateRoom = (place: GatePlace): { readonly inner: number; readonly outer: number } => ({
  inner: place.innerDiameter > 0 ? place.innerDiameter + 2 * edgeMargin : 0,
  outer: place.outerDiameter - 2 * edgeMargin,
});

/** Whether the smallest sprue fits the place. */
export const gateFits = (place: GatePlace, leastDiameter: number): boolean => {
  const { inner, outer } = gateRoom(place);
  return outer >= leastDiameter && (inner === 0 || outer - inner >= 2 * leastRing);
};

/** One gate with the round bar, sprue or runner, that stands on it. mm, mm², mm³/s. */
export interface GateDesign {
  readonly place: GatePlace;
  readonly inner: number;
  readonly outer: number;
  readonly area: number;
  /** What the velocity limit asks of the area. */
  readonly wantedArea: number;
  /** Of the bar at its foot. */
  readonly diameter: number;
  readonly governedBy: GatingPlan['sprue']['governedBy'];
  readonly flow: number;
}

/** What a gate's bar and ring are sized by. */
export interface GateNeeds {
  /** mm: by the choke, this gate's share of it. */
  readonly chokeDiameter: number;
  /** mm: by the modulus rule. */
  readonly modulusDiameter: number;
  /** Acting head, mm. */
  readonly head: number;
  readonly velocityLimit: number;
  /** mm: so that the metal's way where runners meet is wide enough; left out where none is asked for. */
  readonly junctionDiameter?: number;
}

/** Bar diameter whose modulus, D/4, is the rule's multiple of the casting's, mm. */
export const modulusDiameterOf = (
  { casting }: { readonly casting: Pick<GatingCasting, 'volume' | 'area'> },
  settings: GatingSettings,
): number => up * 4 * settings.modulusRatio * modulus(casting.volume, casting.area);

/** The bar, then the ring: wide enough for the velocity limit at the flow the bar gives, as far as the place allows. */
export const sizeGate = (place: GatePlace, settings: GatingSettings, needs: GateNeeds): GateDesign => {
  const { inner, outer: largest } = gateRoom(place);
  const { junctionDiameter = 0 } = needs;
  const wanted = Math.max(
    needs.chokeDiameter,
    needs.modulusDiameter,
    settings.leastSprueDiameter,
    junctionDiameter,
  );
  const governedBy: GateDesign['governedBy'] =
    wanted > largest || junctionDiameter === largest
      ? 'largest the place allows'
      : wanted === needs.modulusDiameter
        ? 'modulus'
        : wanted === needs.chokeDiameter
          ? 'choke'
          : wanted === junctionDiameter
            ? 'junction'
            : 'smallest printable';
  const diameter = Math.min(wanted, largest);
  const full = flowThrough(circleArea(diameter), settings.dischargeCoefficient, needs.head);
  const wantedArea = up * Math.max(circleArea(diameter), full / needs.velocityLimit);
  const least = inner === 0 ? diameter : Math.max(diameter, inner + 2 * leastRing);
  const outer = Math.min(largest, Math.max(least, circleDiameter(wantedArea + circleArea(inner))));
  const area = circleArea(outer) - circleArea(inner);
  // The smaller of ring and bar chokes the stream.
  const flow = flowThrough(Math.min(area, circleArea(diameter)), settings.dischargeCoefficient, needs.head);
  return { place, inner, outer, area, wantedArea, diameter, governedBy, flow };
};
