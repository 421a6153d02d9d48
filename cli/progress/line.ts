import { plain } from '../../core/report/wrap.js';
import type { StageKind } from './events.js';
import type { StageView } from './stage.js';
import { formatTimeLeft } from './time-left.js';

const titles: Readonly<Record<StageKind, readonly [long: string, short: string]>> = {
  parts: ['making parts', 'parts'],
  plates: ['plates and papers', 'plates'],
  moulds: ['freezing moulds', 'moulds'],
  files: ['writing files', 'files'],
};

const [narrowBar, wideBar] = [10, 24];
const leastNames = 12;

/**
 * A stage as one line of at most `width` characters, of which all are ASCII where `unicode` is false. What there is no
 * room for is left out, the names of what is in work before the time, and at last the line is cut.
 */
export function formatStage(view: StageView, width: number, unicode: boolean): string {
  const [long, short] = titles[view.stage];
  const count = view.of > 1 ? `${view.done}/${view.of}` : '';
  const left = view.left === undefined || view.share >= 1 ? '' : formatTimeLeft(view.left);
  const kept = view.kept === 0 ? '' : `${view.kept} kept from before`;
  const hasBar = view.of > 1 || view.share > 0;
  // From the least that tells something; each word is taken where it still fits.
  const used = { title: short, bar: 0, count, left: '', kept: '', names: '' };
  const lineOf = (): string =>
    [used.title, bar(used.bar, view.share, unicode), used.count, used.left, used.kept, used.names]
      .filter((word) => word !== '')
      .join('  ');
  const room = (): number => width - lineOf().length;
  if (room() >= left.length + 2) used.left = left;
  if (hasBar && room() >= narrowBar + 2) used.bar = narrowBar;
  if (room() >= kept.length + 2) used.kept = kept;
  if (room() >= long.length - short.length) used.title = long;
  if (room() >= leastNames + 2) used.names = namesInWork(view, room() - 2, unicode);
  if (used.bar > 0) used.bar = Math.min(wideBar, narrowBar + Math.max(0, room()));
  return cut(lineOf(), width, unicode);
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
