/** Renderers that draw without a graphics card, as browsers name them. */
const withoutCard = /swiftshader|llvmpipe|softpipe|software|basic render/i;

/** Whether the browser draws in three dimensions without a graphics card: correct, but many times slower. */
export function drawsInSoftware(): boolean {
  const context = document.createElement('canvas').getContext('webgl2');
  const names = context?.getExtension('WEBGL_debug_renderer_info');
  const name: unknown = names && context?.getParameter(names.UNMASKED_RENDERER_WEBGL);
  context?.getExtension('WEBGL_lose_context')?.loseContext();
  return typeof name === 'string' && withoutCard.test(name);
}

/** Pixels a CSS pixel: fewer while something moves where drawing is slow, more when it rests, for smooth edges. */
export function pixelRatio(isSlow: boolean, isMoving: boolean, device: number): number {
  if (isSlow) return isMoving ? 0.75 : 1.5;
  return Math.min(2, device > 0 ? device : 1);
}

/** After the last movement, ms: the finer picture holds the page up for a moment, which is not to fall between two changes. */
export const restTime = 800;

/** Knows whether something moves: since the last movement until a little after it. */
export class Pace {
  isMoving = false;
  #rest: ReturnType<typeof setTimeout> | undefined;

  /** @param changed something begins to move, or rests */
  constructor(private readonly changed: () => void) {}

  move(): void {
    clearTimeout(this.#rest);
    this.#rest = setTimeout(() => this.#set(false), restTime);
    this.#set(true);
  }

  stop(): void {
    clearTimeout(this.#rest);
  }

  #set(isMoving: boolean): void {
    if (isMoving === this.isMoving) return;
    this.isMoving = isMoving;
    this.changed();
  }
}
