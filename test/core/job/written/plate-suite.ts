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

    it('patterns stand on the bed, inside its margins and under its height, apart by the margin at least', () => {
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
        boxes.forEach((a, i) => {
          for (const b of boxes.slice(i + 1)) {
            const gaps = [0, 1].map((k) =>
              Math.max(
                (b.min[k] as number) - (a.max[k] as number),
                (a.min[k] as number) - (b.max[k] as number),
              ),
            );
            expect(Math.max(...gaps)).toBeGreaterThan(Math.max(bed.margin, 1) - rounding);
          }
        });
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
