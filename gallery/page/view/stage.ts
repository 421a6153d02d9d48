import { Vector3 } from 'three';
import { measureBounds } from '../../../core/solid/mesh-bounds.js';
import type { Box } from '../../../core/solid/types.js';
import { roundStepOver } from '../../../core/units/round-step.js';
import { Bed } from './bed.js';
import { Bodies } from './bodies.js';
import type { Mark, Ray, SectionPlane, Standing, ViewContent } from './content.js';
import { dimensionPoints, drawDimensions } from './dimensions.js';
import type { Side } from './frame.js';
import { InkLayer } from './ink-layer.js';
import { followKey } from './keys.js';
import { Labels, type PlacedText } from './labels.js';
import { looks, type Theme } from './look.js';
import { drawMarks, inkOf } from './marks.js';
import { Pen } from './pen.js';
import { drawTexts } from './picture.js';
import { isSamePiece, type Piece, pieceOf } from './piece.js';
import { makeProjector } from './projector.js';
import { Room } from './room.js';
import { SectionHandle } from './section-handle.js';
import { joinBoxes } from './section-range.js';
import { GroundShadow } from './shadow.js';
import { Pace, pixelRatio } from './software-drawing.js';
import { Viewpoint } from './viewpoint.js';

/** What the stage tells whoever made it. */
export interface StageEvents {
  /** The section was pulled by its knob. */
  readonly onSection?: (section: SectionPlane) => void;
  /** A frame that shows new content is drawn; the time is that of `performance.now()`. */
  readonly onPainted?: (now: number) => void;
  /** The graphics card took the picture away (true), or gave it back. */
  readonly onLost?: (lost: boolean) => void;
}

/**
 * Shows bodies in an element of the page and lets the reader walk round them. Draws only when something changed.
 * @throws NoPictureError where the browser has no WebGL 2
 */
