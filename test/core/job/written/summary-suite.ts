import { describe, expect, it } from 'vitest';
import { boxOf, volumeOf } from '../../../helpers/welded-mesh.js';
import { states, stlMesh, textOf, type WrittenJob } from '../../../helpers/written-job.js';

/** g/cm³ at 20 °C: C90500 and C85700, Copper Development Association property sheets; PLA filament from memory. */
const published = { 'tin-bronze': 8.72, 'yellow-brass': 8.41, pla: 1.24 } as const;

/** `summary.json`: its form, its paths, and its masses against the meshes. */
export function summarySuite(job: () => WrittenJob): void {
  describe('summary.json', () => {
    it('is versioned JSON without nulls, and every text says something', () => {
      const text = textOf(job().files, 'summary.json');
      const summary = JSON.parse(text) as Record<string, unknown>;
      expect(summary.schemaVersion).toBe(1);
      const holes: string[] = [];
      const visit = (value: unknown, path: string): void => {
        // The demo has prices: nothing is left open, and what was NaN would be null here.
        if (value === null || value === undefined) holes.push(path);
        else if (typeof value === 'string' && /\b(NaN|undefined|Infinity|null)\b|\[object/.test(value))
          holes.push(path);
        else if (typeof value === 'object') {
          for (const [key, inner] of Object.entries(value)) visit(inner, `${path}.${key}`);
        }
      };
      visit(summary, 'summary');
      expect(holes).toEqual([]);
    });

    it('leaves no air shut in above 0.05 ml', () => {
      for (const { name, air } of job().summary.parts) {
        expect(air?.threshold, name).toBe(50);
        expect(air?.left, name).toEqual([]);
      }
    });

    it('has a number wherever one is promised', () => {
      const { summary } = job();
      const numbers: Record<string, unknown> = {};
      const take = (path: string, record: object, keys: readonly string[]): void => {
        for (const key of keys) numbers[`${path}.${key}`] = (record as Record<string, unknown>)[key];
      };
      take('bed', summary.bed, ['width', 'depth', 'height', 'margin', 'gap', 'brim']);
      take('nesting', summary.nesting, ['seed', 'rounds']);
      for (const p of summary.parts) {
        take(p.name, p.growth, ['value']);
        take(`${p.name}.mass`, p.mass, ['part', 'casting', 'gating', 'charge']);
        take(`${p.name}.volume`, p.volume, [...states]);
        take(`${p.name}.stock`, p.stock.stock, ['flank', 'tip', 'face', 'bore', 'skin', 'mating']);
        take(`${p.name}.flask`, p.flask!, [
          'insideDiameter',
          'insideHeight',
          'slurryVolume',
          'powder',
          'water',
        ]);
        take(`${p.name}.weigh`, p.flask!.weigh, ['step', 'powder', 'water']);
        for (const row of p.dimensions) take(`${p.name}.${row.symbol}`, row, ['part', 'casting', 'pattern']);
        for (const state of states)
          take(`${p.name}.meshes.${state}`, p.meshes[state], ['triangles', 'volume']);
      }
      take('investment', summary.investment!, [
        'powder',
        'water',
        'waterRatio',
        'wasteFraction',
        'workingTime',
      ]);
      take('burnout', summary.burnout, ['total', 'peak', 'castingTemperature', 'flaskDiameter']);
      for (const p of summary.pour) take(p.alloy, p, ['liquidus', 'metalTemperature', 'flaskTemperature']);
      for (const c of summary.charge)
        take(c.alloy, c, ['inMoulds', 'meltLoss', 'reserve', 'charge', 'energy']);
      for (const p of summary.plates) take(p.name, p, ['height', 'plastic', 'filled']);
      const bad = Object.entries(numbers).filter(
        ([, value]) => typeof value !== 'number' || !Number.isFinite(value) || value < 0,
      );
      expect(bad).toEqual([]);
      expect(Object.keys(numbers).length).toBeGreaterThan(200);
    });

    it('lists every file that is written, and no other', () => {
      const { summary, files } = job();
      const listed = [
        ...summary.parts.flatMap((p) => Object.values(p.files)),
        ...summary.plates.flatMap((p) => Object.values(p.files)),
        'summary.json',
        'traveller.html',
      ];
      expect(listed.sort()).toEqual([...files.keys()].sort());
      // A folder that has its summary is whole.
      expect([...files.keys()].at(-1)).toBe('summary.json');
    });

    it('says of each mesh what the file holds: triangles, outside sizes, volume', () => {
      for (const part of job().summary.parts) {
        for (const state of states) {
          const mesh = stlMesh(job(), part, state);
          const said = part.meshes[state];
          const { min, max } = boxOf(mesh);
          expect(said.triangles).toBe(mesh.triangles.length / 3);
          said.size.forEach((size, k) => {
            expect(Math.abs((max[k] as number) - (min[k] as number) - size)).toBeLessThan(1e-9);
          });
          expect(Math.abs(said.volume / volumeOf(mesh) - 1)).toBeLessThan(1e-9);
          expect(part.volume[state]).toBe(said.volume);
        }
      }
    });

    it('masses are the volumes of the written meshes times the published density', () => {
      for (const part of job().summary.parts) {
        const density = published[part.alloy as 'tin-bronze' | 'yellow-brass'] / 1000;
        const mass = (state: 'part' | 'casting' | 'gated'): number =>
          volumeOf(stlMesh(job(), part, state)) * density;
        // The gated pattern is as much larger than its metal as the pattern than the casting.
        const charge = mass('gated') / part.growth.value ** 3;
        const near = (said: number, found: number): void =>
          expect(Math.abs(said / found - 1)).toBeLessThan(1e-9);
        near(part.mass.part, mass('part'));
        near(part.mass.casting, mass('casting'));
        near(part.mass.charge, charge);
        near(part.mass.gating, charge - mass('casting'));
        // Every vertex of the pattern was rounded once more to float32.
        const grown = volumeOf(stlMesh(job(), part, 'pattern')) / part.growth.value ** 3;
        expect(Math.abs(grown / volumeOf(stlMesh(job(), part, 'casting')) - 1)).toBeLessThan(1e-7);
      }
    });

    it('sums over the job: metal an alloy, investment and plastic', () => {
      const { summary } = job();
      const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
      expect(summary.charge.map((c) => c.alloy)).toEqual([...new Set(summary.parts.map((p) => p.alloy))]);
      for (const charge of summary.charge) {
        const inMoulds = sum(
          summary.parts.filter((p) => p.alloy === charge.alloy).map((p) => p.mass.charge * p.quantity),
        );
        expect(charge.inMoulds).toBeCloseTo(inMoulds, 6);
        // What is left after the loss fills the moulds and the reserve, each heat rounded up to the scale's step.
        const least = (inMoulds + charge.reserve) / (1 - charge.meltLoss);
        const { heats, scaleStep } = charge.melt as NonNullable<typeof charge.melt>;
        expect(charge.charge).toBe(heats.reduce((g, h) => g + h.charge, 0));
        expect(charge.charge).toBeGreaterThan(least - 1e-6);
        expect(charge.charge).toBeLessThan(least + heats.length * scaleStep);
      }
      // What is paid is what is weighed out.
      const paid = summary.cost?.lines.find((l) => l.item === 'investment');
      if (paid) expect(paid.quantity * 1000).toBeCloseTo(summary.investment!.weigh.powder, 6);
      expect(summary.investment!.powder).toBeCloseTo(
        sum(summary.parts.map((p) => p.flask!.powder * p.quantity)),
        6,
      );
      expect(summary.investment!.water).toBeCloseTo(
        sum(summary.parts.map((p) => p.flask!.water * p.quantity)),
        6,
      );
      for (const plate of summary.plates) {
        const volumes = plate.placements.map(({ name }) => {
          const part = summary.parts.find((p) => p.name === name);
          if (!part) throw new Error(name);
          return volumeOf(stlMesh(job(), part, 'gated'));
        });
        expect(plate.plastic).toBeCloseTo((sum(volumes) * published.pla) / 1000, 6);
      }
    });
  });
}
