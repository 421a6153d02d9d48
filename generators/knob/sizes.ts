import type { z } from 'zod';
import {
  type Bolt,
  bolts,
  bossDiameter,
  fastener,
  fastenerAtLeast,
  filletRadius,
  insertPocket,
  nearStep,
  tapRunOut,
  upStep,
} from '../../core/hardware/index.js';
import { maths } from '../../core/maths/maths.js';
import type { knobParameters } from './parameters.js';

export type KnobParameters = z.output<typeof knobParameters>;

/** Every size of a knob, mm and radians. Finished. */
export interface KnobSizes {
  readonly head: number;
  readonly projection: number;
  readonly dome: number;
  readonly rim: number;
  readonly slope: number;
  readonly spindle: number;
  readonly foot: number;
  readonly footThickness: number;
  /** Inside radii at the head and at the foot. */
  readonly headFillet: number;
  readonly footFillet: number;
  /** Roundings of the head's edge, front and back, and of the foot's. */
  readonly frontEdge: number;
  readonly backEdge: number;
  readonly footEdge: number;
  readonly bolt: Bolt;
  readonly holeDiameter: number;
  readonly holeDepth: number;
  readonly threadLength: number;
}

export function knobSizes(p: KnobParameters): KnobSizes {
  const near = (value: number): number => nearStep(p.series, value);
  const head = p.size;
  const asked = p.thread === 'auto' ? undefined : fastener(p.thread);
  const auto = fastenerAtLeast(
    'bolt',
    p.series,
    Math.min((p.fixing === 'insert' ? 0.12 : 0.16) * head - 0.3, 9.5),
  );
  const bolt = asked?.kind === 'bolt' ? asked : auto.name === '' ? bolts.metric[0]! : auto;
  const pocket = insertPocket(bolt);
  const threadLength = p.depth ?? (p.fixing === 'insert' ? pocket.length : 1.5 * bolt.diameter);
  const holeDiameter = p.fixing === 'insert' ? pocket.pocketDiameter : bolt.tapDrill;
  const holeDepth = p.fixing === 'insert' ? threadLength + 1 : threadLength + tapRunOut(bolt);
  const spindle = p.spindle ?? Math.max(near(0.38 * head), upStep(p.series, bossDiameter(holeDiameter)));
  const footThickness = p.footThickness ?? Math.max(3, near(0.1 * head));
  const footEdge = Math.min(0.45 * footThickness, 2);
  const foot = p.foot ?? Math.max(near(0.62 * head), upStep(p.series, spindle + 2 * footEdge + 4.5));
  const rim = p.rim ?? near(0.26 * head);
  const dome = p.dome ?? 0.09 * head;
  const backEdge = 0.42 * rim;
  const usual = filletRadius(spindle, rim).usual;
  const slope = p.slope;
  const rise = ((head - spindle) / 2) * maths.tan(slope);
  const projection =
    p.projection ?? Math.max(near(0.95 * head), near(dome + rim + rise + 0.16 * head + footThickness));
  // Between head and foot the two fillets share the spindle's length.
  const stem = projection - dome - rim - rise - footThickness;
  const wide = (head - spindle) / 2 - backEdge * 1.1;
  const narrow = (foot - spindle) / 2;
  const most = {
    head: Math.min(0.8 * stem, 0.75 * wide) / maths.tan(Math.PI / 4 - slope / 2 + 0.0001),
    foot: Math.min(0.8 * stem, narrow - footEdge - 0.1),
  };
  const footFillet = Math.min(
    p.fillet ?? Math.max(1, Math.min(usual, 0.45 * stem)),
    Math.max(0.1, most.foot),
  );
  const headFillet =
    p.fillet ??
    Math.max(
      1,
      Math.min(0.2 * head, most.head, (0.9 * (stem - footFillet)) / maths.tan(Math.PI / 4 - slope / 2)),
    );
  return {
    head,
    projection,
    dome,
    rim,
    slope,
    spindle,
    foot,
    footThickness,
    headFillet,
    footFillet: p.fillet ?? footFillet,
    frontEdge: 0.5 * rim,
    backEdge,
    footEdge,
    bolt,
    holeDiameter,
    holeDepth,
    threadLength,
  };
}
