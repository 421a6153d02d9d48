/** What the fastener tables hold. Lengths mm, angles radians. */

export type FastenerSeries = 'metric' | 'inch';

/** Closeness of a clearance hole: ISO 273 fine, medium, coarse; ASME B18.2.8 close, normal, loose. */
export type HoleFit = 'fine' | 'medium' | 'coarse';

/** A countersunk head. */
export interface CountersunkHead {
  /** Standard, as the trade writes it. */
  readonly standard: string;
  /** Where the cone would come to a sharp edge, mm: what a countersink is made for. */
  readonly theoreticalDiameter: number;
  /** Largest and smallest real head, mm: a screw's edge is blunted. */
  readonly actualDiameter: { readonly most: number; readonly least: number };
  /** Included angle of the cone, radians: 90° metric and British, 82° American. */
  readonly angle: number;
}

/** Hexagon bolt head and nut, mm. */
export interface Hexagon {
  readonly headAcrossFlats: number;
  readonly headHeight: number;
  readonly nutAcrossFlats: number;
  readonly nutHeight: number;
  /** Outside diameter of the usual flat washer: what the face under a nut needs. */
  readonly washerDiameter: number;
}

interface FastenerBase {
  /** As the trade writes it: `M5`, `1/4in`, `#8-32`, `#8`, `4mm`. */
  readonly name: string;
  readonly series: FastenerSeries;
  /** Nominal diameter of thread or shank, mm. */
  readonly diameter: number;
  /** mm */
  readonly clearanceHole: Readonly<Record<HoleFit, number>>;
  /** The usual one first; empty where none is made. */
  readonly countersunk: readonly CountersunkHead[];
}

/** Bolts and machine screws. */
export interface Bolt extends FastenerBase {
  readonly kind: 'bolt';
  /** mm */
  readonly pitch: number;
  /** Tensile stress area, mm². */
  readonly stressArea: number;
  /** Drill for the tapped hole, mm: diameter less pitch. */
  readonly tapDrill: number;
  readonly hexagon: Hexagon;
}

export interface WoodScrew extends FastenerBase {
  readonly kind: 'wood-screw';
  /** Root of the thread, about two thirds of the shank, mm. */
  readonly rootDiameter: number;
}

export type Fastener = Bolt | WoodScrew;
