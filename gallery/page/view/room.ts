import {
  DataTexture,
  LinearFilter,
  Matrix4,
  NeutralToneMapping,
  type PerspectiveCamera,
  Scene,
  SRGBColorSpace,
  Vector3,
  WebGLRenderer,
  type WebGLRenderTarget,
} from 'three';
import { makeEnvironment } from './environment.js';
import type { Bearing } from './frame.js';
import { colourOf, type Look } from './look.js';
import { drawsInSoftware } from './software-drawing.js';

/** The browser cannot draw in three dimensions. */
export class NoPictureError extends Error {
  override readonly name = 'NoPictureError';
}

/** The canvas, what draws on it, the light and the backdrop. */
export class Room {
  readonly canvas = document.createElement('canvas');
  readonly renderer: WebGLRenderer;
  readonly scene = new Scene();
  /** There is no graphics card to draw with. */
  readonly isSlow = drawsInSoftware();
  #light: WebGLRenderTarget;
  #backdrop: DataTexture | null = null;

  /** @param onLost the graphics card took the picture away, or gave it back */
  constructor(
    host: HTMLElement,
    private readonly onLost: (lost: boolean) => void,
  ) {
    const attributes = { alpha: false, antialias: !this.isSlow, depth: true, stencil: true };
    const context = this.canvas.getContext('webgl2', attributes) as WebGL2RenderingContext | null;
    if (!context) throw new NoPictureError('This browser has no WebGL 2.');
    try {
      this.renderer = new WebGLRenderer({ canvas: this.canvas, context, ...attributes });
    } catch (error) {
      throw new NoPictureError('WebGL 2 does not start.', { cause: error });
    }
    this.renderer.toneMapping = NeutralToneMapping;
    this.renderer.localClippingEnabled = true;
    this.#light = makeEnvironment(this.renderer);
    this.scene.environment = this.#light.texture;
    this.canvas.className = 'stage-canvas';
    // Nothing on it can be read out; the host has the name.
    this.canvas.setAttribute('aria-hidden', 'true');
    this.canvas.addEventListener('webglcontextlost', this.#lost);
    this.canvas.addEventListener('webglcontextrestored', this.#restored);
    host.prepend(this.canvas);
  }

  get mostPixels(): number {
    return Math.min(8192, this.renderer.capabilities.maxTextureSize);
  }

  resize(width: number, height: number, ratio: number): void {
    this.renderer.setPixelRatio(ratio);
    this.renderer.setSize(width, height, false);
  }

  dress(look: Look): void {
    this.renderer.toneMappingExposure = look.exposure;
    this.#backdrop?.dispose();
    this.#backdrop = makeBackdrop(look);
    this.scene.background = this.#backdrop;
  }

  /** The workshop turns with the reader: its window stays at the left. */
  render(camera: PerspectiveCamera, { azimuth }: Bearing): void {
    const [s, c] = [Math.sin(azimuth), Math.cos(azimuth)];
    this.scene.environmentRotation.setFromRotationMatrix(
      new Matrix4().makeBasis(new Vector3(-s, c, 0), new Vector3(0, 0, 1), new Vector3(c, s, 0)),
    );
    this.renderer.render(this.scene, camera);
  }

  dispose(): void {
    this.canvas.removeEventListener('webglcontextlost', this.#lost);
    this.canvas.removeEventListener('webglcontextrestored', this.#restored);
    this.#light.dispose();
    this.#backdrop?.dispose();
    this.renderer.dispose();
    // A page has few contexts; this one is not wanted until it is swept up.
    this.renderer.forceContextLoss();
    this.canvas.remove();
  }

  #lost = (event: Event): void => {
    event.preventDefault();
    this.onLost(true);
  };

  #restored = (): void => {
    this.#light = makeEnvironment(this.renderer);
    this.scene.environment = this.#light.texture;
    this.onLost(false);
  };
}

const backdropRows = 64;

function makeBackdrop({ backdrop }: Look): DataTexture {
  const data = new Uint8Array(4 * backdropRows);
  for (let row = 0; row < backdropRows; row++) {
    const { r, g, b } = colourOf(backdrop.below)
      .lerp(colourOf(backdrop.above), row / (backdropRows - 1))
      .convertLinearToSRGB();
    data.set(
      [r, g, b, 1].map((v) => Math.round(255 * v)),
      4 * row,
    );
  }
  const texture = new DataTexture(data, 1, backdropRows);
  texture.colorSpace = SRGBColorSpace;
  texture.minFilter = LinearFilter;
  texture.magFilter = LinearFilter;
  texture.needsUpdate = true;
  return texture;
}
