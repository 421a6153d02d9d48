import type { Fitting } from '../part/contract.js';
import { formatLength } from '../units/length.js';
import type { Fastener } from './fastener.js';
import { countersunkHead } from './fastener-seat.js';

/**
 * The fasteners of one casting as a row of the cut list: `countersunk screw ISO 7046 M5 × 25 mm`; inch ones have
 * their length in inches, as they are sold. @param length mm
 */
export function fastenerFitting(
  fastener: Fastener,
  quantity: number,
  length: number,
  style: 'countersunk' | 'hexagon' = 'countersunk',
  material = '',
): Fitting {
  const head = style === 'countersunk' ? countersunkHead(fastener) : undefined;
  const thread = fastener.kind === 'bolt' && /^\d/.test(fastener.name) ? ' UNC' : '';
  const kind =
    fastener.kind === 'wood-screw'
      ? `countersunk wood screw ${fastener.name}`
      : head === undefined
        ? `hexagon bolt ${fastener.name}${thread}`
        : `countersunk screw ${head.standard} ${fastener.name}${thread}`;
  const text = `${material === '' ? '' : `${material} `}${kind} × ${lengthText(fastener, length)}`;
  return { quantity, text };
}

function lengthText({ series }: Fastener, length: number): string {
  const eighth = 25.4 / 8;
  const even = Math.abs(length / eighth - Math.round(length / eighth)) < 1e-6;
  return series === 'inch' && even
    ? formatLength(length, 'in', { fraction: 8 })
    : formatLength(length, 'mm', { digits: 1 });
}

/** Lengths that screws and bolts are sold in, mm (ISO 888, from memory, to 160). */
const lengths = [
  8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160,
] as const;
const eighths = [3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 24, 28, 32, 36, 40, 48] as const;

/** The shortest length sold that is at least this long, mm; the longest beyond it. */
export function soldLength(fastener: Fastener, least: number): number {
  const row: readonly number[] =
    fastener.series === 'metric' ? lengths : eighths.map((eighth) => (eighth / 8) * 25.4);
  return row.find((length) => length >= least - 1e-9) ?? row[row.length - 1]!;
}
