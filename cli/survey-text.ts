import { sentence } from '../core/report/findings.js';
import { createFormat } from '../core/report/format.js';
import { readersUnits } from '../core/report/reader-units.js';
import { plain, wrap } from '../core/report/wrap.js';
import type { LengthUnit } from '../core/units/index.js';
import type { MeshSurvey, SurveyedSurface } from '../generators/mesh/survey.js';

/** Surfaces a person reads through; the rest is in the JSON. */
const mostSurfaces = 40;

/** What was found on a mesh, for a terminal of 80 columns. */
export function formatSurvey(file: string, survey: MeshSurvey, unit: LengthUnit): string {
  const view = { lengthUnit: unit, degrees: 'C' } as const;
  const f = createFormat(view);
  const told = (text: string): string => readersUnits(sentence(text), view).replaceAll('\u00A0', ' ');
  const number = (mm: number): string => f.roughNumber(mm);
  const place = (at: readonly number[]): string => at.map(number).join(', ');
  const { size, volume, triangles, format, findings, surfaces, ways, gates } = survey;
  const lines = [
    wrap(
      `${plain(file)}: ${format.toUpperCase()}, ${triangles} triangles, ${f.box(size)}${volume === null ? '' : `, ${f.volume(volume)}`}`,
      '',
      '  ',
    ),
    '',
    ...findings.map((x) =>
      wrap(`${told(x.message)} ${told(x.remedy)} [${x.code}]`, `  ${x.severity.padEnd(6)}`, '        '),
    ),
    ...(findings.length === 0 ? ['  Closed and sound: nothing to mend.'] : []),
  ];
  const fact = (s: SurveyedSurface): string =>
    s.diameter === undefined ? f.area(s.area) : `ø${number(s.diameter)} × ${number(s.length ?? 0)} ${unit}`;
  if (surfaces.length > 0) {
    const shown = surfaces.slice(0, mostSurfaces);
    const widest = Math.min(40, Math.max(...shown.map((s) => s.name.length)));
    lines.push('', 'Surfaces, as drawn, by the names that marks and gates give them:');
    lines.push(...shown.map((s) => `  ${s.name.padEnd(widest)}  ${fact(s)}`));
    if (surfaces.length > shown.length)
      lines.push(`  and ${surfaces.length - shown.length} more: see --json`);
  }
  if (ways.length > 0)
    lines.push('', 'Ways to stand, printed and poured, on whatever bed and with nothing marked:');
  for (const [i, { name, score, reasons }] of ways.entries()) {
    const gate = gates[i];
    const entry = gate
      ? ` Metal could enter at ${place(gate.at)} ${unit}, on ${f.length(gate.diameter)}.`
      : '';
    const rank = ['best', 'second', 'third'][i] ?? 'other';
    lines.push(
      wrap(
        `${told(`${name}, ${Math.round(100 * score)} of 100: ${reasons.join(' ')}`)}${entry}`,
        `  ${rank.padEnd(8)}`,
        ' '.repeat(10),
      ),
    );
  }
  return `${lines.join('\n')}\n`;
}
