import {
  AlwaysStencilFunc,
  BackSide,
  type BufferGeometry,
  DecrementWrapStencilOp,
  DoubleSide,
  FrontSide,
  IncrementWrapStencilOp,
  KeepStencilOp,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  NotEqualStencilFunc,
  type Object3D,
  type Plane,
  PlaneGeometry,
  ShaderMaterial,
  type Side,
  type StencilOp,
  Vector3,
  ZeroStencilOp,
} from 'three';
import type { Body } from './content.js';
import { type FieldPaint, fieldLookup } from './field-paint.js';
import { colourOf, type Look, stockTint } from './look.js';
import { order } from './surface-materials.js';

/**
 * Fills what a section cuts through. Back faces that remain count up, front faces down: where the count is not nought,
 * the reader looks into the body through the cut, and a plane is drawn there in the body's own colour. It leaves the
 * count at nought for the next body.
 */
export class Caps {
  readonly #counters: readonly [MeshBasicMaterial, MeshBasicMaterial];
  readonly #square = new PlaneGeometry(1, 1);
  /** Of the plane that all caps lie in. */
  readonly placing = new Matrix4();
  readonly #hatch = { spacing: { value: 1 }, across: { value: new Vector3(1, 1, 0) } };

  constructor(planes: Plane[]) {
    const counter = (side: Side, op: StencilOp) =>
      new MeshBasicMaterial({
        side,
        colorWrite: false,
        depthWrite: false,
        depthTest: false,
        stencilWrite: true,
        stencilFunc: AlwaysStencilFunc,
        stencilFail: op,
        stencilZFail: op,
        stencilZPass: op,
        clippingPlanes: planes,
      });
    this.#counters = [counter(BackSide, IncrementWrapStencilOp), counter(FrontSide, DecrementWrapStencilOp)];
  }

  /** mm between the lines of the hatching, and the direction across them. */
  hatch(spacing: number, across: Vector3): void {
    this.#hatch.spacing.value = spacing;
    this.#hatch.across.value.copy(across);
  }

  makeCap(body: Body, look: Look, paint: FieldPaint | null): Cap {
    return new Cap(this.#counters, this.#square, capMaterial(body, look, paint, this.#hatch));
  }

  dispose(): void {
    for (const m of this.#counters) m.dispose();
    this.#square.dispose();
  }
}

/** The cut face of one body. */
export class Cap {
  readonly #counts: readonly Mesh[];
  readonly #face: Mesh;

  constructor(
    counters: readonly MeshBasicMaterial[],
    square: PlaneGeometry,
    readonly material: ShaderMaterial,
  ) {
    this.#counts = counters.map((material) => new Mesh(undefined, material));
    this.#face = new Mesh(square, material);
    for (const object of this.#objects()) {
      object.frustumCulled = false;
      object.matrixAutoUpdate = false;
    }
  }

  #objects = (): readonly Mesh[] => [...this.#counts, this.#face];

  /** The counters stand as the body does, the face lies in the plane. */
  addTo(body: Object3D, world: Object3D): void {
    body.add(...this.#counts);
    world.add(this.#face);
  }

  set geometry(geometry: BufferGeometry) {
    for (const count of this.#counts) count.geometry = geometry;
  }

  /** Those that come later lie on those before them. */
  set rank(rank: number) {
    this.#objects().forEach((object, i) => {
      object.renderOrder = order.caps + 3 * rank + i;
    });
    this.material.polygonOffsetUnits = -2 * rank;
  }

  show(visible: boolean, placing: Matrix4, bodyMatrix: Matrix4, flip: boolean): void {
    for (const object of this.#objects()) object.visible = visible;
    if (!visible) return;
    this.#face.matrix.copy(placing);
    this.#face.matrixWorldNeedsUpdate = true;
    this.material.uniforms.toBody!.value.copy(bodyMatrix).invert();
    this.material.uniforms.lean!.value = flip ? -1 : 1;
  }

  dispose(): void {
    this.material.dispose();
    for (const object of this.#objects()) object.removeFromParent();
  }
}

function capMaterial(
  body: Body,
  look: Look,
  paint: FieldPaint | null,
  hatch: { spacing: { value: number }; across: { value: Vector3 } },
): ShaderMaterial {
  const painted = body.painted === true && paint !== null;
  const colour = body.skin ? stockTint(body.colour) : colourOf(body.colour);
  colour.lerp(colourOf(look.cut.colour), body.skin ? 0.25 : look.cut.share);
  return new ShaderMaterial({
    uniforms: {
      ...(painted ? paint.uniforms : {}),
      colour: { value: colour },
      toBody: { value: new Matrix4() },
      lean: { value: 1 },
      spacing: hatch.spacing,
      across: hatch.across,
    },
    vertexShader: /* glsl */ `
      uniform mat4 toBody;
      varying vec3 vAt;
      varying vec3 vPlace;
      void main() {
        vec4 place = modelMatrix * vec4(position, 1.0);
        vPlace = place.xyz;
        vAt = (toBody * place).xyz;
        gl_Position = projectionMatrix * viewMatrix * place;
      }`,
    fragmentShader: /* glsl */ `
      ${painted ? fieldLookup : ''}
      uniform vec3 colour;
      uniform vec3 across;
      uniform float spacing;
      uniform float lean;
      varying vec3 vAt;
      varying vec3 vPlace;
      void main() {
        ${
          painted
            ? 'gl_FragColor = vec4(fieldAt(vAt), 1.0);'
            : `vec3 way = vec3(across.x, across.y * (across.x == 0.0 ? 1.0 : lean), across.z * lean);
        float along = dot(vPlace, way) / spacing;
        float step = max(fwidth(along), 1e-6);
        float far = abs(fract(along - 0.5) - 0.5) / step;
        float line = (1.0 - smoothstep(0.35, 1.15, far)) * (1.0 - smoothstep(0.2, 0.4, step));
        gl_FragColor = vec4(mix(colour, colour * 0.45, 0.55 * line), 1.0);`
        }
        #include <colorspace_fragment>
      }`,
    side: DoubleSide,
    polygonOffset: true,
    stencilWrite: true,
    stencilRef: 0,
    stencilFunc: NotEqualStencilFunc,
    stencilFail: KeepStencilOp,
    stencilZFail: ZeroStencilOp,
    stencilZPass: ZeroStencilOp,
  });
}
