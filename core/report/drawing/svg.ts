import { escapeXml } from '../../files/xml.js';
import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';
import { arrowLength } from './place-lengths.js';
import type { Block, LineStyle, Mark, TextMark } from './sheet-marks.js';
import { fontFamily, isMeasured } from './text-width.js';

/** Widths and dashes, mm. */
const looks: Readonly<Record<LineStyle, string>> = {
  visible: 'stroke-width="0.35" stroke-linejoin="round" stroke-linecap="round"',
  thin: 'stroke-width="0.18" stroke-linecap="round"',
  hidden: 'stroke-width="0.18" stroke-dasharray="2 0.9"',
  chain: 'stroke-width="0.18" stroke-dasharray="6 1 0.9 1"',
  cutting: 'stroke-width="0.7"',
  frame: 'stroke-width="0.5"',
};

/** A hundredth of a millimetre is finer than any printer. */
const mm = (v: number): string => String(Math.round(v * 100) / 100 + 0);
const at = ([x, y]: Vec2): string => `${mm(x)} ${mm(y)}`;

/** A block as an SVG document of the given size, mm; lines of one kind are one path. */
export function formatBlock(block: Block, width: number, height: number, title: string): string {
  const styles = Object.keys(looks) as LineStyle[];
  const paths = styles.flatMap((style) => {
    const d = block.marks.flatMap((m) => ('style' in m && m.style === style ? [pathOf(m)] : [])).join('');
    return d === '' ? [] : [`<path class="${style}" ${looks[style]} d="${d}"/>`];
  });
  const heads = block.marks.flatMap((m) => ('tip' in m ? [headOf(m.tip, m.direction)] : [])).join('');
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" ` +
    `viewBox="0 0 ${mm(width)} ${mm(height)}" font-family="${fontFamily}">\n` +
    `<title>${escapeXml(title)}</title>\n` +
    `<rect width="${mm(width)}" height="${mm(height)}" fill="#fff"/>\n` +
    `<g fill="none" stroke="#000">\n${paths.join('\n')}\n</g>\n` +
    (heads === '' ? '' : `<path class="arrows" d="${heads}"/>\n`) +
    // The paper's colour round the letters parts lines that run under them.
    `<g stroke="#fff" stroke-width="0.9" stroke-linejoin="round" paint-order="stroke">\n` +
    `${block.texts.map(textOf).join('\n')}\n</g>\n</svg>\n`
  );
}

function pathOf(mark: Exclude<Mark, { tip: Vec2 }>): string {
  if ('points' in mark) return `M${mark.points.map(at).join('L')}${mark.closed ? 'Z' : ''}`;
  const { centre, radius, from, to } = mark;
  const r = mm(radius);
  const on = (angle: number): Vec2 => [
    centre[0] + radius * maths.cos(angle),
    centre[1] - radius * maths.sin(angle),
  ];
  if (from === undefined || to === undefined) {
    // Relative, so that rounding keeps each half exactly as wide as it is round.
    const across = mm(2 * Number(r));
    return `M${at(on(Math.PI))}a${r} ${r} 0 1 0 ${across} 0a${r} ${r} 0 1 0 -${across} 0Z`;
  }
  const large = Math.abs(to - from) > Math.PI ? 1 : 0;
  return `M${at(on(from))}A${r} ${r} 0 ${large} ${to > from ? 0 : 1} ${at(on(to))}`;
}

/** A filled arrowhead of 20° (ISO 129-1). */
function headOf([x, y]: Vec2, [dx, dy]: Vec2): string {
  const half = arrowLength * maths.tan(Math.PI / 18);
  const [bx, by] = [x - dx * arrowLength, y - dy * arrowLength];
  return `M${at([x, y])}L${at([bx - dy * half, by + dx * half])}L${at([bx + dy * half, by - dx * half])}Z`;
}

function textOf(text: TextMark): string {
  const [x, y] = text.at;
  const anchor = text.anchor === 'start' ? '' : ` text-anchor="${text.anchor}"`;
  const turned = text.upward ? ` transform="rotate(-90 ${mm(x)} ${mm(y)})"` : '';
  const symbol = text.symbol === undefined ? '' : ` data-symbol="${escapeXml(text.symbol)}"`;
  const known = text.pieces.every((p) => isMeasured(p.text));
  const squeeze = known ? '' : ` textLength="${mm(text.width)}" lengthAdjust="spacingAndGlyphs"`;
  const content = text.pieces
    .map((p) =>
      p.sub
        ? `<tspan dy="${mm(text.size * 0.2)}" font-size="${mm(text.size * 0.72)}">${escapeXml(p.text)}</tspan>`
        : escapeXml(p.text),
    )
    .join('');
  return (
    `<text x="${mm(x)}" y="${mm(y)}" font-size="${mm(text.size)}"${text.bold ? ' font-weight="bold"' : ''}` +
    `${anchor}${turned}${squeeze}${symbol} xml:space="preserve">${content}</text>`
  );
}
