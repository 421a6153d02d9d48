/**
 * Advance widths in thousandths of the font size, measured in Liberation Sans, which has the metrics of Arial and
 * Helvetica. Digits and most small letters are 556.
 */
const widths: Readonly<Record<number, string>> = {
  188: '′',
  191: "'",
  222: 'ijl‘’',
  260: '|',
  278: ' !,./:;I[\\]ft\u00A0·',
  333: '()-`r“”²³',
  334: '{}',
  354: '″',
  355: '"',
  389: '*',
  396: 'τ',
  400: '°',
  446: 'ε',
  469: '^',
  500: 'Jckvsxyzγλ',
  549: '±≤≥≈√',
  556: '#$0123456789?L_abdeghnopquäöüéèàηθδ–',
  584: '+<=>~×−',
  604: '□',
  611: 'FTZß',
  618: 'αβμρσΣ',
  667: '&ABEKPSVXYÄ',
  722: 'CDHNRUwÜψπφ',
  778: 'GOQØÖ',
  833: 'Mm',
  834: '½',
  889: '%',
  944: 'W',
  1015: '@—…',
};

const table = new Map<string, number>(
  Object.entries(widths).flatMap(([width, letters]) => [...letters].map((c) => [c, Number(width) / 1000])),
);

/** Fonts with these metrics, then what there is. */
export const fontFamily = "Arial, Helvetica, 'Liberation Sans', Arimo, sans-serif";

/** A little more than the font's own width, so that hinting and near relatives of the font stay inside. */
const reserve = 1.04;
/** Wider than any letter that is not in the table, but for a few ligatures. */
const unknown = 1.4;
/** Bold is wider by about a tenth. */
const boldFactor = 1.1;

/** Whether the width of every letter is known; if not, the text is drawn squeezed to the width reckoned. */
export const isMeasured = (text: string): boolean => [...text].every((c) => table.has(c));

/** Conservative width of a line of text, in the unit of `size`. */
export function textWidth(text: string, size: number, bold = false): number {
  let ems = 0;
  for (const c of text) ems += table.get(c) ?? unknown;
  return ems * size * reserve * (bold ? boldFactor : 1);
}

/** The text broken into lines no wider than `width`, at spaces and where it must inside a word. */
export function wrapWidth(text: string, width: number, size: number, bold = false): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, size, bold) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const c of word) {
      if (line !== '' && textWidth(line + c, size, bold) > width) {
        lines.push(line);
        line = '';
      }
      line += c;
    }
  }
  if (line !== '') lines.push(line);
  return lines;
}
