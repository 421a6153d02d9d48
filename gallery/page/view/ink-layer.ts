import { BufferAttribute, BufferGeometry, DoubleSide, Group, Mesh, ShaderMaterial, Vector2 } from 'three';
import type { Pen } from './pen.js';
import { order } from './surface-materials.js';

/** Lines on the picture: full where they are free, faint where the piece is before them. */
export class InkLayer {
  readonly root = new Group();
  readonly #size = { value: new Vector2(1, 1) };
  #geometry = new BufferGeometry();
  readonly #meshes: readonly Mesh[];

  /** @param behind strength of what the piece hides, 0 to 1 */
  constructor(behind: number) {
    const material = (strength: number, depthTest: boolean) =>
      new ShaderMaterial({
        uniforms: { size: this.#size, strength: { value: strength } },
        vertexShader: /* glsl */ `
          attribute vec4 ink;
          uniform vec2 size;
          varying vec4 vInk;
          void main() {
            vInk = ink;
            // A little nearer than what it is drawn on.
            gl_Position = vec4(2.0 * position.x / size.x - 1.0, 1.0 - 2.0 * position.y / size.y, position.z - 2e-3, 1.0);
          }`,
        fragmentShader: /* glsl */ `
          uniform float strength;
          varying vec4 vInk;
          void main() {
            gl_FragColor = vec4(vInk.rgb, vInk.a * strength);
          }`,
        transparent: true,
        depthWrite: false,
        depthTest,
        side: DoubleSide,
      });
    const materials = behind >= 1 ? [material(1, false)] : [material(behind, false), material(1, true)];
    this.#meshes = materials.map((m, i) => {
      const mesh = new Mesh(this.#geometry, m);
      mesh.frustumCulled = false;
      mesh.renderOrder = order.ink + (behind >= 1 ? 2 : i);
      this.root.add(mesh);
      return mesh;
    });
  }

  draw(pen: Pen, width: number, height: number): void {
    this.#geometry.dispose();
    this.#geometry = new BufferGeometry();
    this.root.visible = pen.corners.length > 0;
    this.#size.value.set(width, height);
    this.#geometry.setAttribute('position', new BufferAttribute(new Float32Array(pen.corners), 3));
    this.#geometry.setAttribute('ink', new BufferAttribute(new Float32Array(pen.colours), 4));
    for (const mesh of this.#meshes) mesh.geometry = this.#geometry;
  }

  dispose(): void {
    this.#geometry.dispose();
    for (const mesh of this.#meshes) (mesh.material as ShaderMaterial).dispose();
  }
}
