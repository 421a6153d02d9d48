/**
 * The log as a table for spreadsheets (CSV, RFC 4180): a row a measured size, the pour's own columns repeated in
 * each. mm, °C and hours; the names of the columns say so. What is exported and imported again is the same.
 */
import papa from 'papaparse';
import { guardCell, unguardCell } from './csv-cell.js';
import { checkRecord, type MeasuredSize, type PourRecord } from './record.js';

type Cells = Readonly<Record<string, string>>;

interface Column<T> {
  readonly head: string;
  /** Where its value stands in a record, or in a size. */
  readonly path: readonly string[];
  readonly write: (from: T) => string | number | undefined;
  readonly isNumber?: boolean;
  /** From the cell's unit to the record's. */
  readonly convert?: (value: number) => number;
}

/** Whole ones, as records have them. */
const inSeconds = (hours: number): number => Math.round(hours * 3600);

const recordColumns: readonly Column<PourRecord>[] = [
  { head: 'id', path: ['id'], write: (r) => r.id },
  { head: 'date', path: ['date'], write: (r) => r.date },
  { head: 'job', path: ['job'], write: (r) => r.job },
  { head: 'part', path: ['part'], write: (r) => r.part },
  { head: 'flask', path: ['flask'], write: (r) => r.flask },
  { head: 'alloy', path: ['alloy'], write: (r) => r.alloy },
  { head: 'investment', path: ['investment'], write: (r) => r.investment },
  {
    head: 'metal temperature °C',
    path: ['settings', 'metalTemperature'],
    write: (r) => r.settings.metalTemperature,
    isNumber: true,
  },
  {
    head: 'flask temperature °C',
    path: ['settings', 'flaskTemperature'],
    write: (r) => r.settings.flaskTemperature,
    isNumber: true,
  },
  {
    head: 'burnout hold h',
    path: ['settings', 'burnoutHold'],
    write: (r) => (r.settings.burnoutHold === undefined ? undefined : inHours(r.settings.burnoutHold)),
    isNumber: true,
    convert: inSeconds,
  },
  { head: 'growth', path: ['settings', 'growth'], write: (r) => r.settings.growth, isNumber: true },
  { head: 'plastic', path: ['settings', 'plastic'], write: (r) => r.settings.plastic },
  {
    head: 'printer correction xy',
    path: ['settings', 'printerCorrection', 'xy'],
    write: (r) => r.settings.printerCorrection?.xy,
    isNumber: true,
  },
  {
    head: 'printer correction z',
    path: ['settings', 'printerCorrection', 'z'],
    write: (r) => r.settings.printerCorrection?.z,
    isNumber: true,
  },
  { head: 'faults', path: ['faults'], write: (r) => r.faults.join(' ') },
  { head: 'notes', path: ['notes'], write: (r) => r.notes },
];

const sizeColumns: readonly Column<MeasuredSize>[] = [
  { head: 'size', path: ['name'], write: (s) => s.name },
  { head: 'axis', path: ['axis'], write: (s) => s.axis },
  { head: 'nominal mm', path: ['nominal'], write: (s) => s.nominal, isNumber: true },
  { head: 'pattern mm', path: ['pattern'], write: (s) => s.pattern, isNumber: true },
  { head: 'casting mm', path: ['casting'], write: (s) => s.casting, isNumber: true },
  { head: 'removed mm', path: ['removed'], write: (s) => s.removed, isNumber: true },
];

const heads: readonly string[] = [...recordColumns, ...sizeColumns].map((c) => c.head);

/** Hours that give the same seconds when read back: the shortest decimal that does. */
function inHours(seconds: number): number {
  const hours = seconds / 3600;
  for (let digits = 1; digits <= 17; digits++) {
    const short = Number(hours.toPrecision(digits));
    if (inSeconds(short) === seconds) return short;
  }
  return hours;
}

/** The whole log as CSV text, for every spreadsheet: UTF-8 with a mark, CR LF, formulas disarmed. */
export function formatCsv(records: readonly PourRecord[]): string {
  const rows = records.flatMap((record) => {
    const own = recordColumns.map((c) => c.write(record));
    const sizes = record.sizes.length === 0 ? [undefined] : record.sizes;
    return sizes.map((size) => [...own, ...sizeColumns.map((c) => size && c.write(size))].map(cell));
  });
  return `\uFEFF${papa.unparse([[...heads], ...rows], { newline: '\r\n' })}\r\n`;
}

