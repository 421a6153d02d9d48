import { beforeAll, describe, expect, it } from 'vitest';
import {
  type CylinderSurface,
  findSurfaces,
  type MeshSurface,
  type PlaneSurface,
} from '../../../../core/mesh/surfaces/index.js';
import type { PartDefinition } from '../../../../core/part/contract.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh, Vec3 } from '../../../../core/solid/types.js';
import butt from '../../../../generators/butt-hinge.js';
import gudgeon from '../../../../generators/gudgeon-pintle.js';
import helical from '../../../../generators/helical-gear.js';
import jamCleat from '../../../../generators/jam-cleat.js';
import knob from '../../../../generators/knob.js';
import spur from '../../../../generators/spur-gear.js';
import strap from '../../../../generators/strap-hinge.js';
import { chance, moved, partMesh, plate, refined, scanned, shuffled, turn } from './shapes.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const named = (surfaces: readonly MeshSurface[], name: string): MeshSurface => {
  const found = surfaces.find((s) => s.name === name);
  if (!found) throw new Error(`no ${name} among ${surfaces.map((s) => s.name).join('; ')}`);
  return found;
};
const cylinder = (surfaces: readonly MeshSurface[], name: string): CylinderSurface => {
  const found = named(surfaces, name);
  if (found.kind !== 'cylinder') throw new Error(`${name} is flat`);
  return found;
};
const plane = (surfaces: readonly MeshSurface[], name: string): PlaneSurface => {
  const found = named(surfaces, name);
  if (found.kind !== 'plane') throw new Error(`${name} is round`);
  return found;
};
const names = (surfaces: readonly MeshSurface[]): string[] => surfaces.map((s) => s.name).sort();

const plateNames = [
  'back face',
  'bore at 12, 30',
  'bore at 60, 20',
  'bottom face',
  'face up at 4',
  'front face',
  'left face',
  'right face',
  'top face',
];

describe('a plate with two bores', () => {
  it('its six sides, the bores and the floor of the blind one, with their sizes', () => {
    const found = findSurfaces(plate(kernel));
    expect(names(found)).toEqual(plateNames);
    expect(plane(found, 'top face').offset).toBeCloseTo(12, 6);
    expect(plane(found, 'left face').normal).toEqual([-1, 0, 0]);
    expect(plane(found, 'face up at 4').area).toBeCloseTo(Math.PI * 36, 0);
    const through = cylinder(found, 'bore at 12, 30');
    expect(2 * through.radius).toBeCloseTo(8, 4);
    expect(through).toMatchObject({ form: 'bore', along: 'z', through: true });
    expect(through.extent[0]).toBeCloseTo(0, 5);
    expect(through.extent[1]).toBeCloseTo(12, 5);
    const blind = cylinder(found, 'bore at 60, 20');
    expect(2 * blind.radius).toBeCloseTo(12, 4);
    expect(blind.through).toBe(false);
    expect(blind.centre[2]).toBeCloseTo(8, 5);
  });

  it('every triangle belongs to one surface', () => {
    const mesh = plate(kernel);
    const all = findSurfaces(mesh).flatMap((s) => [...s.triangles]);
    expect(all.sort((a, b) => a - b)).toEqual([...Array(mesh.triangles.length / 3).keys()]);
  });

  it('the same from shuffled triangles', () => {
    const mesh = plate(kernel);
    const [before, other] = [findSurfaces(mesh), shuffled(mesh, 5)];
    const after = findSurfaces(other.mesh);
    expect(names(after)).toEqual(names(before));
    for (const surface of after) {
      const back = [...surface.triangles].map((f) => other.order[f]!).sort((a, b) => a - b);
      expect(back).toEqual([...named(before, surface.name).triangles]);
    }
  });

  it('the same divided: points on the chords do not shrink the bore', () => {
    const found = findSurfaces(refined(plate(kernel), 2));
    expect(names(found)).toEqual(plateNames);
    expect(2 * cylinder(found, 'bore at 12, 30').radius).toBeCloseTo(8, 4);
    expect(2 * cylinder(found, 'bore at 60, 20').radius).toBeCloseTo(12, 4);
  });

  it('as a scan with noise of 0.02 mm', () => {
    const exact = findSurfaces(plate(kernel));
    const found = findSurfaces(scanned(refined(plate(kernel), 2.5), 0.02, 3));
    const large = found.filter((s) => s.area > 5);
    expect(names(large)).toEqual(plateNames);
    for (const surface of large) {
      expect(surface.area).toBeGreaterThan(0.97 * named(exact, surface.name).area);
      expect(surface.error.rms).toBeGreaterThan(0.017);
      expect(surface.error.rms).toBeLessThan(0.024);
    }
    // By least squares the bore goes through the chords' middles as well: its sagitta is 0.01.
    expect(Math.abs(cylinder(found, 'bore at 12, 30').radius - 4)).toBeLessThan(0.012);
    expect(Math.abs(cylinder(found, 'bore at 60, 20').radius - 6)).toBeLessThan(0.012);
    expect(plane(found, 'top face').offset).toBeCloseTo(12, 2);
  });

  it('named in inches where the job is', () => {
    const inches = moved(plate(kernel), ([x, y, z]) => [x * 1.27, y * 1.27, z * 1.27]);
    expect(names(findSurfaces(inches, 'in'))).toContain('bore at 0.6, 1.5');
  });
});

