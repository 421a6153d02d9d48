import { Group, LineSegments, type Matrix4, Mesh, Plane, type Vector3 } from 'three';
import { measureBounds } from '../../../core/solid/mesh-bounds.js';
import type { Box } from '../../../core/solid/types.js';
import { type Cap, Caps } from './caps.js';
import type { Body, SectionPlane, Standing, ViewContent } from './content.js';
import { FieldPaint } from './field-paint.js';
import { halfDiagonal } from './frame.js';
import { GeometryShelf } from './geometry-shelf.js';
import type { Look } from './look.js';
import { axisIndex, joinBoxes, standingBox } from './section-range.js';
import { makeSurface, order, type SurfaceMaterials } from './surface-materials.js';

/** Layer that casts shadows: bodies alone. */
export const bodyLayer = 1;

interface Shown {
  body: Body;
  standing: Standing;
  box: Box;
  readonly group: Group;
  readonly surface: Mesh;
  readonly depth: Mesh | null;
  readonly creases: LineSegments | null;
  readonly materials: SurfaceMaterials;
  readonly cap: Cap;
}

const still: Standing = { turn: 0, at: [0, 0, 0] };
const nowhere: Box = { min: [0, 0, 0], max: [0, 0, 0] };

/** The bodies of the scene, with the section through them and the field on them. */
export class Bodies {
  readonly root = new Group();
  readonly #shelf = new GeometryShelf();
  readonly #shown = new Map<string, Shown>();
  /** None or one; the materials hold this list. */
  readonly planes: Plane[] = [];
  readonly #caps = new Caps(this.planes);
  #section: SectionPlane | null = null;
  #paint: FieldPaint | null = null;

