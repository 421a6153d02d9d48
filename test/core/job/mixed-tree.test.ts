/** Trees of several kinds through the whole job: what is read, made, gated, cast and told. */
import { beforeAll, describe, expect, test } from 'vitest';
import { plate } from '../../../cli/api.js';
import { type JobFile, jobFiles } from '../../../core/job/job-files.js';
import type { JobResult } from '../../../core/job/make-job.js';
import type { PartSummary } from '../../../core/job/summary.js';
import { inspectMesh } from '../../../core/solid/inspect.js';
import type { Mesh } from '../../../core/solid/types.js';
import { overlapsOf, type Pose } from '../../helpers/overlap-volume.js';

const head = `job: lockers
alloy: yellow-brass
bed: { width: 300, depth: 300 }
`;
const members = {
  knob: '{ part: knob, count: 2, parameters: { size: 26, door: 18 } }',
  pull: '{ name: pull, part: hatch-pull, parameters: { size: 24 } }',
  cleat: '{ name: cleat, part: horn-cleat, preset: dinghy }',
};
const list = Object.values(members)
  .map((m) => `      - ${m}\n`)
  .join('');
const tree = (freeze: string): string => `${head}freeze: ${freeze}
prices: { currency: EUR, metalPerKg: 10, investmentPerKg: 2, plasticPerKg: 20 }
parts:
  - name: locker-tree
    quantity: 2
    tree:
${list}`;
const alone = `${head}freeze: coarse
parts:
${Object.values(members)
  .map((m) => `  - ${m.replace('count', 'quantity').replace('{ part', '{ name: knob, part')}\n`)
  .join('')}`;

const made = async (text: string): Promise<JobResult> => {
  const result = await plate(text);
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  return result;
};

let mixed: JobResult;
let singles: JobResult;
let part: PartSummary;
beforeAll(async () => {
  mixed = await made(tree('coarse'));
  singles = await made(alone);
  part = mixed.summary.parts[0]!;
});

