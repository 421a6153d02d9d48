import { plain } from '../../core/report/wrap.js';
import type { StageKind } from './events.js';
import type { StageView } from './stage.js';
import { formatTimeLeft } from './time-left.js';

const titles: Readonly<Record<StageKind, readonly [long: string, short: string]>> = {
  parts: ['making parts', 'parts'],
  trees: ['putting on trees', 'trees'],
  plates: ['plates and papers', 'plates'],
  moulds: ['freezing moulds', 'moulds'],
  files: ['writing files', 'files'],
};

/** Cells of the bar, and whether titles are long, by the width alone: what stands left does not move as the work goes on. */
const looks = [
  { from: 100, bar: 24, isLong: true },
  { from: 60, bar: 16, isLong: false },
  { from: 0, bar: 8, isLong: false },
] as const;
const leastNames = 12;

/**
 * A stage as one line of at most `width` characters, of which all are ASCII where `unicode` is false. What there is no
 * room for is left out, the names of what is in work before the time, and at last the line is cut.
 */
export function formatStage(view: StageView, width: number, unicode: boolean): string {
  const look = looks.find((l) => width >= l.from) ?? looks[2];
  const [long, short] = titles[view.stage];
  const of = String(view.of);
  const words = [
    (look.isLong || view.of <= 1) && long.length <= width ? long : short,
    view.of > 1 ? `${String(view.done).padStart(of.length)}/${of}` : '',
  ];
  const lineOf = (list: readonly string[]): string => list.filter((word) => word !== '').join('  ');
  const fits = (word: string): boolean => lineOf([...words, word]).length <= width;
  const left = view.left === undefined || view.share >= 1 ? '' : formatTimeLeft(view.left, look.bar < 10);
  const cells = view.of > 1 || view.share > 0 ? look.bar : 0;
  if (fits(left)) words.push(left);
  if (lineOf(words).length + cells + 2 <= width) words.splice(1, 0, bar(cells, view.share, unicode));
  const spare = view.running.length > 0 ? ' '.repeat(leastNames + 2) : '';
  const kept = view.kept === 0 ? [] : [`${view.kept} kept from before`, `${view.kept} kept`];
  words.push(kept.find((word) => fits(`${word}${spare}`)) ?? '');
  const room = width - lineOf(words).length - 2;
  if (room >= leastNames) words.push(namesInWork(view, room, unicode));
  return cut(lineOf(words), width, unicode);
}

const eighths = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉'] as const;

/** Full at a share of 1 alone, and empty at 0 alone where its cells allow that. */
function bar(cells: number, share: number, unicode: boolean): string {
  if (cells <= 0) return '';
  const filled = Math.min(1, Math.max(0, share)) * cells;
  if (!unicode) {
    const whole = Math.floor(filled);
    return `[${'#'.repeat(Math.max(0, whole - 1))}${whole > 0 ? (whole === cells ? '#' : '>') : ''}`
      .padEnd(cells - 1, '.')
      .slice(0, cells - 1)
      .concat(']');
  }
  const whole = Math.floor(filled);
  const part = eighths[Math.floor((filled - whole) * 8)] ?? '';
  return `${'█'.repeat(whole)}${part}`.padEnd(cells, '░');
}

/** `crank-wheel 40 %, cleat-7 +2` */
function namesInWork({ running }: StageView, width: number, unicode: boolean): string {
  const words = running.map(({ name, share }) =>
    share > 0 && share < 1 ? `${plain(name)} ${Math.floor(share * 100)} %` : plain(name),
  );
  const shown: string[] = [];
  const tail = (rest: number): string => (rest > 0 ? ` +${rest}` : '');
  for (const word of words) {
    const next = [...shown, word];
    if (shown.length > 0 && next.join(', ').length + tail(words.length - next.length).length > width) break;
    shown.push(word);
  }
  const rest = tail(words.length - shown.length);
  return `${cut(asAscii(shown.join(', '), unicode), width - rest.length, unicode)}${rest}`;
}

/** Names of parts may be of any script. */
const asAscii = (text: string, unicode: boolean): string =>
  unicode ? text : text.replace(/[^\x20-\x7e]/gu, '?');

function cut(text: string, width: number, unicode: boolean): string {
  const dots = unicode ? '…' : '..';
  if (text.length <= width) return text;
  return width <= dots.length ? text.slice(0, Math.max(0, width)) : text.slice(0, width - dots.length) + dots;
}
