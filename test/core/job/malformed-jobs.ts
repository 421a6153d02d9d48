/**
 * Jobs that must each be refused with one clear message, for the reader's own tests and for those of the command.
 * They are written round any part that has one field of each kind, so that the command's tests can put in a part
 * that it knows.
 */

/** The part the jobs are written round, and code names of its fields by kind. */
export interface SamplePart {
  readonly part: string;
  /** `part` with one slip in it. */
  readonly misspelt: string;
  /** A length whose range lies inside 1 to 500 mm and has 40 mm in it. */
  readonly length: string;
  /** The same with one slip in it. */
  readonly lengthMisspelt: string;
  /** A whole number whose range lies inside 1 to 500. */
  readonly count: string;
  /** An angle whose range lies inside 0 to 80 degrees. */
  readonly angle: string;
  readonly choice: string;
  /** Null where the part has none. */
  readonly flag: string | null;
}

export interface MalformedJob {
  readonly name: string;
  readonly source: string | Uint8Array;
  /** Of the one problem it has. */
  readonly code: string;
  readonly line: number;
  readonly column?: number;
  /** The path of the problem as it is printed. */
  readonly path: string;
  /** Words that must stand in the printed line. */
  readonly says: readonly string[];
}

export const testSample: SamplePart = {
  part: 'test-bracket',
  misspelt: 'test-braket',
  length: 'width',
  lengthMisspelt: 'widht',
  count: 'holes',
  angle: 'tilt',
  choice: 'hand',
  flag: 'countersunk',
};

const bytes = (...values: readonly number[]): Uint8Array => Uint8Array.from(values);

const utf16 = (text: string): Uint8Array =>
  bytes(0xff, 0xfe, ...[...text].flatMap((c) => [c.charCodeAt(0) & 0xff, c.charCodeAt(0) >> 8]));

