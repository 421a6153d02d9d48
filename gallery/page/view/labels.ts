import type { TextWish } from './dimensions.js';
import { placeLabels } from './place-labels.js';

interface Label {
  readonly element: HTMLElement;
  text: string;
  width: number;
  height: number;
}

/** A text as it stands in the picture, CSS pixels. */
export interface PlacedText {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Texts over the picture, in the page: of a constant size, facing the reader, none over another. */
export class Labels {
  readonly root = document.createElement('div');
  readonly #labels: Label[] = [];

  constructor() {
    this.root.className = 'stage-labels';
    this.root.setAttribute('aria-hidden', 'true');
  }

  show(wishes: readonly TextWish[], width: number, height: number): readonly PlacedText[] {
    while (this.#labels.length > wishes.length) this.#labels.pop()?.element.remove();
    while (this.#labels.length < wishes.length) {
      const element = document.createElement('span');
      element.className = 'stage-label';
      this.root.append(element);
      this.#labels.push({ element, text: '', width: 0, height: 0 });
    }
    const changed = this.#labels.filter((label, i) => {
      const { text } = wishes[i]!;
      if (label.text === text && label.width > 0) return false;
      label.text = text;
      label.element.textContent = text;
      return true;
    });
    // Written first, then measured together: one layout.
    for (const label of changed) {
      label.width = label.element.offsetWidth;
      label.height = label.element.offsetHeight;
    }
    const places = placeLabels(
      wishes.map(({ places }, i) => ({ ...size(this.#labels[i]!), places })),
      { width, height },
    );
    return this.#labels.flatMap((label, i) => {
      const place = places[i];
      label.element.style.visibility = place ? 'visible' : 'hidden';
      if (!place) return [];
      const [x, y] = place;
      const [left, top] = [Math.round(x - label.width / 2), Math.round(y - label.height / 2)];
      label.element.style.transform = `translate(${left}px, ${top}px)`;
      return [{ text: label.text, x, y, ...size(label) }];
    });
  }
}

const size = ({ width, height }: Label) => ({ width, height });