export class Stage {
  readonly #room: Room;
  readonly #bodies = new Bodies();
  readonly #bed = new Bed();
  readonly #shadow = new GroundShadow(this.#bodies.planes);
  readonly #sizes = new InkLayer(0.22);
  readonly #marksInk = new InkLayer(1);
  readonly #labels = new Labels();
  readonly #handle: SectionHandle;
  readonly #viewpoint: Viewpoint;
  readonly #watch: ResizeObserver;
  #content: ViewContent = { bodies: [] };
  #theme: Theme = 'light';
  #section: SectionPlane | null = null;
  #showSizes = false;
  #piece: Piece | null = null;
  #size = { width: 0, height: 0 };
  #frame = 0;
  #isNew = false;
  #isStale = true;
  #wantsFit = false;
  #isFitted = false;
  #isLost = false;
  #isResized = false;
  #isPainting = false;
  readonly #pace = new Pace(() => {
    this.#isResized = true;
    this.#request();
  });

  constructor(
    private readonly host: HTMLElement,
    private readonly events: StageEvents = {},
  ) {
    this.#room = new Room(host, this.#onLost);
    const { scene, canvas } = this.#room;
    scene.add(this.#bed.root, this.#shadow.plane, this.#bodies.root, this.#sizes.root, this.#marksInk.root);
    this.#handle = new SectionHandle((section) => {
      this.setSection(section);
      this.events.onSection?.(section);
    });
    // Keys turn and move the piece.
    host.tabIndex = 0;
    host.append(this.#labels.root, this.#handle.knob);
    this.#viewpoint = new Viewpoint(canvas, this.#move, () => calm.matches);
    canvas.addEventListener('pointerdown', this.#onPointer);
    canvas.addEventListener('wheel', this.#onPointer, { passive: true });
    host.addEventListener('keydown', this.#onKey);
    this.#watch = new ResizeObserver(this.#onResize);
    this.setTheme('light');
    // Tells the size at once, too.
    this.#watch.observe(host);
  }

  /** Shows other content: the camera stays where the piece is the same, changed a little. */
  show(content: ViewContent): void {
    this.#content = content;
    this.#bodies.show(content, looks[this.#theme]);
    this.#bed.show(content.bed, looks[this.#theme]);
    this.#isNew = true;
    this.#isStale = true;
    const piece = pieceOf(content, this.#bodies.bounds());
    if (!(this.#piece && piece && isSamePiece(this.#piece, piece))) {
      this.#piece = piece;
      this.#wantsFit = piece !== null;
    }
    this.#move();
  }

  setSection(section: SectionPlane | null): void {
    const before = this.#section;
    const isSame = section?.axis === before?.axis && section?.at === before?.at;
    if (isSame && section?.flipped === before?.flipped) return;
    this.#section = section;
    this.#bodies.cut(section);
    this.#isStale = true;
    this.#move();
  }

  setDimensions(shown: boolean): void {
    if (shown === this.#showSizes) return;
    this.#showSizes = shown;
    if (this.#isFitted) this.fit();
    this.#request();
  }

  setTheme(theme: Theme): void {
    this.#theme = theme;
    const look = looks[theme];
    this.host.dataset.theme = theme;
    this.#room.dress(look);
    this.#shadow.strength = look.shadow;
    this.#bodies.relook(this.#content, look);
    this.#bed.show(this.#content.bed, look);
    this.#request();
  }

  /** Another standing of a body: for what moves, without making it ready anew. */
  stand(id: string, standing: Standing): void {
    if (this.#bodies.stand(id, standing)) this.#move();
  }

  setMarks(marks: readonly Mark[], rays: readonly Ray[]): void {
    this.#content = { ...this.#content, marks, rays };
    this.#request();
  }

  /** All in view, from where the reader stands. */
  fit(): void {
    this.#viewpoint.fit(this.#points());
    this.#isFitted = true;
  }

  /** All in view from one side. */
  lookFrom(side: Side): void {
    this.#viewpoint.fit(this.#points(), side);
    this.#isFitted = true;
  }

  /** The present view as a PNG, pixels. Sizes beyond what the graphics card draws are made smaller. */
  async picture(width: number, height: number): Promise<Blob> {
    const most = this.#room.mostPixels;
    const shrink = Math.min(1, most / width, most / height);
    const [w, h] = [Math.max(1, Math.round(width * shrink)), Math.max(1, Math.round(height * shrink))];
    // Lines and texts as large as they look in a view of 640 pixels.
    const scale = Math.max(1, Math.min(w, h) / 640);
    const page = document.createElement('canvas');
    page.width = w;
    page.height = h;
    // Without a graphics card edges are smoothed by drawing larger.
    const finer = this.#room.isSlow && 1.5 * Math.max(w, h) <= most ? 1.5 : 1;
    this.#room.resize(w / scale, h / scale, scale * finer);
    this.#viewpoint.widen(w / h);
    const texts = this.#draw({ width: w / scale, height: h / scale }, false);
    const pen = page.getContext('2d');
    pen?.drawImage(this.#room.canvas, 0, 0, w, h);
    if (pen) drawTexts(pen, texts, scale, looks[this.#theme]);
    this.#onResize();
    return new Promise((resolve, reject) => {
      page.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('The picture could not be made.'))));
    });
  }

  dispose(): void {
    cancelAnimationFrame(this.#frame);
    this.#pace.stop();
    this.#watch.disconnect();
    this.host.removeEventListener('keydown', this.#onKey);
    this.#viewpoint.dispose();
    for (const part of [this.#bodies, this.#bed, this.#shadow, this.#sizes, this.#marksInk]) part.dispose();
    this.#labels.root.remove();
    this.#handle.knob.remove();
    this.#room.dispose();
  }

  #request = (): void => {
    if (this.#frame === 0 && !this.#isLost) this.#frame = requestAnimationFrame(this.#paint);
  };

  /** Something moves, and perhaps goes on: on a slow machine the picture is coarse until it rests. */
  #move = (): void => {
    if (this.#isPainting) return;
    if (this.#room.isSlow) this.#pace.move();
    this.#request();
  };

  #paint = (now: number): void => {
    this.#frame = 0;
    const { width, height } = this.#size;
    if (this.#isLost || width === 0 || height === 0) return;
    this.#isPainting = true;
    if (this.#isResized) this.#sizeCanvas();
    if (this.#wantsFit) {
      this.#wantsFit = false;
      this.#isFitted = true;
      this.#viewpoint.fit(this.#points(), undefined, true);
    }
    this.#viewpoint.step(now, this.#extent());
    if (this.#isStale) {
      this.#isStale = false;
      this.#shadow.cast(this.#room.renderer, this.#room.scene, this.#bodies.bounds());
    }
    this.#draw(this.#size, true);
    this.#isPainting = false;
    if (this.#viewpoint.isTurning) this.#move();
    if (this.#isNew) {
      this.#isNew = false;
      this.events.onPainted?.(performance.now());
    }
  };

  #draw(size: { width: number; height: number }, withKnob: boolean): readonly PlacedText[] {
    const { width, height } = size;
    const look = looks[this.#theme];
    const { camera, bearing, millimetresPerPixel } = this.#viewpoint;
    const see = makeProjector(camera, width, height);
    const sizes = new Pen(see);
    const marks = new Pen(see);
    const { dimensions = [], marks: points = [], rays = [] } = this.#content;
    const texts = [
      ...drawMarks(marks, points, rays, look),
      ...(this.#showSizes ? drawDimensions(sizes, dimensions, inkOf(look.ink), inkOf(look.halo, 0.45)) : []),
    ];
    if (withKnob) {
      const box = this.#bodies.bounds();
      this.#handle.draw(sizes, this.#section, box, inkOf(look.accent), size, millimetresPerPixel);
    }
    if (this.#section) {
      const across = { x: new Vector3(0, 1, 1), y: new Vector3(1, 0, 1), z: new Vector3(1, 1, 0) };
      this.#bodies.hatch(roundStepOver(millimetresPerPixel * 7), across[this.#section.axis]);
    }
    this.#sizes.draw(sizes, width, height);
    this.#marksInk.draw(marks, width, height);
    this.#room.render(camera, bearing);
    return this.#labels.show(texts, width, height);
  }

  /** The box about all that is drawn, mm. */
  #extent(): Box | null {
    const box = this.#bodies.bounds();
    if (!box) return null;
    const extras = this.#extras().map((p) => measureBounds({ positions: new Float32Array(p) }) ?? box);
    return joinBoxes([box, ...extras]);
  }

  /** What is in view beside the bodies. */
  #extras(): readonly number[][] {
    const { bed, dimensions, rays = [] } = this.#content;
    return [
      bed ? [0, 0, 0, bed.width, 0, 0, bed.width, bed.depth, 0, 0, bed.depth, 0] : [],
      this.#showSizes && dimensions ? dimensionPoints(dimensions) : [],
      rays.flatMap(({ from, to }) => [...from, ...to]),
    ];
  }

  #points = (): readonly ArrayLike<number>[] => [...this.#bodies.points(), ...this.#extras()];

  #onResize = (): void => {
    const [width, height] = [this.host.clientWidth, this.host.clientHeight];
    this.#size = { width, height };
    if (width === 0 || height === 0) return;
    this.#isResized = true;
    this.#viewpoint.resize(width, height);
    if (this.#isFitted) this.#wantsFit = true;
    // At once: a canvas of a new size is empty until it is drawn on.
    if (this.#frame !== 0) cancelAnimationFrame(this.#frame);
    this.#paint(performance.now());
  };

  #sizeCanvas(): void {
    this.#isResized = false;
    const ratio = pixelRatio(this.#room.isSlow, this.#pace.isMoving, window.devicePixelRatio);
    this.#room.resize(this.#size.width, this.#size.height, ratio);
  }

  #onPointer = (event: Event): void => {
    this.#isFitted = false;
    if (event.type === 'pointerdown') this.host.focus({ preventScroll: true });
  };

  #onKey = (event: KeyboardEvent): void => {
    if (!followKey(event, this.#viewpoint, () => this.fit())) return;
    event.preventDefault();
    const showsAll = event.key === '0' || event.key.toLowerCase() === 'f';
    this.#isFitted = showsAll;
  };

  #onLost = (lost: boolean): void => {
    this.#isLost = lost;
    if (!lost) {
      this.#isStale = true;
      this.#request();
    }
    this.events.onLost?.(lost);
  };
}

const calm = window.matchMedia('(prefers-reduced-motion: reduce)');
