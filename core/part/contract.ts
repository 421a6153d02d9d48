import type { z } from 'zod';
import type { MeshFile } from '../mesh/mesh-file.js';
import type { Kernel, Solid, Vec3 } from '../solid/types.js';
import type { LengthUnit } from '../units/index.js';
import type { DrawingNotes } from './drawing-notes.js';
import type { Finding } from './finding.js';
import type { Stock, SurfaceClass } from './stock.js';

/** Greatest deviation of a mesh where neither job nor part says, mm: gear teeth run on it. */
export const usualTolerance = 0.01;

/** For free forms that no other part bears on, mm: a seventh of a usual print layer. */
export const freeFormTolerance = 0.02;

/** What a part's `build` works with besides its parameters. */
export interface BuildKit {
  readonly kernel: Kernel;
  /** Greatest deviation of the mesh from the exact shape, mm. */
  readonly tolerance: number;
  /** Which of the definition's `pieces` to build; left out where it has none. */
  readonly piece?: string;
  /** What the fields of kind `file` name, read, by the name that was given. */
  readonly meshFiles?: ReadonlyMap<string, MeshFile>;
  /** How bare lengths in fields of text are meant; mm where left out. */
  readonly lengthUnit?: LengthUnit;
  /** Room on the print bed, mm: for parts that choose how they stand. */
  readonly bed?: { readonly width: number; readonly depth: number; readonly height: number };
}

/** One of several castings that make up a part, such as a leaf of a hinge. */
export interface Piece {
  /** Kebab-case; the casting is called after the part and this: `locker-ring`. */
  readonly name: string;
  /** What it is, as the heading of its pages: `Ring of a ring pull`. */
  readonly title: string;
}

/** What a part needs besides its casting: screws, a bolt, bar for a pin. Bought or cut, not cast. */
export interface Fitting {
  /** For one casting. */
  readonly quantity: number;
  /** As it is asked for over a counter, lengths in mm: `countersunk screw ISO 10642 M5 × 25 mm`. */
  readonly text: string;
}

/** How a dimension answers to growth and printer correction. */
export type DimensionAxis = 'xy' | 'z' | 'none';

/** A size an inspector would check, as it is in the state that was built. */
export interface Dimension {
  /** Field symbol, for example `d_a`, `b`, `W_k`, or a short own one. */
  readonly symbol: string;
  readonly name: string;
  /** mm, or radians for `unit: 'rad'`. */
  readonly value: number;
  readonly unit: 'mm' | 'rad' | '1';
  /** Direction it lies in; `none` for what growth does not change. */
  readonly axis: DimensionAxis;
  /** How it is checked at the bench, for example `disc micrometer over 5 teeth`. */
  readonly method: string;
  /**
   * The size in a copy of this state grown by `factor`, in `unit`, where growth does not simply multiply it: over
   * pins, which stay as they are. `undefined` when the copy cannot be measured so.
   */
  readonly atGrowth?: (factor: number) => number | undefined;
  /**
   * Sizes with the same word here are ways to measure one thing, best first. Only the first that part, casting and
   * pattern all have is kept.
   */
  readonly choice?: string;
  /** For the inspection sheet alone; the short table of sizes leaves it out. */
  readonly detail?: boolean;
  /** Not measured itself: what a gauge is set to, or a calculated size others refer to. Measured when left out. */
  readonly role?: 'setting' | 'reference';
}

/**
 * A place where metal may enter, in the built state's coordinates. The surface at `at` faces up and is flat and
 * horizontal, or lies nowhere lower than `seat` under it; the gate may cover the ring between `innerDiameter` (a cored
 * hole's mouth, 0 for none) and `outerDiameter`. Give the best place first.
 */
export interface GatePlace {
  readonly name: string;
  readonly at: Vec3;
  /** mm */
  readonly innerDiameter: number;
  /** mm */
  readonly outerDiameter: number;
  /**
   * mm that the surface within `outerDiameter` falls away below `at`, which is then at the height of its highest point
   * there; 0 where left out. The foot goes so much deeper, and the part is to be thicker than that under it.
   */
  readonly seat?: number;
  /** A place for one gate of several, never for the only one. */
  readonly further?: true;
}

/** A highest place where rising metal would trap air. A vent up to `footDiameter` fits on the surface there, which faces up and is flat but for `seat`. */
export interface VentPlace {
  readonly name: string;
  readonly at: Vec3;
  /** mm */
  readonly footDiameter: number;
  /** mm that the surface within `footDiameter` falls away below `at`, as for a gate; 0 where left out. */
  readonly seat?: number;
}

/** Tells the traveller which surfaces carry which class of stock. */
export interface SurfaceNote {
  readonly surfaceClass: SurfaceClass;
  readonly name: string;
  /** Stock of its own in place of its class's, mm. */
  readonly amount?: number;
}

/** One state of a part. Print-up = pour-up = +Z; the part stands on its lowest point. */
export interface BuiltPart {
  readonly solid: Solid;
  readonly surfaces: readonly SurfaceNote[];
  readonly dimensions: readonly Dimension[];
  readonly gates: readonly GatePlace[];
  readonly vents: readonly VentPlace[];
  /** Thickness of the thinnest wall that must fill, mm; decides temperatures and filling. The whole part's V/A where left out. */
  readonly thinnestWall?: number;
  /** How the finished part is drawn; left out, it is seen from the front, from above and cut through its middle. */
  readonly drawing?: DrawingNotes;
  readonly fittings?: readonly Fitting[];
  readonly findings: readonly Finding[];
}

/** What `build` gives when the parameters cannot be made: at least one `stop` finding and no solid. */
export interface RefusedPart {
  readonly solid: null;
  readonly findings: readonly Finding[];
}

export type BuildResult = BuiltPart | RefusedPart;

/** Refuses to build, with the reasons. */
export const refuse = (findings: readonly Finding[]): RefusedPart => ({ solid: null, findings });

// biome-ignore lint/suspicious/noExplicitAny: zod's own bound for "any object schema"
export type ParameterSchema = z.ZodObject<any>;

/**
 * A part: one pure function from parameters and stock to a solid with its notes.
 * `build` is called twice for each piece, with `noStock` and with the stock; it never knows growth or gating.
 * It reports what cannot be made as findings and never throws for legal parameters.
 */
export interface PartDefinition<S extends ParameterSchema = ParameterSchema> {
  /** The word on the command line, kebab-case. */
  readonly name: string;
  readonly summary: string;
  /** Made of the field helpers in `fields.ts`: they carry unit, range, default, help and group. */
  readonly parameters: S;
  /** Named sets of parameters that differ from the defaults. */
  readonly presets?: Readonly<Record<string, Partial<z.output<S>>>>;
  /** Where the part is several castings: all of them, in order. A job makes every one unless it names one. */
  readonly pieces?: readonly Piece[];
  /** `kit.tolerance` where the job names none, mm; `usualTolerance` when left out. For free forms that stay as cast. */
  readonly tolerance?: number;
  build(parameters: z.output<S>, stock: Stock, kit: BuildKit): BuildResult;
}

/** Declares a part; its only work is to tie the parameter types together. */
export const definePart = <S extends ParameterSchema>(definition: PartDefinition<S>): PartDefinition<S> =>
  definition;
