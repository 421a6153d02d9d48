import { readFileSync } from 'node:fs';
import { decode } from 'fast-png';
import { beforeAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { alloyNames } from '../../core/foundry/alloys/index.js';
import { parseJob } from '../../core/job/read-job.js';
import { alloyColour, metalColour } from '../../core/report/render/index.js';
import { loadKernel } from '../../core/solid/index.js';
import { measureBounds } from '../../core/solid/mesh-bounds.js';
import { layOut } from '../../gallery/pictures/lay-out.js';
import { makeWall, type WallFile, type WallList } from '../../gallery/pictures/make-wall.js';
import { singleJob } from '../../gallery/pictures/single-job.js';
import { wall } from '../../gallery/ropewalk/wall.js';
import { jobContext } from '../../generators/job-context.js';

const texts = new Map(
  (['job.yaml', 'shed.yaml'] as const).map((job) => [job, readFileSync(`gallery/ropewalk/${job}`, 'utf8')]),
);

describe('the wall’s pictures', () => {
  let files: readonly WallFile[];
  let list: WallList;
  beforeAll(async () => {
    files = [...makeWall(texts, await loadKernel())];
    list = JSON.parse(new TextDecoder().decode(files.at(-1)!.bytes)) as WallList;
  });

  test('the list comes last and tells of every piece, each with its picture', () => {
    expect(files.at(-1)!.name).toBe('wall.json');
    expect(list.pieces.map(({ name }) => name)).toEqual(wall.map(({ name }) => name));
    for (const { picture } of list.pieces) {
      const png = decode(files.find(({ name }) => name === picture)!.bytes);
      expect([png.width, png.height]).toEqual([800, 600]);
      // The ground at a corner is warm paper; the piece covers a good part of the rest.
      const ground = [...png.data.subarray(0, 3)];
      expect(ground[0]!).toBeGreaterThan(ground[2]!);
      let covered = 0;
      for (let i = 0; i < png.data.length; i += 3) if (ground[2]! - png.data[i + 2]! > 60) covered++;
      expect(covered / (800 * 600), picture).toBeGreaterThan(0.05);
      expect(covered / (800 * 600), picture).toBeLessThan(0.8);
    }
  });

  test('each piece’s job is one that can be read, and makes that piece alone', () => {
    for (const { name, job, alloy } of list.pieces) {
      const reading = parseJob(job, jobContext('piece.yaml'));
      if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
      expect(reading.job.parts.every((p) => p.name === name || p.name.startsWith(`${name}-`))).toBe(true);
      expect(reading.job.parts.every((p) => p.quantity === 1 && p.alloy === alloy)).toBe(true);
      expect(job).toContain('invented');
    }
  });

  test('the parameters of a piece are those of the whole job', () => {
    for (const { name, job: file } of wall) {
      type Parts = { parts: { name: string; parameters?: unknown }[] };
      const whole = (parse(texts.get(file)!) as Parts).parts.find((p) => p.name === name)!;
      const [alone] = (parse(list.pieces.find((p) => p.name === name)!.job) as Parts).parts;
      expect(alone!.parameters).toEqual(whole.parameters);
    }
  });

  test('mass and sizes are of the finished piece', () => {
    // Ø of the 41 teeth of module 2 at 25°: 2 (41 / (2 cos 25°) + 1) × 2 = 94.48 mm.
    const wheel = list.pieces.find(({ name }) => name === 'main-wheel')!;
    expect(wheel.sizes[0]![0]).toBeCloseTo(2 * (41 / Math.cos((25 * Math.PI) / 180) + 2), 1);
    const pull = list.pieces.find(({ name }) => name === 'loft-hatch-pull')!;
    expect(pull.sizes.length).toBe(3);
    for (const { mass, triangles } of list.pieces) {
      expect(mass).toBeGreaterThan(10);
      expect(triangles).toBeGreaterThan(100);
    }
  });

  test('the same again gives the same bytes', async () => {
    const again = makeWall(texts, await loadKernel()).next().value as WallFile;
    expect(again.bytes).toEqual(files[0]!.bytes);
  });
});

describe('one entry of a job', () => {
  test('is refused where there is none of that name', () => {
    expect(() => singleJob(texts.get('job.yaml')!, 'no-such', 'x')).toThrow('no-such');
    expect(() => singleJob('parts: 3', 'a', 'x')).toThrow('not a job');
  });

  test('takes its comment along, but no other’s', () => {
    const alone = singleJob(texts.get('job.yaml')!, 'tar-locker-hinge', 'Hinge');
    expect(alone).toContain('Two leaves');
    expect(alone).not.toContain('A ring, its plate');
    expect(alone).not.toContain('prices');
  });
});

describe('laying out', () => {
  const box = {
    positions: Float32Array.from([0, 0, 0, 10, 0, 0, 0, 4, 0, 0, 0, 2]),
    triangles: Uint32Array.from([0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3]),
  };

  test('puts castings in a row on the ground, clear of each other', () => {
    const { positions, triangles } = layOut([
      { mesh: box, pose: { turn: [180, 0, 0] } },
      { mesh: box, pose: {} },
    ]);
    expect(triangles.length).toBe(24);
    const halves = [positions.subarray(0, 12), positions.subarray(12)].map(
      (p) => measureBounds({ positions: p })!,
    );
    expect(halves[0]!.min[2]).toBeCloseTo(0, 5);
    expect(halves[1]!.min[0]).toBeGreaterThan(halves[0]!.max[0]);
  });

  test('turns about x, then y, then z', () => {
    const { positions } = layOut([{ mesh: box, pose: { turn: [90, 0, 90], at: [1, 2, 3] } }]);
    // (10, 0, 0) stays under x, and goes to (0, 10, 0) under z; (0, 0, 2) goes to (0, −2, 0), then to (2, 0, 0).
    expect([...positions.subarray(3, 6)].map((v) => Math.round(v * 1e4) / 1e4)).toEqual([1, 12, 3]);
    expect([...positions.subarray(9, 12)].map((v) => Math.round(v * 1e4) / 1e4)).toEqual([3, 2, 3]);
  });
});

describe('the colours of metals', () => {
  test('every alloy of the table has its own, every other name the usual', () => {
    for (const name of alloyNames) {
      expect(alloyColour(name)).toMatch(/^#[0-9a-f]{6}$/);
      expect(alloyColour(name), name).not.toBe(metalColour.colour);
    }
    expect(alloyColour('my own')).toBe(metalColour.colour);
    expect(alloyColour('constructor')).toBe(metalColour.colour);
  });
});