// A negative number is no formula: what starts with a sign and ends in digits stays a number.
const cell = (value: string | number | undefined): string =>
  value === undefined ? '' : typeof value === 'number' ? String(value) : guardCell(value);

export interface CsvProblem {
  /** Line of the file where the row starts, from 1. */
  readonly line: number;
  /** Its column's name; empty for the whole row. */
  readonly column: string;
  readonly message: string;
  readonly remedy: string;
}

export type CsvReading =
  | { readonly ok: true; readonly records: readonly PourRecord[] }
  | { readonly ok: false; readonly problems: readonly CsvProblem[] };

interface Row {
  readonly cells: Cells;
  readonly line: number;
}

interface Group {
  readonly first: Row;
  readonly rows: Row[];
}

/**
 * Reads a table written by `formatCsv`, or one made by hand with some of its columns, in any order, parted by
 * commas, semicolons or tabs. Rows with the same id are one pour; a row without id is one more size of the pour above
 * if date and alloy are empty, or all columns of the pour are the same and the size is another. All problems at once;
 * with any, no record is given.
 * @param makeId record number for a pour without one, from the text of its record and how often that text came
 * before in the file: the same table read twice gives the same numbers
 */
export function parseCsv(
  source: string,
  makeId: (content: string, occurrence: number) => string,
): CsvReading {
  const text = source.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const refuse = (line: number, column: string, message: string, remedy: string): CsvReading => ({
    ok: false,
    problems: [{ line, column, message, remedy }],
  });
  const [first = ''] = text.split('\n', 1);
  const delimiter = [';', '\t'].find((d) => first.includes(d)) ?? ',';
  const { data: rows, errors } = papa.parse<string[]>(text, { delimiter, newline: '\n' });
  const lines = startLines(rows);
  const broken = errors.find((e) => e.type === 'Quotes');
  if (broken !== undefined)
    return refuse(
      lines[broken.row ?? 0] ?? 1,
      '',
      `cannot be read: ${lowered(broken.message)}`,
      'write a quote inside a quoted cell twice, and close it',
    );
  const head = (rows[0] ?? []).map((h) => unguardCell(h.trim()).toLowerCase());
  const unknown = head.find((h) => h !== '' && !heads.some((known) => known.toLowerCase() === h));
  if (head.every((h) => h === ''))
    return refuse(1, '', 'has no heads of columns', `heads are ${heads.join(', ')}`);
  if (unknown !== undefined)
    return refuse(1, unknown, 'is no column of the log', `columns are ${heads.join(', ')}`);
  const twice = head.find((h, i) => h !== '' && head.indexOf(h) !== i);
  if (twice !== undefined) return refuse(1, twice, 'stands there twice', 'leave one of them out');
  const problems: CsvProblem[] = [];
  const body = rows.slice(1).flatMap((cells, i): Row[] => {
    const line = lines[i + 1] as number;
    if (cells.every((c) => c.trim() === '')) return [];
    const extra = cells.findIndex((c, k) => c.trim() !== '' && (head[k] ?? '') === '');
    if (extra >= 0) {
      const message = `has something under no head, in column ${extra + 1}`;
      problems.push({
        line,
        column: '',
        message,
        remedy: 'give the column a head, or quote cells with commas',
      });
    }
    const named = heads.map((h) => {
      const text = unguardCell(cells[head.indexOf(h.toLowerCase())] ?? '');
      return [h, h === 'notes' ? text : text.trim()] as const;
    });
    return [{ line, cells: Object.fromEntries(named) }];
  });
  const records = readGroups(groupRows(body, problems), makeId, problems);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, records };
}

const lowered = (message: string): string => message.charAt(0).toLowerCase() + message.slice(1);

/** The line each row starts on: a row is a line, and one more for each line break in its cells. */
function startLines(rows: readonly (readonly string[])[]): readonly number[] {
  let line = 1;
  return rows.map((cells) => {
    const start = line;
    line += 1 + cells.reduce((sum, c) => sum + c.split('\n').length - 1, 0);
    return start;
  });
}