describe('turned at random', () => {
  it('a tube: two rings and two cylinders, at any angle and place', () => {
    const tube = kernel.scope(() =>
      kernel
        .frustum([0, 0], 0, 15, 40, 15, 0.01)
        .subtract(kernel.frustum([0, 0], -1, 9.5, 41, 9.5, 0.01))
        .mesh(),
    );
    const next = chance(11);
    for (let run = 0; run < 12; run++) {
      const q = [next() - 0.5, next() - 0.5, next() - 0.5, next() - 0.5] as const;
      const length = Math.hypot(...q);
      const rotate = turn([q[0] / length, q[1] / length, q[2] / length, q[3] / length]);
      const shift: Vec3 = [200 * next(), -100 * next(), 50 * next()];
      const found = findSurfaces(
        moved(tube, (p) => rotate(p).map((v, k) => v + shift[k]!) as unknown as Vec3),
      );
      expect(found.map((s) => (s.kind === 'plane' ? 'face' : s.form)).sort()).toEqual([
        'bore',
        'boss',
        'face',
        'face',
      ]);
      const axis = rotate([0, 0, 1]);
      const middle = rotate([0, 0, 20]).map((v, k) => v + shift[k]!);
      for (const s of found) {
        if (s.kind === 'plane') {
          expect(Math.abs(s.normal.reduce((sum, v, k) => sum + v * axis[k]!, 0))).toBeCloseTo(1, 8);
          continue;
        }
        expect(s.radius).toBeCloseTo(s.form === 'bore' ? 9.5 : 15, 3);
        expect(Math.abs(s.direction.reduce((sum, v, k) => sum + v * axis[k]!, 0))).toBeCloseTo(1, 8);
        s.centre.forEach((v, k) => {
          expect(v).toBeCloseTo(middle[k]!, 3);
        });
        expect(s.extent[1] - s.extent[0]).toBeCloseTo(40, 3);
      }
    }
  });

  it('a box keeps its areas and has six faces only', () => {
    const box = kernel.scope(() => kernel.box([0, 0, 0], [30, 20, 7]).mesh());
    const next = chance(2);
    for (let run = 0; run < 20; run++) {
      const q = [next() - 0.5, next() - 0.5, next() - 0.5, next() - 0.5] as const;
      const length = Math.hypot(...q);
      const rotate = turn([q[0] / length, q[1] / length, q[2] / length, q[3] / length]);
      const found = findSurfaces(moved(box, rotate));
      expect(found.every((s) => s.kind === 'plane')).toBe(true);
      expect(found.map((s) => Math.round(s.area)).sort((a, b) => a - b)).toEqual([
        140, 140, 210, 210, 600, 600,
      ]);
      expect(new Set(names(found)).size).toBe(6);
    }
  });

  it('a hull of two discs: flat sides and rounded ends, which are rounds and no bosses', () => {
    const hull = kernel.scope(() =>
      kernel
        .hull([kernel.frustum([0, 0], 0, 8, 6, 8, 0.005), kernel.frustum([40, 0], 0, 8, 6, 8, 0.005)])
        .mesh(),
    );
    const found = findSurfaces(hull);
    expect(names(found)).toEqual([
      'back face',
      'bottom face',
      'front face',
      'round at 0, 0',
      'round at 40, 0',
      'top face',
    ]);
    expect(cylinder(found, 'round at 0, 0').radius).toBeCloseTo(8, 4);
    expect(cylinder(found, 'round at 40, 0').sweep).toBeCloseTo(Math.PI, 1);
  });
});