  /** What is there already stays; what changed its look is made anew, what is gone is given up. */
  show(content: ViewContent, look: Look): void {
    const field = content.field ?? null;
    const repaint = (this.#paint?.volume ?? null) !== field;
    const former = this.#paint;
    if (repaint) this.#paint = field ? new FieldPaint(field) : null;
    const wanted = new Set(content.bodies.map((b) => b.id));
    for (const [id, shown] of this.#shown) if (!wanted.has(id)) this.#remove(id, shown);
    for (const body of content.bodies) {
      const before = this.#shown.get(body.id);
      if (before && (!sameLook(before.body, body) || (repaint && body.painted)))
        this.#remove(body.id, before);
      this.#put(this.#shown.get(body.id) ?? this.#make(body, look), body);
    }
    if (repaint) former?.dispose();
    this.#shelf.keepOnly(new Set(content.bodies.map((b) => b.mesh)));
    this.#rankCaps();
    this.#placeCaps();
  }

  /** All materials anew, for another theme. */
  relook(content: ViewContent, look: Look): void {
    for (const [id, shown] of this.#shown) this.#remove(id, shown);
    this.show(content, look);
  }

  stand(id: string, standing: Standing): boolean {
    const shown = this.#shown.get(id);
    if (!shown) return false;
    place(shown, standing);
    if (this.#section) this.#placeCap(shown);
    return true;
  }

  /** What is beyond the plane is cut away. */
  cut(section: SectionPlane | null): void {
    this.#section = section;
    if (section === null) {
      this.planes.length = 0;
    } else {
      const plane = this.planes[0] ?? new Plane();
      this.planes[0] = plane;
      const kept = section.flipped ? 1 : -1;
      plane.normal.set(0, 0, 0).setComponent(axisIndex[section.axis], kept);
      plane.constant = -kept * section.at;
    }
    this.#placeCaps();
  }

  hatch(spacing: number, across: Vector3): void {
    this.#caps.hatch(spacing, across);
  }

  /** The box about all of them as they stand now, mm. */
  bounds(): Box | null {
    return joinBoxes([...this.#shown.values()].map((s) => standingBox(s.box, s.standing)));
  }

  /** Corners of all triangles, in the scene. */
  points(): readonly Float32Array[] {
    return [...this.#shown.values()].map(({ body, standing }) => {
      const p = body.mesh.positions;
      const [c, s] = [Math.cos(standing.turn), Math.sin(standing.turn)];
      const out = new Float32Array(p.length);
      for (let i = 0; i < p.length; i += 3) {
        out[i] = c * p[i]! - s * p[i + 1]! + standing.at[0];
        out[i + 1] = s * p[i]! + c * p[i + 1]! + standing.at[1];
        out[i + 2] = p[i + 2]! + standing.at[2];
      }
      return out;
    });
  }

  dispose(): void {
    for (const [id, shown] of this.#shown) this.#remove(id, shown);
    this.#shelf.keepOnly(new Set());
    this.#caps.dispose();
    this.#paint?.dispose();
    this.#paint = null;
  }

  #make(body: Body, look: Look): Shown {
    const materials = makeSurface(body, look, this.#paint, this.planes);
    const group = new Group();
    group.matrixAutoUpdate = false;
    const surface = new Mesh(undefined, materials.surface);
    surface.layers.enable(bodyLayer);
    surface.renderOrder = body.skin ? order.skin : 0;
    group.add(surface);
    const depth = materials.depth ? new Mesh(undefined, materials.depth) : null;
    if (depth) {
      depth.renderOrder = order.skinDepth;
      group.add(depth);
    }
    const creases = materials.creases ? new LineSegments(undefined, materials.creases) : null;
    if (creases) {
      creases.renderOrder = order.creases;
      group.add(creases);
    }
    const cap = this.#caps.makeCap(body, look, this.#paint);
    cap.addTo(group, this.root);
    this.root.add(group);
    const shown: Shown = {
      body,
      standing: still,
      box: nowhere,
      group,
      surface,
      depth,
      creases,
      materials,
      cap,
    };
    for (const object of group.children) {
      object.frustumCulled = false;
      object.matrixAutoUpdate = false;
    }
    this.#shown.set(body.id, shown);
    return shown;
  }

  #put(shown: Shown, body: Body): void {
    const isNew = shown.box === nowhere || shown.body.mesh !== body.mesh;
    shown.body = body;
    if (isNew) {
      const item = this.#shelf.take(body.mesh);
      shown.surface.geometry = item.surface;
      if (shown.depth) shown.depth.geometry = item.surface;
      if (shown.creases) shown.creases.geometry = item.creases;
      shown.cap.geometry = item.surface;
      shown.box = measureBounds(body.mesh) ?? nowhere;
    }
    place(shown, body.standing ?? still);
  }

  #remove(id: string, shown: Shown): void {
    shown.cap.dispose();
    shown.group.removeFromParent();
    shown.materials.surface.dispose();
    shown.materials.depth?.dispose();
    shown.materials.creases?.dispose();
    this.#shown.delete(id);
  }

  /** Skins first, large before small: what lies in another body is drawn on its cut face. */
  #rankCaps(): void {
    const ranked = [...this.#shown.values()].sort(
      (a, b) =>
        Number(b.body.skin ?? false) - Number(a.body.skin ?? false) ||
        halfDiagonal(b.box) - halfDiagonal(a.box),
    );
    ranked.forEach((shown, rank) => {
      shown.cap.rank = rank;
    });
  }

  #placeCaps(): void {
    const bounds = this.#section && this.bounds();
    if (this.#section && bounds) setPlane(this.#caps.placing, this.#section, bounds);
    for (const shown of this.#shown.values()) this.#placeCap(shown);
  }

  #placeCap({ cap, box, standing, group, body }: Shown): void {
    const section = this.#section;
    const k = section ? axisIndex[section.axis] : 0;
    const here = standingBox(box, standing);
    const isCut = section !== null && here.min[k] < section.at && here.max[k] > section.at;
    cap.show(isCut, this.#caps.placing, group.matrix, body.finish === 'gating' || body.skin === true);
  }
}

const sameLook = (a: Body, b: Body): boolean =>
  a.finish === b.finish &&
  a.colour === b.colour &&
  (a.skin ?? false) === (b.skin ?? false) &&
  (a.painted ?? false) === (b.painted ?? false);

function place(shown: Shown, standing: Standing): void {
  shown.standing = standing;
  shown.group.matrix.makeRotationZ(standing.turn).setPosition(...standing.at);
  shown.group.matrixWorldNeedsUpdate = true;
}

/** A unit square laid into the section, larger than what it cuts. */
function setPlane(matrix: Matrix4, { axis, at }: SectionPlane, { min, max }: Box): void {
  const reach = 2 * halfDiagonal({ min, max }) + 1;
  if (axis === 'x') matrix.makeRotationY(Math.PI / 2);
  else if (axis === 'y') matrix.makeRotationX(-Math.PI / 2);
  else matrix.identity();
  matrix.scale({ x: reach, y: reach, z: 1 } as Vector3);
  const centre = ([0, 1, 2] as const).map((i) => (min[i] + max[i]) / 2) as [number, number, number];
  centre[axisIndex[axis]] = at;
  matrix.setPosition(...centre);
}
