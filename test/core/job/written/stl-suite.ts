import { describe, expect, it } from 'vitest';
import { readBinaryStl } from '../../../helpers/binary-stl.js';
import { selfCrossings } from '../../../helpers/crossings.js';
import { topologyOf, volumeOf, weld } from '../../../helpers/welded-mesh.js';
import { bytesOf, type State, states, stlMesh, type WrittenJob } from '../../../helpers/written-job.js';

/** Handles of each state: a ring has one, a ring with a cross hole two. Gating closes the bore's mouth of a gear. */
export type Handles = Readonly<Record<State, number>>;

export function stlSuite(job: () => WrittenJob, handles: Readonly<Record<string, Handles>>): void {
  describe('every STL, read by a second reader', () => {
    it.each(Object.entries(handles))(
      '%s: closed, oriented, one piece, no self-crossing',
      (name, expected) => {
        const part = job().summary.parts.find((p) => p.name === name);
        if (!part) throw new Error(name);
        for (const state of states) {
          checkLayout(bytesOf(job().files, part.files[state]));
          const mesh = stlMesh(job(), part, state);
          expect(topologyOf(mesh), state).toEqual({
            unmatchedEdges: 0,
            collapsed: 0,
            pinched: 0,
            components: 1,
            euler: 2 - 2 * expected[state],
            genus: expected[state],
          });
          expect(selfCrossings(mesh), state).toEqual([]);
          expect(volumeOf(mesh)).toBeGreaterThan(0);
        }
      },
    );

    it('plates: as many closed pieces as patterns, none crossing another or itself', () => {
      const { summary, files } = job();
      expect(summary.plates.length).toBeGreaterThan(0);
      for (const plate of summary.plates) {
        const bytes = bytesOf(files, plate.files.stl);
        checkLayout(bytes);
        const mesh = weld(readBinaryStl(bytes).corners);
        const found = topologyOf(mesh);
        expect(found.unmatchedEdges + found.collapsed + found.pinched).toBe(0);
        expect(found.components).toBe(plate.placements.length);
        expect(selfCrossings(mesh)).toEqual([]);
      }
    });
  });
}

/** Header that no reader takes for text, and normals that agree with the order of the corners. */
function checkLayout(bytes: Uint8Array): void {
  const { header, count, corners, normals } = readBinaryStl(bytes);
  expect(header.toLowerCase().startsWith('solid')).toBe(false);
  let worst = 1;
  for (let t = 0; t < count; t++) {
    const c = (k: number): number => corners[9 * t + k] as number;
    const [ux, uy, uz] = [c(3) - c(0), c(4) - c(1), c(5) - c(2)];
    const [vx, vy, vz] = [c(6) - c(0), c(7) - c(1), c(8) - c(2)];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const area = Math.hypot(nx, ny, nz);
    const written = [normals[3 * t], normals[3 * t + 1], normals[3 * t + 2]] as [number, number, number];
    // A sliver's normal is lost in rounding, and readers take it from the corners.
    if (area < 1e-6) continue;
    worst = Math.min(worst, (nx * written[0] + ny * written[1] + nz * written[2]) / area);
  }
  expect(worst).toBeGreaterThan(0.999);
}
