import type { Summary } from '../job/summary.js';
import { dataUri, svgUri } from './data-uri.js';
import { collectFindings } from './findings.js';
import { createFormat, type View } from './format.js';
import { type Html, html } from './html.js';
import { forReader } from './reader-units.js';
import { benchCopy } from './traveller/bench.js';
import { burnoutStep } from './traveller/burnout.js';
import { checkStep } from './traveller/check.js';
import { coatStep } from './traveller/coats.js';
import type { Context, FreezePictures } from './traveller/context.js';
import { finishStep } from './traveller/finish.js';
import { freezeSection } from './traveller/freeze.js';
import { gateStep } from './traveller/gate.js';
import { measureStep } from './traveller/measure.js';
import { meltStep } from './traveller/melt.js';
import { mixStep } from './traveller/mix.js';
import { overview } from './traveller/overview.js';
import { pourStep } from './traveller/pour.js';
import { printStep } from './traveller/print.js';
import { quenchStep } from './traveller/quench.js';
import { recordStep } from './traveller/record.js';
import { travellerStyle } from './traveller/style.js';

/** The operations, in the order of the work. */
const steps: readonly ((ctx: Context, number: number) => Html)[] = [
  printStep,
  checkStep,
  gateStep,
  (ctx, number) => (ctx.summary.coating ? coatStep(ctx, number) : mixStep(ctx, number)),
  burnoutStep,
  meltStep,
  pourStep,
  quenchStep,
  finishStep,
  measureStep,
  recordStep,
];

const mapValues = <A, B>(record: Readonly<Record<string, A>>, to: (value: A) => B): Map<string, B> =>
  new Map(Object.entries(record).map(([k, v]) => [k, to(v)]));

/**
 * The traveller: one self-contained HTML document, printable on A4 and US Letter, that goes with the job through
 * the shop. It loads nothing and runs nothing. The same input gives the same bytes.
 *
 * @param job its summary; numbers in `summaryUnits`
 * @param pictures PNG files by part name; a part without one is shown without
 * @param planSvgs plan drawings (SVG documents) by plate name
 * @param view the reader's units
 * @param drawings dimensioned drawings (SVG documents) by part name
 * @param freezePictures section and surface of the freezing calculation (SVG documents) by part name
 */
export function formatTraveller(
  job: Summary,
  pictures: Readonly<Record<string, Uint8Array>>,
  planSvgs: Readonly<Record<string, string>>,
  view: View,
  drawings: Readonly<Record<string, string>> = {},
  freezePictures: Readonly<Record<string, FreezePictures>> = {},
): string {
  const summary = forReader(job, view);
  const ctx: Context = {
    summary,
    f: createFormat(view, '\u00A0'),
    pictures: mapValues(pictures, (png) => dataUri('image/png', png)),
    plans: mapValues(planSvgs, svgUri),
    drawings: mapValues(drawings, svgUri),
    freezePictures: mapValues(freezePictures, ({ section, surface }) => ({
      section: svgUri(section),
      surface: svgUri(surface),
    })),
    findings: collectFindings(summary),
  };
  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'"/>
<title>Traveller: ${summary.job.title}</title>
<style>${travellerStyle(summary.job.name)}</style>
</head>
<body>
<main>
${overview(ctx)}
${freezeSection(ctx)}
${steps.map((step, i) => step(ctx, i + 1))}
${benchCopy(ctx)}
</main>
</body>
</html>
`.text;
}
