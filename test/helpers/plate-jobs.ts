/** Jobs of many fittings and gears, to see how full plates get. The museum and all sizes are invented. */
import { readFileSync } from 'node:fs';
import { parse, stringify } from 'yaml';

const head = (name: string): string => `job: ${name}
alloy: yellow-brass
freeze: off
bed: { width: 220, depth: 220, height: 250, margin: 4, gap: 4 }
parts:
`;
const entry = (name: string, part: string, quantity: number, parameters: string, more = ''): string =>
  `  - { name: ${name}, part: ${part}, quantity: ${quantity}, parameters: { ${parameters} }${more} }\n`;

/** The winter job of the example, for so many rope-laying machines. */
function ropewalks(count: number): string {
  const job = parse(readFileSync('gallery/ropewalk/job.yaml', 'utf8')) as { parts: { quantity?: number }[] };
  const parts = job.parts.map((part) => ({ ...part, quantity: count * (part.quantity ?? 1) }));
  return stringify({ ...job, job: 'ropewalks', freeze: 'off', parts });
}

export const plateJobs = {
  ropewalks: ropewalks(4),
  'four dozen fittings':
    head('four-dozen-fittings') +
    entry('hatch-pull', 'hatch-pull', 6, 'size: 28') +
    entry('ring-pull', 'ring-pull', 4, 'size: 40') +
    entry('horn-cleat', 'horn-cleat', 6, 'line: 8') +
    entry('jam-cleat', 'jam-cleat', 4, 'line: 8') +
    entry('deck-eye', 'deck-eye', 4, 'line: 10') +
    entry('fairlead', 'fairlead', 2, 'line: 10, style: open') +
    entry('knob', 'knob', 8, 'size: 30') +
    entry('bow-pull', 'bow-pull', 2, 'fingers: 3') +
    entry('flush-pull', 'flush-pull', 2, 'fingers: 2') +
    entry('strap', 'strap-hinge', 2, 'size: 160', ', piece: strap'),
  'rings and knobs':
    head('rings-and-knobs') +
    entry('mooring-ring', 'ring-pull', 4, 'size: 60', ', piece: ring') +
    entry('pin', 'ring-pull', 16, 'size: 40', ', piece: pin') +
    entry('knob', 'knob', 60, 'size: 26'),
  'cleats and pulls':
    head('cleats-and-pulls') +
    entry('horn-cleat', 'horn-cleat', 24, 'line: 8') +
    entry('bow-pull', 'bow-pull', 12, 'fingers: 3'),
  'gears of three sizes':
    head('gears-of-three-sizes') +
    entry('wheel', 'spur-gear', 2, 'module: 2, teeth: 60, faceWidth: 16, bore: 16') +
    entry('second-wheel', 'spur-gear', 4, 'module: 2, teeth: 34, faceWidth: 16, bore: 12') +
    entry('pinion', 'spur-gear', 60, 'module: 2, teeth: 15, faceWidth: 18, bore: 8'),
} as const;