function groupRows(rows: readonly Row[], problems: CsvProblem[]): readonly Group[] {
  const groups: Group[] = [];
  const byId = new Map<string, Group>();
  for (const row of rows) {
    const { id = '' } = row.cells;
    const last = groups.at(-1);
    const above = id !== '' ? byId.get(id) : last && goesOn(row, last) ? last : undefined;
    if (above === undefined) {
      const group = { first: row, rows: [row] };
      groups.push(group);
      if (id !== '') byId.set(id, group);
      continue;
    }
    const differs = recordColumns.find(({ head }) => {
      const value = row.cells[head] ?? '';
      return value !== '' && value !== above.first.cells[head];
    });
    if (differs)
      problems.push({
        line: row.line,
        column: differs.head,
        message: `differs from line ${above.first.line}, which is the same pour`,
        remedy: 'write the same in both rows, or give the pours different ids',
      });
    above.rows.push(row);
  }
  return groups;
}

/** A row without id is one more size of the pour above if it says nothing of a pour, or the same and a new size. */
function goesOn(row: Row, { first, rows }: Group): boolean {
  const { date = '', alloy = '', size = '', axis = '' } = row.cells;
  if (date === '' && alloy === '') return true;
  const isSame = recordColumns.every(({ head }) => row.cells[head] === first.cells[head]);
  const isNew = rows.every((r) => r.cells.size !== '' && (r.cells.size !== size || r.cells.axis !== axis));
  return isSame && size !== '' && isNew;
}

function readGroups(
  groups: readonly Group[],
  makeId: (content: string, occurrence: number) => string,
  problems: CsvProblem[],
): readonly PourRecord[] {
  const seen = new Map<string, number>();
  return groups.flatMap(({ first, rows }) => {
    const own = readRow(recordColumns, first, problems);
    const sizeRows = rows.filter((row) => sizeColumns.some((c) => row.cells[c.head] !== ''));
    const sizes = sizeRows.map((row) => readRow(sizeColumns, row, problems));
    const { faults = '', notes = '', id, settings = {}, ...rest } = own as Record<string, unknown>;
    const found = String(faults)
      .split(/[\s,;]+/)
      .filter((f) => f !== '');
    const content = { ...rest, settings, sizes, faults: found, notes: String(notes) };
    const key = JSON.stringify(content);
    const occurrence = seen.get(key) ?? 0;
    if (id === undefined) seen.set(key, occurrence + 1);
    const check = checkRecord({ id: id ?? makeId(key, occurrence), ...content });
    if (check.ok) return [check.record];
    for (const { path, message } of check.problems) {
      const inSize = path[0] === 'sizes';
      const row = inSize ? (sizeRows[Number(path[1])] ?? first) : first;
      const wanted = (inSize ? path.slice(2) : path).join('/');
      const column = (inSize ? sizeColumns : recordColumns).find(
        (c) => c.path.join('/') === wanted || (wanted !== '' && wanted.startsWith(`${c.path.join('/')}/`)),
      );
      problems.push({ line: row.line, column: column?.head ?? '', message, remedy: remedyFor(column?.head) });
    }
    return [];
  });
}

const remedyFor = (head: string | undefined): string =>
  head === 'date'
    ? 'write year-month-day'
    : head === 'faults'
      ? 'part several by spaces'
      : head === 'axis'
        ? 'write xy or z'
        : 'put it right in the table';

/** The cells of some columns as nested data; empty cells are left out. */
function readRow<T>(columns: readonly Column<T>[], row: Row, problems: CsvProblem[]): object {
  const data: Record<string, unknown> = {};
  for (const { head, path, isNumber = false, convert } of columns) {
    const text = row.cells[head] ?? '';
    if (text === '') continue;
    const number = Number(text);
    const value = isNumber ? (convert ? convert(number) : number) : text;
    if (Number.isNaN(value)) {
      const message = `is ${text.slice(0, 40)}, which is no number`;
      problems.push({
        line: row.line,
        column: head,
        message,
        remedy: 'write digits and a decimal point, no unit',
      });
      continue;
    }
    let at = data;
    for (const step of path.slice(0, -1)) {
      at[step] ??= {};
      at = at[step] as Record<string, unknown>;
    }
    at[path.at(-1) as string] = value;
  }
  return data;
}
