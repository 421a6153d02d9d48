import { FrontSide, Group, Mesh, PlaneGeometry, ShaderMaterial, Vector2 } from 'three';
import { colourOf, type Look } from './look.js';
import { order } from './surface-materials.js';

/** A print bed seen from above: a quiet plate with a line each 10 mm, a stronger one each 50 mm. */
export class Bed {
  readonly root = new Group();
  #plate: Mesh<PlaneGeometry, ShaderMaterial> | null = null;
  #made = '';

  show(bed: { readonly width: number; readonly depth: number } | undefined, look: Look): void {
    const wanted = bed ? `${bed.width} ${bed.depth} ${look.bed.plate}` : '';
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
    this.#plate = plate;
    this.root.add(plate);
  }

  dispose(): void {
    this.#plate?.geometry.dispose();
    this.#plate?.material.dispose();
    this.#plate?.removeFromParent();
    this.#plate = null;
    this.#made = '';
  }
}

function plateMaterial(
  bed: { readonly width: number; readonly depth: number },
  rim: number,
  look: Look,
): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: {
      plate: { value: colourOf(look.bed.plate) },
      line: { value: colourOf(look.bed.line) },
      size: { value: new Vector2(bed.width, bed.depth) },
      rim: { value: rim },
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
      varying vec2 vAt;
      float rule(float spacing) {
        vec2 along = vAt / spacing;
        vec2 step = fwidth(along);
        vec2 near = 1.0 - smoothstep(0.4 * step, 1.2 * step, abs(fract(along - 0.5) - 0.5));
        return max(near.x, near.y) * (1.0 - smoothstep(0.15, 0.4, max(step.x, step.y)));
      }
      void main() {
        vec2 out2 = max(-vAt, vAt - size);
        float outside = length(max(out2 + rim, 0.0)) - rim;
        float edge = fwidth(outside);
        float cover = 1.0 - smoothstep(rim - 1.5 * edge, rim, outside + 0.0 * edge);
        float within = 1.0 - step(0.01, max(out2.x, out2.y));
        float strength = within * max(0.4 * rule(10.0), 0.8 * rule(50.0));
        gl_FragColor = vec4(mix(plate, line, strength), cover);
        #include <colorspace_fragment>
      }`,
    side: FrontSide,
    transparent: true,
  });
}
