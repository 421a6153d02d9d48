import { XMLValidator } from 'fast-xml-parser';
import { beforeAll, describe, expect, it } from 'vitest';
import { readBinaryStl } from '../../../helpers/binary-stl.js';
import { meshesMeet } from '../../../helpers/crossings.js';
import {
  read3mf,
  type ThreeMfContent,
  type ThreeMfItem,
  triangleLines,
} from '../../../helpers/package-3mf.js';
import { boxOf, weld } from '../../../helpers/welded-mesh.js';
import { bytesOf, textOf, type WrittenJob } from '../../../helpers/written-job.js';

/** Plates and 3MF packages, read back by a reader of the published format. */
export function plateSuite(job: () => WrittenJob): void {
  const packages = new Map<string, ThreeMfContent>();
  beforeAll(() => {
    for (const plate of job().summary.plates) {
      packages.set(plate.name, read3mf(bytesOf(job().files, plate.files.threeMf)));
    }
  });
  const packageOf = (name: string): ThreeMfContent => packages.get(name) as ThreeMfContent;
  const float32 = (corners: Float64Array): Float32Array => Float32Array.from(corners);

  describe('3MF packages', () => {
    it('gated.3mf: one object with the part’s name, in millimetres, the triangles of gated.stl', () => {
      for (const part of job().summary.parts) {
        const content = read3mf(bytesOf(job().files, part.files.gated3mf));
        expect(content.unit).toBe('millimeter');
        expect(content.objectNames).toEqual([part.name]);
        expect(content.items).toHaveLength(1);
        const { own, corners } = content.items[0] as ThreeMfItem;
        const stl = readBinaryStl(bytesOf(job().files, part.files.gated));
        expect(triangleLines(own) === triangleLines(stl.corners), part.name).toBe(true);
        // It stands in the positive octant.
        expect(boxOf(weld(float32(corners))).min).toEqual([0, 0, 0]);
      }
    });

    it('plates: unit, title, one named object a pattern, the triangles of the plate’s STL', () => {
      const { summary, files } = job();
      for (const plate of summary.plates) {
        const content = packageOf(plate.name);
        expect(content.unit).toBe('millimeter');
        expect(content.title).toContain(plate.name);
        expect([...content.objectNames].sort()).toEqual(
          [...new Set(plate.placements.map((p) => p.name))].sort(),
        );
        const stl = readBinaryStl(bytesOf(files, plate.files.stl));
        const items = triangleLines(...content.items.map((item) => item.corners));
        expect(items === triangleLines(stl.corners), plate.name).toBe(true);
      }
    });
  });

  describe('plates', () => {
    it('every copy of every part stands on just one plate, in summary and 3MF alike', () => {
      const { summary } = job();
      const placed = summary.plates.flatMap((plate) => plate.placements.map((p) => `${p.name} ${p.copy}`));
      const wanted = summary.parts.flatMap((part) =>
        Array.from({ length: part.quantity }, (_, i) => `${part.name} ${i + 1}`),
      );
      expect(placed.sort()).toEqual(wanted.sort());
      const items = summary.plates.flatMap((plate) => packageOf(plate.name).items.map((item) => item.name));
      expect(items.sort()).toEqual(
        summary.parts.flatMap((p) => Array.from({ length: p.quantity }, () => p.name)).sort(),
      );
    });

    it('patterns stand on the bed, inside its margins and under its height', () => {
      const { bed, plates } = job().summary;
      // float32 at 200 mm is good to 0.02 µm.
      const rounding = 1e-4;
      for (const plate of plates) {
        const boxes = packageOf(plate.name).items.map((item) => boxOf(weld(float32(item.corners))));
        for (const { min, max } of boxes as {
          min: [number, number, number];
          max: [number, number, number];
        }[]) {
          expect(min[2]).toBe(0);
          expect(max[2]).toBeLessThanOrEqual(bed.height);
          expect(Math.min(min[0], min[1])).toBeGreaterThan(bed.margin - rounding);
          expect(max[0]).toBeLessThan(bed.width - bed.margin + rounding);
          expect(max[1]).toBeLessThan(bed.depth - bed.margin + rounding);
        }
        expect(Math.max(...boxes.map(({ max }) => max[2] as number))).toBeCloseTo(plate.height, 4);
      }
    });

    it('seen from above, no corner of a pattern is nearer than the gap to one of another', () => {
      const { bed, plates } = job().summary;
      for (const plate of plates) {
        const near = new Map<string, { readonly item: number; readonly x: number; readonly y: number }[]>();
        let least = Number.POSITIVE_INFINITY;
        packageOf(plate.name).items.forEach(({ corners }, item) => {
          const seen = new Set<string>();
          for (let i = 0; i < corners.length; i += 3) {
            const [x, y] = [corners[i] as number, corners[i + 1] as number];
            if (seen.has(`${x} ${y}`)) continue;
            seen.add(`${x} ${y}`);
            const [col, row] = [Math.floor(x / bed.gap), Math.floor(y / bed.gap)];
            for (let c = col - 1; c <= col + 1; c++)
              for (let r = row - 1; r <= row + 1; r++)
                for (const other of near.get(`${c} ${r}`) ?? [])
                  if (other.item !== item) least = Math.min(least, Math.hypot(other.x - x, other.y - y));
            const cell = near.get(`${col} ${row}`);
            if (cell) cell.push({ item, x, y });
            else near.set(`${col} ${row}`, [{ item, x, y }]);
          }
        });
        expect(least, plate.name).toBeGreaterThan(bed.gap - 1e-4);
      }
    });

    it('no two patterns touch, by their triangles', () => {
      for (const plate of job().summary.plates) {
        const meshes = packageOf(plate.name).items.map((item) => weld(float32(item.corners)));
        meshes.forEach((a, i) => {
          for (const b of meshes.slice(i + 1)) expect(meshesMeet(a, b)).toBe(false);
        });
      }
    });

    it('the plan of each plate is sound SVG that names its patterns', () => {
      for (const plate of job().summary.plates) {
        const svg = textOf(job().files, plate.files.plan as string);
        expect(XMLValidator.validate(svg)).toBe(true);
        expect(svg).not.toMatch(/NaN|undefined|Infinity/);
        // Long names run over several lines.
        const words = svg.replaceAll(/<\/?tspan[^>]*>/g, '');
        for (const { name } of plate.placements) expect(words).toContain(name);
      }
    });
  });
}