describe('what is no plane or cylinder', () => {
  const shares = (mesh: Mesh): number => {
    const found = findSurfaces(mesh);
    const whole = mesh.triangles.length / 3;
    return found.reduce((s, f) => s + f.triangles.length, 0) / whole;
  };

  it('a sphere and a torus have none', () => {
    expect(findSurfaces(kernel.scope(() => kernel.sphere([0, 0, 0], 20, 0.01).mesh()))).toEqual([]);
    const torus = kernel.scope(() =>
      kernel
        .revolve(
          Array.from({ length: 48 }, (_, i) => {
            const angle = (2 * Math.PI * i) / 48;
            return [30 + 5 * Math.cos(angle), 5 * Math.sin(angle)] as const;
          }),
          0.01,
        )
        .mesh(),
    );
    expect(findSurfaces(torus)).toEqual([]);
  });

  it('a cone: its base alone, however slight the taper', () => {
    for (const top of [5, 9, 9.7]) {
      const cone = kernel.scope(() => kernel.frustum([0, 0], 0, 10, 20, top, 0.01).mesh());
      expect(names(findSurfaces(cone))).toEqual(['bottom face', 'top face']);
    }
  });

  it('hexagon and octagon are flats', () => {
    for (const sides of [6, 8]) {
      const prism = kernel.scope(() =>
        kernel
          .extrude(
            [
              Array.from({ length: sides }, (_, i) => {
                const angle = (2 * Math.PI * (i + 0.5)) / sides;
                return [10 * Math.cos(angle), 10 * Math.sin(angle)] as const;
              }),
            ],
            0,
            20,
          )
          .mesh(),
      );
      const found = findSurfaces(prism);
      expect(found.length).toBe(sides + 2);
      expect(found.every((s) => s.kind === 'plane')).toBe(true);
    }
  });

  it('the bunny: trifles at most', async () => {
    const { default: bunny } = (await import('bunny' as string)) as {
      default: { positions: number[][]; cells: number[][] };
    };
    const mesh: Mesh = {
      positions: Float32Array.from(bunny.positions.flat(), (v) => 10 * v),
      triangles: Uint32Array.from(bunny.cells.flat()),
    };
    expect(shares(mesh)).toBeLessThan(0.005);
    expect(findSurfaces(mesh).some((s) => s.kind === 'cylinder')).toBe(false);
  });

  it('nothing, and what is not closed, give what they have', () => {
    expect(findSurfaces({ positions: new Float32Array(), triangles: new Uint32Array() })).toEqual([]);
    const open = plate(kernel);
    const found = findSurfaces({ ...open, triangles: open.triangles.slice(0, -30) });
    expect(found.length).toBeGreaterThan(5);
  });
});

describe('our own parts', () => {
  it('a spur gear: bore, side faces, and the tips as one boss', () => {
    const found = findSurfaces(partMesh(kernel, spur, { module: 2, teeth: 24, faceWidth: 16, bore: 12 }));
    expect(2 * cylinder(found, 'bore at 0, 0').radius).toBeCloseTo(12, 4);
    expect(plane(found, 'top face').offset - -plane(found, 'bottom face').offset).toBeCloseTo(16, 5);
    // Tip diameter of a gear without shift: m (z + 2), ISO 21771.
    expect(2 * cylinder(found, 'boss at 0, 0').radius).toBeCloseTo(52, 3);
  });

  it('a helical gear has no cylinder but its bore', () => {
    const found = findSurfaces(partMesh(kernel, helical));
    expect(names(found)).toEqual(['bore at 0, 0', 'bottom face', 'top face']);
  });

  it('a leaf of a butt hinge: bore and barrel about one axis, countersunk screw holes', () => {
    const found = findSurfaces(partMesh(kernel, butt));
    const bores = found.filter((s) => s.kind === 'cylinder' && s.form === 'bore');
    expect(bores.length).toBe(4);
    const pin = bores[0] as CylinderSurface;
    const barrel = found.find((s) => s.kind === 'cylinder' && s.form === 'boss') as CylinderSurface;
    expect(pin.along).toBe('y');
    expect(pin.centre[2]).toBeCloseTo(barrel.centre[2], 4);
    expect(pin.through).toBe(true);
  });

  it('names are unique on all of them', () => {
    for (const part of [knob, strap, gudgeon, jamCleat]) {
      const found = names(findSurfaces(partMesh(kernel, part as PartDefinition)));
      expect(new Set(found).size).toBe(found.length);
      expect(found.length).toBeGreaterThan(4);
    }
  });
});