describe('two trees of two knobs, a pull and a cleat', () => {
  test('are two moulds of four castings: on the plates, in the flasks, of the melt', () => {
    expect(part).toMatchObject({ part: 'tree', quantity: 8, patternsPerTree: 4, moulds: 2 });
    expect(part.members!.map((m) => [m.name, m.count, m.quantity])).toEqual([
      ['knob', 2, 4],
      ['pull', 1, 2],
      ['cleat', 1, 2],
    ]);
    expect(mixed.summary.plates.flatMap((p) => p.placements).length).toBe(2);
    expect(mixed.summary.charge[0]!.inMoulds).toBeCloseTo(2 * part.mass.charge, 6);
    const { parts, total } = mixed.summary.cost!;
    expect(parts.reduce((sum, p) => sum + p.all, 0)).toBeCloseTo(total, 6);
  });

  test('each kind is what it is by itself: sizes, stock, masses, meshes', () => {
    const record = mixed.parts.get('locker-tree')!;
    for (const [i, one] of singles.summary.parts.entries()) {
      const member = part.members![i]!;
      expect(member.name).toBe(one.name);
      expect(member.dimensions).toEqual(one.dimensions);
      expect(member.stock).toEqual(one.stock);
      expect(member.mass).toEqual({ part: one.mass.part, casting: one.mass.casting });
      expect(record.memberBodies![i]!.meshes.pattern).toEqual(singles.parts.get(one.name)!.meshes.pattern);
    }
    const sum = part.members!.reduce((all, m) => all + m.count * m.mass.casting, 0);
    expect(part.mass.casting).toBeCloseTo(sum, 6);
    expect(part.mass.charge).toBeCloseTo(sum + part.mass.gating, 6);
  });

  test('the gated tree is one sound piece, the patterns of it apart', () => {
    const { meshes, gatingMesh, memberBodies } = mixed.parts.get('locker-tree')!;
    expect(inspectMesh(meshes.gated)).toMatchObject({ components: 1, selfIntersections: 0, closed: true });
    const standing = inspectMesh(meshes.pattern);
    expect(standing).toMatchObject({ components: 4, selfIntersections: 0, closed: true });
    const volumes = memberBodies!.map((b) => inspectMesh(b.meshes.pattern).volume);
    expect(standing.volume / (2 * volumes[0]! + volumes[1]! + volumes[2]!)).toBeCloseTo(1, 5);
    expect(inspectMesh(meshes.gated).volume).toBeLessThan(standing.volume + inspectMesh(gatingMesh).volume);
    // Times the growth, the castings as they hang are the patterns as they stand.
    const g = part.growth.value;
    for (let i = 0; i < meshes.casting.positions.length; i += 997)
      expect(g * meshes.casting.positions[i]!).toBeCloseTo(meshes.pattern.positions[i]!, 3);
  });

  test('no two patterns have any volume in common, nor come nearer than the gap', async () => {
    const bodies = bodiesOf(mixed.parts.get('locker-tree')!.meshes.pattern);
    expect(bodies.length).toBe(4);
    const still: Pose = { turn: 0, by: [0, 0, 0] };
    for (const [i, a] of bodies.entries())
      for (const b of bodies.slice(i + 1)) {
        const overlaps = await overlapsOf(a, b);
        expect(overlaps.at(still, still)).toBe(0);
        expect(overlaps.gap(still, still, 12)).toBeGreaterThan(10 - 0.02);
        overlaps.free();
      }
  });

  test('each has its gate on its own place, and a runner by its own modulus', () => {
    const { gates } = part.gating;
    expect(gates.length).toBe(4);
    for (const { name, runner } of gates) {
      const one = singles.parts.get(name.split(':')[0]!)!;
      const pattern = inspectMesh(one.meshes.pattern);
      const modulus = pattern.volume / areaOf(one.meshes.pattern);
      expect(runner!.diameter / 4 / modulus).toBeGreaterThan(1.2 * 0.999);
    }
  });

  test('clears the walls and the floor of its flask', () => {
    const { clearance, findings } = part.flask!;
    // Over 500 g of bronze: 13 mm (flask.ts).
    expect(part.mass.charge).toBeGreaterThan(500);
    expect(clearance.wall).toBeGreaterThan(13 - 1e-9);
    expect(clearance.floor).toBeGreaterThan(25 - 1e-9);
    expect(findings.filter((f) => f.severity === 'stop')).toEqual([]);
  });

  test('fills, and freezes no worse than its patterns by themselves', () => {
    const whole = part.freeze!;
    expect(whole.fill.unreached).toBeLessThan(20);
    const each = singles.summary.parts.map((p) => p.freeze!);
    // One pour of four takes longer than that of one; still far from freezing on the way.
    expect(whole.fill.margin).toBeGreaterThan(3 * whole.fill.marginLimit);
    const voids = (f: typeof whole): number => f.latePlaces.reduce((sum, p) => sum + p.void, 0);
    const counts = [2, 1, 1];
    const apart = each.reduce((sum, f, i) => sum + counts[i]! * voids(f), 0);
    // What the grid's cells add: a thousandth of the castings.
    expect(voids(whole)).toBeLessThan(1.25 * apart + 0.001 * part.volume.casting);
  });

  test('its files: the tree’s own, and those of each kind in a folder under it', () => {
    const files: JobFile[] = [...jobFiles(mixed, { lengthUnit: 'mm', degrees: 'C' })];
    const paths = files.map((f) => f.path);
    expect(new Set(paths).size).toBe(paths.length);
    for (const member of part.members!)
      for (const path of Object.values(member.files)) expect(paths).toContain(path);
    expect(part.members![0]!.files.part).toBe('locker-tree/knob/part.stl');
    for (const path of Object.values(part.files)) expect(paths).toContain(path);
    const text = new TextDecoder().decode(files.find((f) => f.path === 'traveller.html')!.bytes);
    for (const said of ['locker-tree/knob', 'locker-tree/pull', 'locker-tree/cleat', '2 trees of 4'])
      expect(text).toContain(said);
    // Each kind has its inspection sheet for as many castings as there are of it.
    expect(text).toMatch(/locker-tree\/knob<\/bdi>: pieces 3 and 4 of 4/);
    expect(text).toMatch(/locker-tree\/pull<\/bdi>: pieces 1 and 2 of 2/);
  });
});

/** The closed bodies of a mesh, found by the corners that triangles share. */
function bodiesOf({ positions, triangles }: Mesh): readonly Mesh[] {
  const root = Int32Array.from({ length: positions.length / 3 }, (_, i) => i);
  const find = (i: number): number => {
    let at = i;
    while (root[at] !== at) at = root[at] = root[root[at]!]!;
    return at;
  };
  for (let t = 0; t < triangles.length; t += 3)
    for (const k of [1, 2]) root[find(triangles[t]!)] = find(triangles[t + k]!);
  const byRoot = new Map<number, number[]>();
  for (let t = 0; t < triangles.length; t += 3) {
    const r = find(triangles[t]!);
    if (!byRoot.has(r)) byRoot.set(r, []);
    byRoot.get(r)!.push(triangles[t]!, triangles[t + 1]!, triangles[t + 2]!);
  }
  return [...byRoot.values()].map((corners) => {
    const used = [...new Set(corners)];
    const number = new Map(used.map((v, i) => [v, i]));
    return {
      positions: Float32Array.from(used.flatMap((v) => [...positions.subarray(3 * v, 3 * v + 3)])),
      triangles: Uint32Array.from(corners.map((v) => number.get(v)!)),
    };
  });
}

