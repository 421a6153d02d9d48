import type { Summary } from '../job/summary.js';
import { dataUri, svgUri } from './data-uri.js';
import { collectFindings } from './findings.js';
import { createFormat, type View } from './format.js';
import { type Html, html, raw } from './html.js';
import { forReader } from './reader-units.js';
import { benchCopy } from './traveller/bench.js';
import { burnoutStep } from './traveller/burnout.js';
import { checkStep } from './traveller/check.js';
import { coatStep } from './traveller/coats.js';
import type { Context, PictureKind } from './traveller/context.js';
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

/** The document's body, in pieces that each end their line. */
const sections: readonly ((ctx: Context) => Html)[] = [
  (ctx) => html`${overview(ctx)}\n`,
  (ctx) => html`${freezeSection(ctx)}\n`,
  ...steps.map((step, i) => (ctx: Context) => html`${step(ctx, i + 1)}${i === steps.length - 1 && '\n'}`),
  (ctx) => html`${benchCopy(ctx)}\n`,
];

/** Where a traveller's pictures come from. */
export interface TravellerPictures<T = PictureBody | Promise<PictureBody>> {
  /** Whether there is one of this kind of the part, or of the plate; what has none is shown without. */
  readonly has: (kind: PictureKind, name: string) => boolean;
  /** Asked when its turn comes, so that one is held at a time. */
  readonly read: (kind: PictureKind, name: string) => T;
}

/** A PNG file, or the text of an SVG document. */
export type PictureBody = Uint8Array | string;

/**
 * The traveller: one self-contained HTML document, printable on A4 and US Letter, that goes with the job through
 * the shop. It loads nothing and runs nothing. The same input gives the same bytes. It comes in pieces, one section or
 * picture after the other.
 *
 * @param job its summary; numbers in `summaryUnits`
 * @param view the reader's units
 */
export async function* travellerChunks(
  job: Summary,
  pictures: TravellerPictures,
  view: View,
): AsyncGenerator<string> {
  for (const piece of travellerPieces(job, pictures, view))
    yield typeof piece === 'string' ? piece : addressOf(await pictures.read(piece.kind, piece.name));
}

/**
 * The whole of it at once, from pictures that are all at hand.
 *
 * @param previews PNG files by part name; a part without one is shown without
 * @param plans SVG documents by plate name
 * @param drawings SVG documents by part name
 * @param freezePictures section and surface of the freezing calculation (SVG documents) by part name
 */
export function formatTraveller(
  job: Summary,
  previews: Readonly<Record<string, Uint8Array>>,
  plans: Readonly<Record<string, string>>,
  view: View,
  drawings: Readonly<Record<string, string>> = {},
  freezePictures: Readonly<Record<string, { readonly section: string; readonly surface: string }>> = {},
): string {
  const frozen = Object.entries(freezePictures);
  const bodies: Readonly<Record<PictureKind, ReadonlyMap<string, PictureBody>>> = {
    preview: new Map(Object.entries(previews)),
    plan: new Map(Object.entries(plans)),
    drawing: new Map(Object.entries(drawings)),
    freezeSection: new Map(frozen.map(([name, { section }]) => [name, section])),
    freezeSurface: new Map(frozen.map(([name, { surface }]) => [name, surface])),
  };
  const has = (kind: PictureKind, name: string): boolean => bodies[kind].has(name);
  return Array.from(travellerPieces(job, { has }, view), (piece) =>
    typeof piece === 'string' ? piece : addressOf(bodies[piece.kind].get(piece.name) as PictureBody),
  ).join('');
}

const addressOf = (body: PictureBody): string =>
  typeof body === 'string' ? svgUri(body) : dataUri('image/png', body);

interface Picture {
  readonly kind: PictureKind;
  readonly name: string;
}

/** Stands in a section where a picture's address comes; no text has this character (`escapeHtml`). */
const mark = '\u0001';

function* travellerPieces(
  job: Summary,
  { has }: Pick<TravellerPictures, 'has'>,
  view: View,
): Generator<string | Picture> {
  const summary = forReader(job, view);
  let shown: Picture[] = [];
  const ctx: Context = {
    summary,
    f: createFormat(view, '\u00A0'),
    picture(kind, name) {
      if (!has(kind, name)) return undefined;
      shown.push({ kind, name });
      return raw(`${mark}${shown.length - 1}${mark}`);
    },
    findings: collectFindings(summary),
  };
  yield `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'"/>
${
  html`<title>Traveller: ${summary.job.title}</title>
<style>${travellerStyle(summary.job.name)}</style>`.text
}
</head>
<body>
<main>
`;
  for (const section of sections) {
    const texts = section(ctx).text.split(mark);
    // Every other one is a number between two marks.
    for (const [i, text] of texts.entries()) yield i % 2 === 0 ? text : (shown[Number(text)] as Picture);
    shown = [];
  }
  yield '</main>\n</body>\n</html>\n';
}