/** Every row is a whole file. */
export function malformedJobs(sample: SamplePart): readonly MalformedJob[] {
  /** A whole job with `head` after its name; its first part has `extra` keys and `parameters`. */
  const job = ({
    head = '',
    extra = '',
    parameters = '',
  }: {
    head?: string;
    extra?: string;
    parameters?: string;
  }) => `job: demo\n${head}parts:\n  - name: one\n    part: ${sample.part}\n${extra}${parameters}`;
  /** The parameter stands on line 6. */
  const parameter = (line: string) => job({ parameters: `    parameters:\n      ${line}\n` });
  const at = (key: string) => `parts[0].parameters.${key}`;
  const twoNames = (first: string, second: string) =>
    `job: demo\nparts:\n  - name: ${first}\n    part: ${sample.part}\n  - name: ${second}\n    part: ${sample.part}\n`;
  const bomb = [
    'a: &a [x, x, x, x, x, x, x, x, x]',
    ...[...'bcdefghi'].map((c, i) => {
      const previous = `*${'abcdefgh'[i]}`;
      return `${c}: &${c} [${Array(9).fill(previous).join(', ')}]`;
    }),
  ].join('\n');

  const unreadable: readonly MalformedJob[] = [
    {
      name: 'empty file',
      source: '',
      code: 'empty',
      line: 1,
      path: '',
      says: ['the job is empty', 'job:', 'parts:'],
    },
    { name: 'only a comment', source: '# nothing here\n', code: 'empty', line: 1, path: '', says: ['empty'] },
    { name: 'only blank lines', source: '\n\n  \n', code: 'empty', line: 1, path: '', says: ['empty'] },
    {
      name: 'binary file',
      source: bytes(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13),
      code: 'not-text',
      line: 1,
      path: '',
      says: ['binary', 'UTF-8'],
    },
    {
      name: 'zip archive',
      source: bytes(0x50, 0x4b, 0x03, 0x04, 0x14, 0, 0, 0),
      code: 'not-text',
      line: 1,
      path: '',
      says: ['binary', 'UTF-8'],
    },
    {
      name: 'UTF-16',
      source: utf16('job: demo\n'),
      code: 'not-text',
      line: 1,
      path: '',
      says: ['UTF-16', 'UTF-8'],
    },
    {
      name: 'Latin-1 letters',
      source: bytes(...[...'job: demo\ntitle: Gr'].map((c) => c.charCodeAt(0)), 0xfc, 0xdf, 0x65, 0x0a),
      code: 'not-text',
      line: 2,
      path: '',
      says: ['not UTF-8'],
    },
    {
      name: 'NUL byte',
      source: 'job: demo\ntitle: a\0b\n',
      code: 'not-text',
      line: 2,
      path: '',
      says: ['NUL'],
    },
    {
      name: 'control character',
      source: 'job: demo\ntitle: a\u0007b\n',
      code: 'not-text',
      line: 2,
      column: 9,
      path: '',
      says: ['U+0007'],
    },
    {
      name: 'five megabytes',
      source: `job: demo\ntitle: ${'x'.repeat(5 * 1024 * 1024)}\n`,
      code: 'too-large',
      line: 1,
      path: '',
      says: ['5.0 MB', 'at most 4 MB'],
    },
    { name: 'a list', source: '- job: demo\n', code: 'wrong-type', line: 1, path: '', says: ['a list'] },
    {
      name: 'a sentence',
      source: 'just some words\n',
      code: 'wrong-type',
      line: 1,
      path: '',
      says: ['one text'],
    },
    { name: 'a number', source: '42\n', code: 'wrong-type', line: 1, path: '', says: ['keys and values'] },
  ];

  const yaml: readonly MalformedJob[] = [
    {
      name: 'tab as indent',
      source: 'job: demo\nbed:\n\twidth: 200\n',
      code: 'yaml-syntax',
      line: 3,
      path: '',
      says: ['tab', 'spaces'],
    },
    {
      name: 'unclosed double quote',
      source: 'job: demo\ntitle: "Rope machine\nunits: mm\n',
      code: 'yaml-syntax',
      line: 2,
      column: 8,
      path: '',
      says: ['quote', 'not closed'],
    },
    {
      name: 'unclosed single quote',
      source: "job: demo\ntitle: 'Rope machine\nunits: mm\n",
      code: 'yaml-syntax',
      line: 2,
      column: 8,
      path: '',
      says: ['quote', 'not closed'],
    },
    {
      name: 'unclosed bracket',
      source: 'job: demo\nnotes: [a, b\nunits: mm\n',
      code: 'yaml-syntax',
      line: 2,
      column: 8,
      path: '',
      says: ['bracket', 'not closed'],
    },
    {
      name: 'unclosed brace',
      source: 'job: demo\nbed: {width: 200, depth: 200\nunits: mm\n',
      code: 'yaml-syntax',
      line: 2,
      column: 6,
      path: '',
      says: ['bracket', 'not closed'],
    },
    {
      name: 'two colons on a line',
      source: 'job: demo\ntitle: Gears: the pair\n',
      code: 'yaml-syntax',
      line: 2,
      path: '',
      says: ['two colons', 'quotes'],
    },
    {
      name: 'key without a colon',
      source: 'job: demo\nunits mm\ndegrees: C\n',
      code: 'yaml-syntax',
      line: 2,
      path: '',
      says: ['colon'],
    },
    {
      name: 'value starting with a reserved character',
      source: 'job: demo\ntitle: @home\n',
      code: 'yaml-syntax',
      line: 2,
      path: '',
      says: ['quotes'],
    },
    {
      name: 'unknown escape',
      source: 'job: demo\ntitle: "C:\\qears"\n',
      code: 'yaml-syntax',
      line: 2,
      path: '',
      says: ['escape'],
    },
    {
      name: 'stray closing bracket',
      source: 'job: demo\nnotes: [a]]\n',
      code: 'yaml-syntax',
      line: 2,
      path: '',
      says: ['YAML'],
    },
    {
      name: 'wrong indentation',
      source: 'job: demo\n  units: mm\nparts: []\n',
      code: 'yaml-syntax',
      line: 1,
      path: '',
      says: ['colon'],
    },
    {
      name: 'two documents',
      source: `${job({})}---\njob: second\n`,
      code: 'many-documents',
      line: 5,
      path: '',
      says: ['second document', 'one job in a file'],
    },
    {
      name: 'a key twice',
      source: 'job: demo\nunits: mm\ndegrees: C\nunits: in\nparts: []\n',
      code: 'duplicate-key',
      line: 4,
      column: 1,
      path: '',
      says: ['units', 'twice', 'line 2'],
    },
    {
      name: 'alias bomb',
      source: `job: demo\n${bomb}\n`,
      code: 'alias',
      line: 6,
      path: '',
      says: ['10000 values', 'write the values out'],
    },
    {
      name: 'anchor that holds itself',
      source: 'job: demo\nstock: &s {flank: *s}\n',
      code: 'alias',
      line: 2,
      column: 19,
      path: '',
      says: ['*s', 'stands in'],
    },
    {
      name: 'alias of nothing',
      source: 'job: demo\nstock: *usual\n',
      code: 'alias',
      line: 2,
      path: '',
      says: ['*usual', 'nothing before it'],
    },
    {
      name: 'deep flow nesting',
      source: `job: demo\nnotes: ${'['.repeat(50_000)}\n`,
      code: 'too-deep',
      line: 2,
      path: '',
      says: ['nested more than 16 deep'],
    },
    {
      name: 'deep block nesting',
      source: `job: demo\nnotes:\n${'- '.repeat(50_000)}a\n`,
      code: 'too-deep',
      line: 3,
      path: '',
      says: ['nested more than 16 deep'],
    },
    {
      name: 'deep nesting of closed maps',
      source: `job: demo\nbed: ${'{a: '.repeat(17)}1${'}'.repeat(17)}\n`,
      code: 'too-deep',
      line: 2,
      path: '',
      says: ['nested more than 16 deep'],
    },
    {
      name: 'function tag',
      source: 'job: demo\ntitle: !!js/function "function () {}"\n',
      code: 'tag',
      line: 2,
      path: '',
      says: ['tag'],
    },
    {
      name: 'private tag',
      source: 'job: demo\nbed: !bed {width: 200}\n',
      code: 'tag',
      line: 2,
      path: '',
      says: ['tag'],
    },
    {
      name: 'binary tag',
      source: 'job: demo\ntitle: !!binary aGVsbG8=\n',
      code: 'tag',
      line: 2,
      path: '',
      says: ['tag'],
    },
    {
      name: 'text tag',
      source: 'job: demo\ntitle: !!str 12\n',
      code: 'tag',
      line: 2,
      path: '',
      says: ['tag'],
    },
    {
      name: 'list as a key',
      source: 'job: demo\n? [a, b]\n: 1\n',
      code: 'bad-key',
      line: 2,
      path: '',
      says: ['no plain word'],
    },
  ];

  const keys: readonly MalformedJob[] = [
    {
      name: 'misspelt key',
      source: job({ head: 'tolerence: 0.01\n' }),
      code: 'unknown-key',
      line: 2,
      column: 1,
      path: 'tolerence',
      says: ['unknown key', 'did you mean tolerance?'],
    },
    {
      name: 'merge key',
      source: job({ head: '<<: {units: in}\n' }),
      code: 'unknown-key',
      line: 2,
      column: 1,
      path: '<<',
      says: ['unknown key'],
    },
    {
      name: '__proto__ in the job',
      source: job({ head: '__proto__: {units: in}\n' }),
      code: 'unknown-key',
      line: 2,
      column: 1,
      path: '__proto__',
      says: ['unknown key'],
    },
    {
      name: '__proto__ in parameters',
      source: parameter('__proto__: 3'),
      code: 'unknown-key',
      line: 6,
      column: 7,
      path: at('__proto__'),
      says: ['unknown key'],
    },
    {
      name: 'constructor in parameters',
      source: parameter('constructor: 3'),
      code: 'unknown-key',
      line: 6,
      column: 7,
      path: at('constructor'),
      says: ['unknown key'],
    },
    {
      name: 'misspelt parameter',
      source: parameter(`${sample.lengthMisspelt}: 40`),
      code: 'unknown-key',
      line: 6,
      column: 7,
      path: at(sample.lengthMisspelt),
      says: ['unknown key', `did you mean ${sample.length}?`],
    },
    {
      name: 'misspelt key of a group',
      source: job({ head: 'bed:\n  widht: 200\n' }),
      code: 'unknown-key',
      line: 3,
      column: 3,
      path: 'bed.widht',
      says: ['did you mean width?'],
    },
    {
      name: 'unknown surface class',
      source: job({ extra: '    stock: {flanks: 0.1}\n' }),
      code: 'unknown-key',
      line: 5,
      column: 13,
      path: 'parts[0].stock.flanks',
      says: ['did you mean flank?'],
    },
    {
      name: 'no name',
      source: `parts:\n  - name: one\n    part: ${sample.part}\n`,
      code: 'missing',
      line: 1,
      path: 'job',
      says: ['is missing'],
    },
    {
      name: 'no parts',
      source: 'job: demo\n',
      code: 'missing',
      line: 1,
      path: 'parts',
      says: ['is missing'],
    },
    {
      name: 'empty parts',
      source: 'job: demo\nparts: []\n',
      code: 'missing',
      line: 2,
      path: 'parts',
      says: ['is an empty list', 'at least one part'],
    },
    {
      name: 'parts as a group',
      source: `job: demo\nparts:\n  one:\n    part: ${sample.part}\n`,
      code: 'wrong-type',
      line: 3,
      path: 'parts',
      says: ['is a group of keys', 'list of parts'],
    },
    {
      name: 'a part that is a word',
      source: `job: demo\nparts:\n  - ${sample.part}\n`,
      code: 'wrong-type',
      line: 3,
      column: 5,
      path: 'parts[0]',
      says: [sample.part, 'name, part and parameters'],
    },
    {
      name: 'part without a name',
      source: `job: demo\nparts:\n  - part: ${sample.part}\n`,
      code: 'missing',
      line: 3,
      path: 'parts[0].name',
      says: ['is missing'],
    },
    {
      name: 'part without a part',
      source: 'job: demo\nparts:\n  - name: one\n',
      code: 'missing',
      line: 3,
      path: 'parts[0].part',
      says: ['is missing', sample.part],
    },
    {
      name: 'unknown part',
      source: `job: demo\nparts:\n  - name: one\n    part: ${sample.misspelt}\n`,
      code: 'unknown-part',
      line: 4,
      column: 11,
      path: 'parts[0].part',
      says: [sample.misspelt, `did you mean ${sample.part}?`],
    },
    {
      name: 'part named like an object method',
      source: 'job: demo\nparts:\n  - name: one\n    part: constructor\n',
      code: 'unknown-part',
      line: 4,
      path: 'parts[0].part',
      says: ['is constructor'],
    },
    {
      name: 'unknown alloy',
      source: job({ head: 'alloy: tin-bronse\n' }),
      code: 'unknown-alloy',
      line: 2,
      column: 8,
      path: 'alloy',
      says: ['did you mean tin-bronze?'],
    },
    {
      name: 'unknown investment',
      source: job({ head: 'investment: gypsum\n' }),
      code: 'unknown-investment',
      line: 2,
      path: 'investment',
      says: ['did you mean gypsum-bonded?'],
    },
  ];

  const names: readonly MalformedJob[] = [
    ...(
      [
        ['parent folder', '../evil', 'is a path'],
        ['absolute path', '/etc/passwd', 'is a path'],
        ['backslash path', '..\\evil', 'is a path'],
        ['drive letter', '"C:evil"', 'is a path'],
        ['home folder', '"~root"', 'is a path'],
        ['reserved by Windows', 'nul', 'Windows'],
        ['reserved by Windows, numbered', 'com1', 'Windows'],
        ['the plates folder', 'plates', 'print plates'],
        ['capitals and a space', 'Crank Wheel', 'not a safe file name'],
        ['leading hyphen', '-rf', 'not a safe file name'],
        ['a dot file', '.hidden', 'not a safe file name'],
        ['too long', 'a'.repeat(65), '65 characters'],
        ['look-alike letters', 'crаnk', 'not a safe file name'],
      ] as const
    ).map(([name, written, says]) => ({
      name: `part name: ${name}`,
      source: `job: demo\nparts:\n  - name: ${written}\n    part: ${sample.part}\n`,
      code: 'unsafe-name',
      line: 3,
      column: 11,
      path: 'parts[0].name',
      says: [says],
    })),
    {
      name: 'job name with a path',
      source: `job: a/b\nparts:\n  - name: one\n    part: ${sample.part}\n`,
      code: 'unsafe-name',
      line: 1,
      column: 6,
      path: 'job',
      says: ['is a path'],
    },
    {
      name: 'duplicate part names',
      source: twoNames('one', 'one'),
      code: 'duplicate-name',
      line: 5,
      column: 11,
      path: 'parts[1].name',
      says: ['is one on line 5, as on line 3', 'quantity'],
    },
    {
      name: 'duplicate flask names',
      source: job({
        head: 'flasks:\n  - {name: tall, diameter: 100, height: 200}\n  - {name: tall, diameter: 90, height: 200}\n',
      }),
      code: 'duplicate-name',
      line: 4,
      path: 'flasks[1].name',
      says: ['line 4', 'line 3'],
    },
  ];

  const values: readonly MalformedJob[] = [
    ...(
      [
        ['negative length', '-40', 'out-of-range', ['is -40', 'from']],
        ['zero length', '0mm', 'out-of-range', ['is 0mm', 'from']],
        ['huge length', '1e30', 'out-of-range', ['is 1e30', 'from']],
        ['overflowing length', '1e400', 'unreadable', ['too large']],
        ['length in another unit', '100in', 'out-of-range', ['is 100in (2540 mm)', 'from']],
        ['infinite length', '.inf', 'unreadable', ['not a finite number']],
        ['length that is no number', '.nan', 'unreadable', ['not a finite number']],
        ['comma', '1,500', 'unreadable', ['comma', '1.500 or 1500']],
        ['hexadecimal length', '0x10', 'unreadable', ['decimal']],
        ['unknown unit', '40furlongs', 'unreadable', ['"furlongs"', 'mm, cm, m, in or ft']],
        ['angle for a length', '40deg', 'unreadable', ['"deg"', 'no length']],
        ['feet or minutes', "3'", 'unreadable', ['feet or minutes', '3ft']],
        ['fraction without a unit', '1 1/2', 'unreadable', ['fraction without a unit', '1-1/2in']],
        ['two decimal points', '1.2.3', 'unreadable', ['decimal point']],
        ['date', '2024-05-01', 'unreadable', ['-05-01']],
        ['word', 'wide', 'unreadable', ['does not start with a number']],
        ['no value', '', 'missing', ['has no value']],
        ['empty quotes', '""', 'unreadable', ['is empty']],
        ['true', 'true', 'wrong-type', ['is true']],
        ['list', '[40, 50]', 'wrong-type', ['is a list']],
        ['group', '{mm: 40}', 'wrong-type', ['is a group of keys']],
        ['a long text', `"${'9'.repeat(1_000_000)}"`, 'unreadable', ['1000000 characters']],
      ] as const
    ).map(([name, written, code, says]) => ({
      name: `length: ${name}`,
      source: parameter(`${sample.length}: ${written}`),
      code,
      line: 6,
      path: at(sample.length),
      says,
    })),
    {
      name: 'lone surrogate in an escape',
      source: job({ head: 'title: "a\\ud800b"\n' }),
      code: 'wrong-type',
      line: 2,
      column: 8,
      path: 'title',
      says: ['control character'],
    },
    {
      name: 'fraction of a count',
      source: parameter(`${sample.count}: 7.5`),
      code: 'not-whole',
      line: 6,
      path: at(sample.count),
      says: ['is 7.5', 'a whole number from'],
    },
    {
      name: 'count with a unit',
      source: parameter(`${sample.count}: 8mm`),
      code: 'unreadable',
      line: 6,
      path: at(sample.count),
      says: ['"mm" after the number', 'without a unit'],
    },
    {
      name: 'count as a word',
      source: parameter(`${sample.count}: seven`),
      code: 'unreadable',
      line: 6,
      path: at(sample.count),
      says: ['does not start with a number'],
    },
    {
      name: 'angle in millimetres',
      source: parameter(`${sample.angle}: 20mm`),
      code: 'unreadable',
      line: 6,
      path: at(sample.angle),
      says: ['"mm"', 'no angle'],
    },
    {
      name: 'angle with sixty minutes',
      source: parameter(`${sample.angle}: 20°60'`),
      code: 'unreadable',
      line: 6,
      path: at(sample.angle),
      says: ['60 minutes'],
    },
    {
      name: 'angle out of range',
      source: parameter(`${sample.angle}: 89deg`),
      code: 'out-of-range',
      line: 6,
      path: at(sample.angle),
      says: ['is 89deg', 'from'],
    },
    {
      name: 'unknown choice',
      source: parameter(`${sample.choice}: sideways`),
      code: 'unknown-choice',
      line: 6,
      path: at(sample.choice),
      says: ['is sideways', 'one of'],
    },
    {
      name: 'parameters as a list',
      source: job({ parameters: `    parameters:\n      - ${sample.length}: 40\n` }),
      code: 'wrong-type',
      line: 6,
      path: 'parts[0].parameters',
      says: ['is a list', 'keys and values'],
    },
    {
      name: 'units in furlongs',
      source: job({ head: 'units: furlong\n' }),
      code: 'unknown-choice',
      line: 2,
      path: 'units',
      says: ['is furlong', 'one of mm, in'],
    },
    {
      name: 'title that is a list',
      source: job({ head: 'title: [a, b]\n' }),
      code: 'wrong-type',
      line: 2,
      path: 'title',
      says: ['is a list', 'text'],
    },
    {
      name: 'title that is true',
      source: job({ head: 'title: true\n' }),
      code: 'wrong-type',
      line: 2,
      path: 'title',
      says: ['is true', 'quotes'],
    },
    {
      name: 'note that is a group',
      source: job({ head: 'notes:\n  - all is invented\n  - sizes: too\n' }),
      code: 'wrong-type',
      line: 4,
      path: 'notes[1]',
      says: ['is a group of keys'],
    },
    {
      name: 'growth upside down',
      source: job({ head: 'growth: 0.97917\n' }),
      code: 'out-of-range',
      line: 2,
      column: 9,
      path: 'growth',
      says: ['is 0.97917', 'pattern size / casting size', 'write 1.02127'],
    },
    {
      name: 'growth as a percentage',
      source: job({ extra: '    growth: 2.1%\n' }),
      code: 'unreadable',
      line: 5,
      path: 'parts[0].growth',
      says: ['percentage', 'for 2.1% write 1.021'],
    },
    {
      name: 'negative stock',
      source: job({ head: 'stock: {face: -0.1mm}\n' }),
      code: 'out-of-range',
      line: 2,
      column: 15,
      path: 'stock.face',
      says: ['is -0.1mm', 'from 0 to 10 mm'],
    },
    {
      name: 'no pieces',
      source: job({ extra: '    quantity: 0\n' }),
      code: 'out-of-range',
      line: 5,
      path: 'parts[0].quantity',
      says: ['is 0', 'from 1 to 1000'],
    },
    {
      name: 'too many pieces',
      source: job({ extra: '    quantity: 100000\n' }),
      code: 'out-of-range',
      line: 5,
      path: 'parts[0].quantity',
      says: ['is 100000', 'from 1 to 1000'],
    },
    {
      name: 'too fine a tolerance',
      source: job({ head: 'tolerance: 1e-9\n' }),
      code: 'out-of-range',
      line: 2,
      path: 'tolerance',
      says: ['is 1e-9', 'from 0.001 to 0.2 mm'],
    },
    {
      name: 'bed all margin',
      source: job({ head: 'bed: {width: 100, depth: 200, margin: 50}\n' }),
      code: 'out-of-range',
      line: 2,
      path: 'bed.margin',
      says: ['no room'],
    },
    {
      name: 'flask without a height',
      source: job({ head: 'flasks:\n  - {name: tall, diameter: 100}\n' }),
      code: 'missing',
      line: 3,
      path: 'flasks[0].height',
      says: ['is missing'],
    },
    {
      name: 'price without a currency',
      source: job({ head: 'prices:\n  metalPerKg: 18\n' }),
      code: 'missing',
      line: 3,
      path: 'prices.currency',
      says: ['is missing', 'EUR'],
    },
    {
      name: 'price with a currency sign',
      source: job({ head: 'prices:\n  currency: EUR\n  metalPerKg: 18 €/kg\n' }),
      code: 'unreadable',
      line: 4,
      path: 'prices.metalPerKg',
      says: ['€/kg'],
    },
    {
      name: 'price of the wrong alloy',
      source: job({ head: 'prices:\n  currency: EUR\n  metalPerKg: {yellow-brass: 9}\n' }),
      code: 'missing',
      line: 4,
      path: 'prices.metalPerKg',
      says: ['has no price for tin-bronze'],
    },
    {
      name: 'unknown preset',
      source: job({ extra: '    preset: none-such\n' }),
      code: 'unknown-preset',
      line: 5,
      path: 'parts[0].preset',
      says: ['is none-such'],
    },
    {
      name: 'too many parts',
      source: `job: demo\nparts:\n${'  - {}\n'.repeat(10_001)}`,
      code: 'too-many',
      line: 3,
      path: 'parts',
      says: ['has 10001 parts', 'at most 10000'],
    },
  ];

  const flags: readonly MalformedJob[] = (sample.flag === null ? [] : [sample.flag]).map((flag) => ({
    name: 'flag as a number',
    source: parameter(`${flag}: 1`),
    code: 'wrong-type',
    line: 6,
    path: at(flag),
    says: ['is 1', 'yes or no'],
  }));

  return [...unreadable, ...yaml, ...keys, ...names, ...values, ...flags];
}