function areaOf({ positions: p, triangles: t }: Mesh): number {
  let area = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i]!, 3 * t[i + 1]!, 3 * t[i + 2]!];
    const u = [0, 1, 2].map((k) => p[b + k]! - p[a + k]!) as [number, number, number];
    const v = [0, 1, 2].map((k) => p[c + k]! - p[a + k]!) as [number, number, number];
    area += Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
  }
  return area;
}

describe('a tree that is written wrong is refused with its line, what is wrong and what would be right', () => {
  const job = (entry: string): string => `job: trees\nfreeze: off\nparts:\n  - name: t\n${entry}`;
  const cases: readonly (readonly [string, string, RegExp])[] = [
    [
      'another alloy',
      '    tree:\n      - { part: knob, count: 2 }\n      - { part: deck-eye, alloy: yellow-brass }\n',
      /:7:\d+.*tree\[1\]\.alloy.*yellow-brass.*tin-bronze.*one pour fills the whole tree/s,
    ],
    [
      'too many',
      '    tree:\n      - { part: knob, count: 5 }\n      - { part: deck-eye, count: 4 }\n',
      /:6:\d+.*tree.*holds 9 patterns.*from 2 to 8/s,
    ],
    ['one alone', '    tree: [{ part: knob }]\n', /:5:\d+.*tree.*holds 1 pattern\b.*from 2 to 8/s],
    ['none', '    tree: []\n', /:5:\d+.*tree.*is an empty list.*from 2 to 8/s],
    ['no list', '    tree: knob\n', /:5:\d+.*tree.*give a list of patterns/s],
    ['a name for a list', '    tree: [knob, knob]\n', /tree\[0\].*give part, count and parameters/s],
    [
      'the same name twice',
      '    tree:\n      - { part: knob }\n      - { part: knob }\n',
      /tree\[1\]\.name.*knob on line 7, as on line 6.*raise its count/s,
    ],
    [
      'a part of several pieces',
      '    tree:\n      - { part: knob }\n      - { part: butt-hinge }\n',
      /:7:\d+.*tree\[1\]\.piece.*is cast in \d pieces, give each a line of its own: outer-leaf/s,
    ],
    [
      'a piece of a part that has none',
      '    tree: [{ part: knob, count: 2, piece: leaf }]\n',
      /tree\[0\]\.piece.*knob is cast in one piece/s,
    ],
    [
      'several gates for each of its patterns',
      '    gating: { gates: 3 }\n    tree: [{ part: knob, count: 2 }]\n',
      /:5:\d+.*gating\.gates.*is 3.*each pattern has one gate: leave it out/s,
    ],
    ['an unknown part', '    tree: [{ part: nob, count: 2 }]\n', /tree\[0\]\.part.*nob.*knob/s],
    ['an unknown key', '    tree: [{ part: knob, cuont: 2 }]\n', /tree\[0\]\.cuont.*unknown key.*count/s],
    [
      'a value out of range',
      '    tree: [{ part: knob, count: 2, parameters: { size: 900 } }]\n',
      /tree\[0\]\.parameters\.size/s,
    ],
    [
      'a part beside it',
      '    part: knob\n    tree: [{ part: knob, count: 2 }]\n',
      /:5:\d+.*parts\[0\]\.part.*does not belong beside tree.*give each its own part/s,
    ],
    [
      'copies of the tree by patternsPerTree',
      '    patternsPerTree: 3\n    tree: [{ part: knob, count: 2 }]\n',
      /patternsPerTree.*does not belong beside tree.*count/s,
    ],
    [
      'a part file',
      '    tree:\n      - { part: knob }\n      - { part: ./none.mjs }\n',
      /:7:\d+.*tree\[1\]\.part.*part file/s,
    ],
    [
      'a mesh without a name that would do',
      '    tree:\n      - { part: knob }\n      - { part: mesh, parameters: { file: 7 } }\n',
      /tree\[1\]\.parameters\.file/s,
    ],
  ];
  test.each(cases)('%s', async (_, entry, said) => {
    await expect(plate(job(entry))).rejects.toThrow(said);
  });

  test('a pattern that cannot be made is told with its name', async () => {
    const result = await plate(
      job(
        '    alloy: tin-bronze\n    gating: { leastSprueDiameter: 25mm }\n    tree: [{ name: little, part: knob, count: 2, parameters: { size: 16 } }]\n',
      ),
    );
    if (!('refused' in result)) throw new Error('it was made');
    expect(result.refused).toEqual([
      expect.objectContaining({
        name: 't',
        findings: expect.arrayContaining([
          expect.objectContaining({ severity: 'stop', message: expect.stringMatching(/\blittle\b/) }),
        ]),
      }),
    ]);
  });
});
