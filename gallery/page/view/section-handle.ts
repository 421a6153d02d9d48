import type { Box, Vec3 } from '../../../core/solid/types.js';
import type { SectionPlane } from './content.js';
import { dragAlong } from './drag-along.js';
import { middle } from './frame.js';
import type { InkColour, Pen } from './pen.js';
import type { Projector } from './projector.js';
import { axisIndex } from './section-range.js';

/** The frame of the section and a knob to pull it by. A slider of the page does the same for the keyboard. */
export class SectionHandle {
  readonly knob = document.createElement('div');
  #section: SectionPlane | null = null;
  #box: Box | null = null;
  #see: Projector | null = null;
  #millimetresPerPixel = 1;
  #pull: { readonly id: number; readonly x: number; readonly y: number; readonly at: number } | null = null;

  /** @param moved the section was pulled elsewhere */
  constructor(private readonly moved: (section: SectionPlane) => void) {
    this.knob.className = 'stage-knob';
    this.knob.setAttribute('aria-hidden', 'true');
    this.knob.hidden = true;
    this.knob.addEventListener('pointerdown', this.#start);
    this.knob.addEventListener('pointermove', this.#move);
    for (const end of ['pointerup', 'pointercancel'] as const) this.knob.addEventListener(end, this.#end);
  }

  /** Draws the frame about the bodies and puts the knob on it. */
  draw(
    pen: Pen,
    section: SectionPlane | null,
    box: Box | null,
    ink: InkColour,
    frame: { readonly width: number; readonly height: number },
    millimetresPerPixel: number,
  ): void {
    this.#section = section;
    this.#box = box;
    this.#see = pen.see;
    this.#millimetresPerPixel = millimetresPerPixel;
    this.knob.hidden = section === null || box === null;
    if (!section || !box) return;
    const corners = frameCorners(section, box);
    corners.forEach((corner, i) => {
      pen.line(corner, corners[(i + 1) % 4]!, 1.2, ink);
    });
    const spots = corners.flatMap((corner, i) => {
      const next = corners[(i + 1) % 4]!;
      return pen.see([(corner[0] + next[0]) / 2, (corner[1] + next[1]) / 2, (corner[2] + next[2]) / 2]) ?? [];
    });
    // On the highest side of the frame, where the hand hides least.
    const spot = spots.reduce<(typeof spots)[number] | null>((a, b) => (a && a.y <= b.y ? a : b), null);
    if (!spot) {
      this.knob.hidden = true;
      return;
    }
    const x = Math.max(16, Math.min(frame.width - 16, spot.x));
    const y = Math.max(16, Math.min(frame.height - 16, spot.y));
    const [from, to] = this.#axis(section, box);
    const turn = from && to ? Math.atan2(to.y - from.y, to.x - from.x) : 0;
    this.knob.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px) rotate(${turn.toFixed(3)}rad)`;
  }

  #axis({ axis, at }: SectionPlane, box: Box) {
    const k = axisIndex[axis];
    const length = Math.max(1, 0.2 * (box.max[k] - box.min[k]));
    const from: [number, number, number] = [middle(box, 0), middle(box, 1), middle(box, 2)];
    from[k] = at;
    const to: [number, number, number] = [...from];
    to[k] = at + length;
    return [this.#see?.(from), this.#see?.(to), length] as const;
  }

  #start = (event: PointerEvent): void => {
    if (!this.#section) return;
    event.preventDefault();
    event.stopPropagation();
    this.knob.setPointerCapture(event.pointerId);
    this.#pull = { id: event.pointerId, x: event.clientX, y: event.clientY, at: this.#section.at };
  };

  #move = (event: PointerEvent): void => {
    const [pull, section, box] = [this.#pull, this.#section, this.#box];
    if (!pull || pull.id !== event.pointerId || !section || !box) return;
    const [from, to, length] = this.#axis({ axis: section.axis, at: pull.at }, box);
    if (!from || !to) return;
    const by = { x: event.clientX - pull.x, y: event.clientY - pull.y };
    const k = axisIndex[section.axis];
    const at = pull.at + dragAlong(by, from, to, length, this.#millimetresPerPixel);
    this.moved({ ...section, at: Math.max(box.min[k], Math.min(box.max[k], at)) });
  };

  #end = (event: PointerEvent): void => {
    if (this.#pull?.id === event.pointerId) this.#pull = null;
  };
}

/** The four corners of the section within the box, a little outside it. */
function frameCorners({ axis, at }: SectionPlane, box: Box): readonly Vec3[] {
  const k = axisIndex[axis];
  const [u, v] = ([0, 1, 2] as const).filter((i) => i !== k) as [0 | 1 | 2, 0 | 1 | 2];
  const rim = 0.04 * Math.max(box.max[u] - box.min[u], box.max[v] - box.min[v]);
  return (
    [
      ['min', 'min'],
      ['max', 'min'],
      ['max', 'max'],
      ['min', 'max'],
    ] as const
  ).map(([su, sv]) => {
    const corner: [number, number, number] = [at, at, at];
    corner[u] = box[su][u] + (su === 'min' ? -rim : rim);
    corner[v] = box[sv][v] + (sv === 'min' ? -rim : rim);
    return corner;
  });
}
