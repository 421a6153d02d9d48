import type { Mark, Ray } from './content.js';
import type { TextWish } from './dimensions.js';
import { colourOf, type Look } from './look.js';
import type { InkColour, Pen } from './pen.js';

/** `#rrggbb` for the pen. */
export function inkOf(text: string, opacity = 1): InkColour {
  // The pen's colours go to the screen as they are.
  const { r, g, b } = colourOf(text).convertLinearToSRGB();
  return [r, g, b, opacity];
}

/** Draws points and straight lines that stand over everything, and says where their texts may stand. */
export function drawMarks(
  pen: Pen,
  marks: readonly Mark[],
  rays: readonly Ray[],
  look: Look,
): readonly TextWish[] {
  const halo = inkOf(look.halo, 0.85);
  for (const { from, to, kind } of rays) {
    pen.line(from, to, 4, inkOf(look.halo, 0.5));
    pen.line(from, to, kind === 'action' ? 1.6 : 1.1, inkOf(look.rays[kind]));
  }
  return marks.flatMap(({ at, label, kind }) => {
    pen.spot(at, 6.5, halo);
    pen.spot(at, 4.5, inkOf(look.marks[kind]));
    const seen = pen.see(at);
    if (label === undefined || !seen) return [];
    const { x, y } = seen;
    return [{ text: label, places: [[x, y - 18] as const, [x, y + 18] as const, [x + 40, y] as const] }];
  });
}
