import type {
  Box,
  Kernel,
  LoftSection,
  Mesh,
  Polygon,
  Solid,
  Vec2,
  Vec3,
} from '../../../core/solid/types.js';

/** How a solid came about, down to what was drawn: enough to make it anew by other means. */
export type Construction =
  | { readonly op: 'loft'; readonly sections: readonly LoftSection[]; readonly ready: Mesh }
  | {
      readonly op: 'extrude';
      readonly outlines: readonly Polygon[];
      readonly z0: number;
      readonly z1: number;
      readonly ready: Mesh;
    }
  | { readonly op: 'revolve'; readonly profile: Polygon; readonly tolerance: number; readonly ready: Mesh }
  | {
      readonly op: 'frustum';
      readonly at: Vec2;
      readonly z0: number;
      readonly r0: number;
      readonly z1: number;
      readonly r1: number;
      readonly tolerance: number;
      readonly ready: Mesh;
    }
  | { readonly op: 'mesh'; readonly ready: Mesh }
  | { readonly op: 'union' | 'subtract'; readonly of: readonly Construction[] }
  | { readonly op: 'translate'; readonly of: Construction; readonly by: Vec3 }
  | {
      readonly op: 'rotate';
      readonly of: Construction;
      readonly axis: 'x' | 'y' | 'z';
      readonly angle: number;
    };

export interface RecordedKernel {
  readonly kernel: Kernel;
  /** How the solid came about that this very mesh was taken of. */
  readonly constructionOf: (mesh: Mesh) => Construction;
}

/** A kernel that remembers how its solids came about. What a gear does not use is refused. */
export function recordKernel(inner: Kernel): RecordedKernel {
  const known = new WeakMap<Mesh, Construction>();
  const wrap = (solid: Solid, construction: Construction): Solid => new Recorded(solid, construction, known);
  const drawn = <T extends object>(solid: Solid, from: T): Solid =>
    wrap(solid, { ...from, ready: solid.mesh() } as unknown as Construction);
  const kernel: Kernel = {
    scope: (step) => inner.scope(step),
    fill: (outlines) => inner.fill(outlines),
    fromMesh: (mesh) => wrap(inner.fromMesh(mesh), { op: 'mesh', ready: mesh as Mesh }),
    loft: (sections, diagonal) => drawn(inner.loft(sections, diagonal), { op: 'loft', sections }),
    extrude: (outlines, z0, z1) =>
      drawn(inner.extrude(outlines, z0, z1), { op: 'extrude', outlines, z0, z1 }),
    revolve: (profile, tolerance) =>
      drawn(inner.revolve(profile, tolerance), { op: 'revolve', profile, tolerance }),
    frustum: (at, z0, r0, z1, r1, tolerance) =>
      drawn(inner.frustum(at, z0, r0, z1, r1, tolerance), { op: 'frustum', at, z0, r0, z1, r1, tolerance }),
    union: (parts) =>
      parts.length === 1
        ? (parts[0] as Solid)
        : wrap(inner.union(parts.map(innerOf)), { op: 'union', of: parts.map(constructed) }),
    box: unused,
    sphere: unused,
    hull: unused,
    fromModeling: unused,
    toModeling: unused,
  };
  return {
    kernel,
    constructionOf: (mesh) => {
      const construction = known.get(mesh);
      if (!construction) throw new Error('no solid has given this mesh');
      return construction;
    },
  };
}

const unused = (): never => {
  throw new Error('this construction is not recorded');
};

class Recorded implements Solid {
  constructor(
    readonly inner: Solid,
    readonly construction: Construction,
    readonly known: WeakMap<Mesh, Construction>,
  ) {}

  #made(inner: Solid, construction: Construction): Solid {
    return new Recorded(inner, construction, this.known);
  }
  add(...others: readonly Solid[]): Solid {
    const of = [this.construction, ...others.map(constructed)];
    return this.#made(this.inner.add(...others.map(innerOf)), { op: 'union', of });
  }
  subtract(...others: readonly Solid[]): Solid {
    const of = [this.construction, ...others.map(constructed)];
    return this.#made(this.inner.subtract(...others.map(innerOf)), { op: 'subtract', of });
  }
  translate(by: Vec3): Solid {
    return this.#made(this.inner.translate(by), { op: 'translate', of: this.construction, by });
  }
  rotate(axis: 'x' | 'y' | 'z', angle: number): Solid {
    return this.#made(this.inner.rotate(axis, angle), { op: 'rotate', of: this.construction, axis, angle });
  }
  intersect = unused;
  scale = unused;
  mirror = unused;
  components = unused;
  isEmpty(): boolean {
    return this.inner.isEmpty();
  }
  volume(): number {
    return this.inner.volume();
  }
  bounds(): Box {
    return this.inner.bounds();
  }
  massProperties() {
    return this.inner.massProperties();
  }
  slice(height: number): readonly Polygon[] {
    return this.inner.slice(height);
  }
  projection(): readonly Polygon[] {
    return this.inner.projection();
  }
  mesh(): Mesh {
    const mesh = this.inner.mesh();
    this.known.set(mesh, this.construction);
    return mesh;
  }
}

const recorded = (solid: Solid): Recorded => {
  if (!(solid instanceof Recorded)) throw new Error('a solid of another kernel');
  return solid;
};
const innerOf = (solid: Solid): Solid => recorded(solid).inner;
const constructed = (solid: Solid): Construction => recorded(solid).construction;
