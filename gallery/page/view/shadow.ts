import {
  Color,
  FrontSide,
  LinearFilter,
  Mesh,
  NoBlending,
  OrthographicCamera,
  type Plane,
  PlaneGeometry,
  type Scene,
  ShaderMaterial,
  Vector2,
  type WebGLRenderer,
  WebGLRenderTarget,
} from 'three';
import type { Box } from '../../../core/solid/types.js';
import { bodyLayer } from './bodies.js';
import { halfDiagonal, middle } from './frame.js';
import { order } from './surface-materials.js';

const pixels = 256;

/** A soft shadow where the piece stands: seen from below, darker where it is near the ground, and blurred. */
export class GroundShadow {
  readonly plane: Mesh<PlaneGeometry, ShaderMaterial>;
  readonly #camera = new OrthographicCamera();
  readonly #targets = [target(), target()] as const;
  readonly #near: ShaderMaterial;
  readonly #blur = blurMaterial();
  readonly #screen: Mesh<PlaneGeometry, ShaderMaterial>;
  readonly #screenCamera = new OrthographicCamera(-1, 1, 1, -1, 0, 1);

  constructor(planes: Plane[]) {
    this.#near = nearMaterial(planes);
    this.#camera.layers.set(bodyLayer);
    this.#screen = new Mesh(new PlaneGeometry(2, 2), this.#blur);
    this.#screen.frustumCulled = false;
    this.plane = new Mesh(new PlaneGeometry(1, 1), groundMaterial());
    this.plane.material.uniforms.shade!.value = this.#targets[0].texture;
    this.plane.renderOrder = order.shadow;
    this.plane.visible = false;
  }

  set strength(strength: number) {
    this.plane.material.uniforms.strength!.value = strength;
  }

  /** Takes the picture from below anew. */
  cast(renderer: WebGLRenderer, scene: Scene, box: Box | null): void {
    this.plane.visible = box !== null;
    if (!box) return;
    const size = 2 * halfDiagonal(box);
    const half = (Math.max(box.max[0] - box.min[0], box.max[1] - box.min[1]) + 0.5 * size) / 2;
    const [x, y, z] = [middle(box, 0), middle(box, 1), box.min[2]];
    const camera = this.#camera;
    Object.assign(camera, { left: -half, right: half, top: half, bottom: -half, near: 0, far: size });
    camera.position.set(x, y, z - 0.01 * size);
    camera.up.set(0, 1, 0);
    camera.lookAt(x, y, z + 1);
    camera.updateProjectionMatrix();
    this.plane.position.set(x, y, z - 0.02);
    // Seen from below, right is left.
    this.plane.scale.set(2 * half, 2 * half, 1);

    const [first, second] = this.#targets;
    const { background, overrideMaterial } = scene;
    const clear = renderer.getClearColor(new Color());
    const alpha = renderer.getClearAlpha();
    scene.background = null;
    scene.overrideMaterial = this.#near;
    renderer.setClearColor(0x000000, 0);
    renderer.setRenderTarget(first);
    renderer.clear();
    renderer.render(scene, camera);
    scene.overrideMaterial = overrideMaterial;
    scene.background = background;
    const spread = 0.018 * (size / half);
    for (const width of [spread, 0.45 * spread]) {
      this.#sweep(renderer, first, second, width, 0);
      this.#sweep(renderer, second, first, 0, width);
    }
    renderer.setRenderTarget(null);
    renderer.setClearColor(clear, alpha);
  }

  #sweep(
    renderer: WebGLRenderer,
    from: WebGLRenderTarget,
    to: WebGLRenderTarget,
    x: number,
    y: number,
  ): void {
    const { uniforms } = this.#blur;
    uniforms.shade!.value = from.texture;
    uniforms.by!.value.set(x, y);
    renderer.setRenderTarget(to);
    renderer.render(this.#screen, this.#screenCamera);
  }

  dispose(): void {
    for (const t of this.#targets) t.dispose();
    for (const m of [this.#near, this.#blur, this.plane.material]) m.dispose();
    this.plane.geometry.dispose();
    this.#screen.geometry.dispose();
    this.plane.removeFromParent();
  }
}

const target = (): WebGLRenderTarget =>
  new WebGLRenderTarget(pixels, pixels, { minFilter: LinearFilter, magFilter: LinearFilter });

const nearMaterial = (planes: Plane[]): ShaderMaterial =>
  new ShaderMaterial({
    vertexShader: /* glsl */ `
      #include <clipping_planes_pars_vertex>
      void main() {
        #include <begin_vertex>
        #include <project_vertex>
        #include <clipping_planes_vertex>
      }`,
    fragmentShader: /* glsl */ `
      #include <clipping_planes_pars_fragment>
      void main() {
        #include <clipping_planes_fragment>
        float far = gl_FragCoord.z;
        gl_FragColor = vec4(0.0, 0.0, 0.0, exp(-3.4 * far));
      }`,
    clipping: true,
    clippingPlanes: planes,
    blending: NoBlending,
    side: 2,
  });

const screenVertex = /* glsl */ `
  varying vec2 vUv;
  void main() {
    vUv = uv;
    gl_Position = vec4(position.xy, 0.0, 1.0);
  }`;

const blurMaterial = (): ShaderMaterial =>
  new ShaderMaterial({
    uniforms: { shade: { value: null }, by: { value: new Vector2() } },
    vertexShader: screenVertex,
    fragmentShader: /* glsl */ `
      uniform sampler2D shade;
      uniform vec2 by;
      varying vec2 vUv;
      void main() {
        float sum = 0.0;
        float weights = 0.0;
        for (int i = -6; i <= 6; i++) {
          float t = float(i) / 6.0;
          float weight = exp(-3.0 * t * t);
          sum += weight * texture2D(shade, vUv + t * by).a;
          weights += weight;
        }
        gl_FragColor = vec4(0.0, 0.0, 0.0, sum / weights);
      }`,
    blending: NoBlending,
    depthTest: false,
    depthWrite: false,
  });

const groundMaterial = (): ShaderMaterial =>
  new ShaderMaterial({
    uniforms: { shade: { value: null }, strength: { value: 0.5 } },
    vertexShader: /* glsl */ `
      varying vec2 vUv;
      void main() {
        vUv = vec2(1.0 - uv.x, uv.y);
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      uniform sampler2D shade;
      uniform float strength;
      varying vec2 vUv;
      void main() {
        vec2 edge = smoothstep(0.0, 0.08, vUv) * smoothstep(0.0, 0.08, 1.0 - vUv);
        gl_FragColor = vec4(vec3(0.02, 0.016, 0.01), strength * edge.x * edge.y * texture2D(shade, vUv).a);
        #include <colorspace_fragment>
      }`,
    side: FrontSide,
    transparent: true,
    depthWrite: false,
  });
