import type { Kernel, LoftSection, Solid, Vec3 } from '../solid/types.js';
import {
  type Edge,
  noPlateStock,
  type PlateStock,
  profilePoints,
  sharpEdge,
  sideProfile,
} from './edge-profile.js';
import { offsetOutline } from './offset-outline.js';
import type { Outline } from './outline.js';
import { correspondingPolygons } from './sample-outline.js';

/** A plate on an outline, standing from z0 up to z1, mm. */
export interface Plate {
  readonly outline: Outline;
  readonly z0: number;
  readonly z1: number;
  readonly topEdge?: Edge;
  readonly bottomEdge?: Edge;
}

/**
 * A plate with its edges, or with stock its parallel body: sides and edges moved by `stock.side`, the faces by
 * their own. Sharp corners in plan stay sharp; arcs that an inset uses up end in a corner.
 *
 * @throws SolidError when the edges do not fit the height or the outline
 */
export function plateSolid(kernel: Kernel, plate: Plate, tolerance: number, stock = noPlateStock): Solid {
  return kernel.loft(plateSections(plate, tolerance, stock));
}

function plateSections(plate: Plate, tolerance: number, stock: PlateStock): readonly LoftSection[] {
  const { outline, z0, z1, topEdge = sharpEdge, bottomEdge = sharpEdge } = plate;
  return profileSections(outline, sideProfile({ z0, z1, topEdge, bottomEdge }, stock), tolerance);
}

/**
 * A body whose side follows a profile of its own all round an outline: a chain in [outset from the outline, z], mm,
 * that rises from bottom to top and lies flat nowhere between. Flat faces close it. The profile's parallel makes the
 * body's parallel.
 *
 * @throws SolidError when an inset uses the outline up
 */
export const profileSolid = (kernel: Kernel, outline: Outline, profile: Outline, tolerance: number): Solid =>
  kernel.loft(profileSections(outline, profile, tolerance));

function profileSections(outline: Outline, profile: Outline, tolerance: number): readonly LoftSection[] {
  const curved = [profile, outline].every((pieces) => pieces.some((piece) => piece.kind === 'arc'));
  // Round both ways, the chord errors of plan and profile add.
  const share = curved ? tolerance / 2 : tolerance;
  const levels = profilePoints(profile, share);
  const outlines = levels.map(([outset]) => offsetOutline(outline, outset, true));
  return correspondingPolygons(outlines, share).map((polygon, i) => ({
    points: polygon.map(([x, y]): Vec3 => [x, y, levels[i]![1]]),
  }));
}

/** A recess in a face at z = `face`, mm, its walls on an outline. */
export interface Recess {
  readonly outline: Outline;
  readonly face: number;
  readonly depth: number;
  /** Fillet between wall and floor. */
  readonly floorFillet?: number;
  /** Rounding (or bevel) of the rim, in the metal. */
  readonly rim?: Edge;
}

/** How far cutting bodies reach past the face they open in, mm. */
export const overhang = 0.5;

/**
 * What a recess takes away; stock makes it smaller. With stock the walls come in by `stock.side`, the floor rises by
 * `stock.bottom`, and the mouth is at the cast face, `stock.top` over the finished one.
 *
 * @throws SolidError when edges do not fit the depth or the outline, or when stock leaves nothing
 */
export function recessCutter(kernel: Kernel, recess: Recess, tolerance: number, stock = noPlateStock): Solid {
  const { outline, face, depth, floorFillet = 0, rim = sharpEdge } = recess;
  const plate = {
    outline,
    z0: face - depth,
    z1: face,
    bottomEdge: floorFillet > 0 ? ({ kind: 'round', radius: floorFillet } as const) : sharpEdge,
    topEdge: hollowRim(rim),
  };
  const sections = plateSections(plate, tolerance, {
    side: -stock.side,
    top: stock.top,
    bottom: -stock.bottom,
  });
  // Straight up from the mouth, past the face.
  const mouth = sections[sections.length - 1]!.points;
  return kernel.loft([...sections, { points: mouth.map(([x, y, z]): Vec3 => [x, y, z + overhang]) }]);
}

/** An opening right through a plate, mm; its rims rounded (or bevelled) in the metal. */
export interface Opening {
  readonly outline: Outline;
  readonly z0: number;
  readonly z1: number;
  readonly topRim?: Edge;
  readonly bottomRim?: Edge;
}

/**
 * What an opening takes away; stock makes it smaller: the walls come in by `stock.side`, and the mouths are at the
 * cast faces.
 *
 * @throws SolidError when rims do not fit the thickness or stock leaves nothing
 */
export function openingCutter(
  kernel: Kernel,
  { outline, z0, z1, topRim = sharpEdge, bottomRim = sharpEdge }: Opening,
  tolerance: number,
  stock = noPlateStock,
): Solid {
  const sections = plateSections(
    { outline, z0, z1, bottomEdge: hollowRim(bottomRim), topEdge: hollowRim(topRim) },
    tolerance,
    { side: -stock.side, top: stock.top, bottom: stock.bottom },
  );
  // Straight on from both mouths, past the faces.
  const past = (section: LoftSection | undefined, by: number): LoftSection => ({
    points: (section?.points ?? []).map(([x, y, z]): Vec3 => [x, y, z + by]),
  });
  return kernel.loft([past(sections[0], -overhang), ...sections, past(sections.at(-1), overhang)]);
}

/** An edge round in the metal is hollow in the cutter; a bevel leans outwards. */
function hollowRim(rim: Edge): Edge {
  switch (rim.kind) {
    case 'sharp':
      return rim;
    case 'round':
      return { kind: 'flare', radius: rim.radius };
    case 'bevel':
      return { kind: 'bevel', inset: -rim.inset, drop: rim.drop ?? rim.inset };
    case 'flare':
      return { kind: 'round', radius: rim.radius };
  }
}
