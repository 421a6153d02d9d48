import {
  CircleGeometry,
  FrontSide,
  Group,
  Mesh,
  MeshBasicMaterial,
  PlaneGeometry,
  ShaderMaterial,
  Vector2,
} from 'three';
import type { KeepOut } from '../../../core/plate/contract.js';
import type { ViewContent } from './content.js';
import { colourOf, type Look } from './look.js';
import { order } from './surface-materials.js';

type BedView = NonNullable<ViewContent['bed']>;

/** A print bed seen from above: a quiet plate with a line each 10 mm, a stronger one each 50 mm, and its zones. */
export class Bed {
  readonly root = new Group();
  #parts: Mesh[] = [];
  #made = '';

  show(bed: BedView | undefined, look: Look): void {
    const wanted = bed ? JSON.stringify([bed, look.bed]) : '';
    if (wanted === this.#made) return;
    this.dispose();
    this.#made = wanted;
    if (!bed) return;
    const rim = 4;
    const plate = new Mesh(
      new PlaneGeometry(bed.width + 2 * rim, bed.depth + 2 * rim),
      plateMaterial(bed, rim, look),
    );
    // Below the patterns by less than a layer, so that their feet are not torn.
    plate.position.set(bed.width / 2, bed.depth / 2, -0.05);
    plate.renderOrder = order.bed;
    this.#parts = [plate, ...(bed.keepOuts ?? []).map((zone) => zoneMesh(zone, look))];
    this.root.add(...this.#parts);
  }

  dispose(): void {
    for (const { geometry, material } of this.#parts) {
      geometry.dispose();
      for (const one of [material].flat()) one.dispose();
    }
    this.root.clear();
    this.#parts = [];
    this.#made = '';
  }
}

/** Just over the plate, under the patterns. */
function zoneMesh(zone: KeepOut, look: Look): Mesh {
  const round = 'diameter' in zone;
  const geometry = round
    ? new CircleGeometry(zone.diameter / 2, 64)
    : new PlaneGeometry(zone.width, zone.depth);
  const material = new MeshBasicMaterial({
    color: colourOf(look.bed.line),
    transparent: true,
    opacity: 0.55,
  });
  const mesh = new Mesh(geometry, material);
  const [x, y] = round ? [zone.x, zone.y] : [zone.x + zone.width / 2, zone.y + zone.depth / 2];
  mesh.position.set(x, y, -0.03);
  mesh.renderOrder = order.bed + 0.5;
  return mesh;
}

function plateMaterial(bed: BedView, rim: number, look: Look): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: {
      plate: { value: colourOf(look.bed.plate) },
      line: { value: colourOf(look.bed.line) },
      size: { value: new Vector2(bed.width, bed.depth) },
      rim: { value: rim },
      isRound: { value: bed.shape === 'circle' ? 1 : 0 },
    },
    vertexShader: /* glsl */ `
      uniform vec2 size;
      varying vec2 vAt;
      void main() {
        vAt = position.xy + 0.5 * size;
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      uniform vec3 plate;
      uniform vec3 line;
      uniform vec2 size;
      uniform float rim;
      uniform float isRound;
      varying vec2 vAt;
      float rule(float spacing) {
        vec2 along = vAt / spacing;
        vec2 step = fwidth(along);
        vec2 near = 1.0 - smoothstep(0.4 * step, 1.2 * step, abs(fract(along - 0.5) - 0.5));
        return max(near.x, near.y) * (1.0 - smoothstep(0.15, 0.4, max(step.x, step.y)));
      }
      void main() {
        vec2 out2 = max(-vAt, vAt - size);
        float beyond = length(vAt - 0.5 * size) - 0.5 * size.x;
        float outside = mix(length(max(out2 + rim, 0.0)) - rim, beyond, isRound);
        float edge = fwidth(outside);
        float cover = 1.0 - smoothstep(rim - 1.5 * edge, rim, outside + 0.0 * edge);
        float within = 1.0 - step(0.01, mix(max(out2.x, out2.y), beyond, isRound));
        float strength = within * max(0.4 * rule(10.0), 0.8 * rule(50.0));
        gl_FragColor = vec4(mix(plate, line, strength), cover);
        #include <colorspace_fragment>
      }`,
    side: FrontSide,
    transparent: true,
  });
}
