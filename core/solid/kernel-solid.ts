import type { CrossSection, Manifold } from 'manifold-3d/manifold.js';
import { maths } from '../maths/maths.js';
import { readOutlines } from './binding.js';
import { checkFinite, checkVec3 } from './check-input.js';
import { cleanMesh } from './clean-mesh.js';
import { groupShells } from './components.js';
import { checkResult, type Engine, guard } from './engine.js';
import { SolidError } from './errors.js';
import { measureMesh } from './mass-properties.js';
import type { Handle } from './scope.js';
import type { Box, MassProperties, Mesh, Polygon, Solid, Vec3 } from './types.js';

const axes = { x: 0, y: 1, z: 2 } as const;

/** Degrees for manifold, exact at quarter turns, where it then turns without rounding. */
function toDegrees(angle: number): number {
  const quarters = angle / (Math.PI / 2);
  const whole = Math.round(quarters);
  return Math.abs(quarters - whole) < 1e-12 ? 90 * whole : (angle * 180) / Math.PI;
}

/** A `Solid` over one manifold, in the care of the scope it was made in. */
export class KernelSolid implements Solid {
  readonly #engine: Engine;
  readonly #handle: Handle<Manifold>;
  #mesh: Mesh | undefined;

  private constructor(engine: Engine, handle: Handle<Manifold>) {
    this.#engine = engine;
    this.#handle = handle;
  }

  /** Takes a new manifold into the innermost scope's care and checks it. `what` names the operation in errors. */
  static make(engine: Engine, what: string, create: () => Manifold, mayBeEmpty = false): KernelSolid {
    engine.scopes.require();
    const handle = engine.scopes.track(guard(engine, what, create));
    guard(engine, what, () => {
      if (!mayBeEmpty || handle.value.status() !== 'NoError' || !handle.value.isEmpty())
        checkResult(handle.value, what);
    });
    return new KernelSolid(engine, handle);
  }

  /** The manifold of an operand: alive, ours and not empty. */
  static operand(solid: Solid, what: string): Manifold {
    if (!(solid instanceof KernelSolid))
      throw new SolidError('kernel-failure', `${what}: an operand is not a solid of this kernel`);
    const manifold = solid.#handle.value;
    if (manifold.isEmpty()) throw new SolidError('empty-operand', `${what}: an operand is empty`);
    return manifold;
  }

  add(...others: readonly Solid[]): Solid {
    if (others.length === 0) return this;
    const all = [this, ...others].map((s) => KernelSolid.operand(s, 'add'));
    return this.#make('add', () => this.#engine.wasm.Manifold.union(all));
  }

  subtract(...others: readonly Solid[]): Solid {
    if (others.length === 0) return this;
    const all = [this, ...others].map((s) => KernelSolid.operand(s, 'subtract'));
    return this.#make('subtract', () => this.#engine.wasm.Manifold.difference(all));
  }

  intersect(other: Solid): Solid {
    const a = KernelSolid.operand(this, 'intersect');
    const b = KernelSolid.operand(other, 'intersect');
    return KernelSolid.make(this.#engine, 'intersect', () => a.intersect(b), true);
  }

  translate(by: Vec3): Solid {
    checkVec3(by, 'translate by');
    const manifold = KernelSolid.operand(this, 'translate');
    return this.#make('translate', () => manifold.translate([by[0], by[1], by[2]]));
  }

  rotate(axis: 'x' | 'y' | 'z', angle: number): Solid {
    checkFinite(angle, 'rotation angle');
    const manifold = KernelSolid.operand(this, 'rotate');
    const turn: [number, number, number] = [0, 0, 0];
    turn[axes[axis]] = toDegrees(angle);
    return this.#make('rotate', () => manifold.rotate(turn));
  }

  scale(factor: number | Vec3): Solid {
    const by = checkVec3(typeof factor === 'number' ? [factor, factor, factor] : factor, 'scale factor');
    if (by.includes(0)) throw new SolidError('bad-size', 'a scale factor is 0; the solid would be flat');
    const manifold = KernelSolid.operand(this, 'scale');
    return this.#make('scale', () => manifold.scale([by[0], by[1], by[2]]));
  }

  mirror(normal: Vec3): Solid {
    checkVec3(normal, 'mirror normal');
    if (maths.hypot(...normal) === 0)
      throw new SolidError('bad-size', 'the mirror normal is 0, 0, 0; it has no direction');
    const manifold = KernelSolid.operand(this, 'mirror');
    return this.#make('mirror', () => manifold.mirror([normal[0], normal[1], normal[2]]));
  }

  isEmpty(): boolean {
    return this.#handle.value.isEmpty();
  }

  volume(): number {
    return this.#handle.value.volume();
  }

  bounds(): Box {
    const { min, max } = KernelSolid.operand(this, 'bounds').boundingBox();
    return { min: [min[0], min[1], min[2]], max: [max[0], max[1], max[2]] };
  }

  components(): readonly Solid[] {
    if (this.isEmpty()) return [];
    const whole = this.#handle.value;
    // A cavity is a shell of its own to manifold; it belongs with the piece round it.
    const shells = guard(this.#engine, 'components', () => whole.decompose());
    const handles = shells.map((shell) => this.#engine.scopes.track(shell).value);
    return groupShells(handles)
      .map(({ outer, isHollow, loose }) =>
        this.#make('components', () => pieceOf(whole, outer, isHollow, loose)),
      )
      .map((solid) => ({ solid, volume: solid.volume(), corner: solid.bounds().min }))
      .sort(
        (a, b) =>
          // Equal pieces differ in their last digits.
          Number(b.volume.toPrecision(9)) - Number(a.volume.toPrecision(9)) ||
          a.corner[0] - b.corner[0] ||
          a.corner[1] - b.corner[1] ||
          a.corner[2] - b.corner[2],
      )
      .map(({ solid }) => solid);
  }

  massProperties(): MassProperties {
    return measureMesh(this.mesh());
  }

  slice(height: number): readonly Polygon[] {
    checkFinite(height, 'slice height');
    const manifold = KernelSolid.operand(this, 'slice');
    return takePolygons(this.#engine, 'slice', () => manifold.slice(height));
  }

  projection(): readonly Polygon[] {
    const manifold = KernelSolid.operand(this, 'projection');
    return takePolygons(this.#engine, 'projection', () => manifold.project());
  }

  mesh(): Mesh {
    const manifold = KernelSolid.operand(this, 'mesh');
    this.#mesh ??= guard(this.#engine, 'mesh', () => cleanMesh(manifold));
    return this.#mesh;
  }

  #make(what: string, create: () => Manifold): Solid {
    return KernelSolid.make(this.#engine, what, create);
  }
}

/** What of the whole belongs to one outer shell. */
function pieceOf(whole: Manifold, outer: Manifold, isHollow: boolean, loose: readonly Manifold[]): Manifold {
  if (!isHollow) return outer.translate([0, 0, 0]);
  let piece = whole.intersect(outer);
  for (const body of loose) {
    const less = piece.subtract(body);
    piece.delete();
    piece = less;
  }
  return piece;
}

function takePolygons(engine: Engine, what: string, create: () => CrossSection): readonly Polygon[] {
  return guard(engine, what, () => {
    const section = create();
    try {
      return readOutlines(section);
    } finally {
      section.delete();
    }
  });
}
