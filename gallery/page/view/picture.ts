import type { PlacedText } from './labels.js';
import type { Look } from './look.js';

/** Writes the view's texts on a picture of it, as they stand over it in the page. */
export function drawTexts(
  pen: CanvasRenderingContext2D,
  texts: readonly PlacedText[],
  scale: number,
  look: Look,
): void {
  pen.save();
  pen.scale(scale, scale);
  pen.font = '600 13px system-ui, sans-serif';
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  for (const { text, x, y, width, height } of texts) {
    pen.globalAlpha = 0.86;
    pen.fillStyle = look.halo;
    pen.beginPath();
    pen.roundRect(x - width / 2, y - height / 2, width, height, 4);
    pen.fill();
    pen.globalAlpha = 1;
    pen.fillStyle = look.ink;
    pen.fillText(text, x, y);
  }
  pen.restore();
}
