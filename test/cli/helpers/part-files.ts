import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** What a part file may have otherwise than a sound one, as code. */
export interface PartChange {
  /** Before the definition. */
  readonly before?: string;
  readonly name?: string;
  readonly summary?: string;
  readonly parameters?: string;
  /** Further keys of the definition. */
  readonly more?: string;
  /** Before the result of `build`. */
  readonly steps?: string;
  /** Of what `build` gives; `undefined` leaves the key out. */
  readonly result?: Readonly<Record<string, string | undefined>>;
  /** Instead of all that `build` does. */
  readonly build?: string;
}

const usual: Readonly<Record<string, string>> = {
  solid: 'kernel.frustum([0, 0], z0, r, z1, r, tolerance)',
  surfaces: "[{ surfaceClass: 'skin', name: 'outside' }, { surfaceClass: 'face', name: 'ends' }]",
  dimensions: "[{ symbol: 'D', name: 'diameter', value: 2 * r, unit: 'mm', axis: 'xy', method: 'calliper' }]",
  gates: "[{ name: 'upper end', at: [0, 0, z1], innerDiameter: 0, outerDiameter: 1.2 * r }]",
  vents: "[{ name: 'rim', at: [0.8 * r, 0, z1], footDiameter: 0.3 * r }]",
  findings: '[]',
};

export const soundParameters = `z.object({
    diameter: length({ min: 5, max: 100, default: 30, help: 'Outside diameter', group: 'Size' }),
    height: length({ min: 3, max: 100, default: 10, help: 'Height', group: 'Size' }),
  })`;

/** The source of a part file: a spacer, changed. */
export function partSource(change: PartChange = {}): string {
  const result = Object.entries({ ...usual, ...change.result }).flatMap(([key, value]) =>
    value === undefined ? [] : [`      ${key}: ${value},`],
  );
  const build =
    change.build ??
    `build(p, stock, { kernel, tolerance }) {
    const [r, z0, z1] = [p.diameter / 2 + stock.skin, -stock.face, p.height + stock.face];
    ${change.steps ?? ''}
    return {
${result.join('\n')}
    };
  }`;
  return `import { angle, choice, count, definePart, flag, length, note, refuse, stop, z } from 'patternwright';
${change.before ?? ''}
export default definePart({
  name: ${change.name ?? "'spacer'"},
  summary: ${change.summary ?? "'Plain round spacer'"},
  parameters: ${change.parameters ?? soundParameters},
  ${change.more === undefined ? '' : `${change.more},`}
  ${build},
});
`;
}

/** Writes files below a folder. */
export function writeFiles(folder: string, files: Readonly<Record<string, string>>): void {
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
}

/** A plate job of part files, one pattern each. */
export const jobOf = (paths: readonly string[], more = ''): string =>
  `job: own\nfreeze: off\n${more}parts:\n${paths.map((path, i) => `  - name: p${i}\n    part: ${path}\n`).join('')}`;
