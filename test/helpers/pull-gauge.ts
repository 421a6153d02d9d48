import { areaOf, encloses, type Flat, horizontal, type Loop, lengthwise, section } from './sections.js';
import { boxOf, type WeldedMesh } from './welded-mesh.js';

/**
 * Measures a hatch pull on the triangles of its file: eye about the Z axis, tab towards −X, pin along Y, show face
 * down. Keys are the symbols of the inspection sheet; lip sizes are left out where there is no lip.
 */
export function measurePull(mesh: WeldedMesh): Readonly<Record<string, number>> {
  const { min, max } = boxOf(mesh) as { min: [number, number, number]; max: [number, number, number] };
  const points: [number, number, number][] = [];
  for (let i = 0; i < mesh.points.length; i += 3) {
    points.push([mesh.points[i] as number, mesh.points[i + 1] as number, mesh.points[i + 2] as number]);
  }
  const spread = (loop: Loop, axis: 0 | 1): readonly [number, number] => {
    const values = loop.map((q) => q[axis]);
    return [Math.min(...values), Math.max(...values)];
  };
  const width = ([from, to]: readonly [number, number]): number => to - from;

  const middle = section(mesh, horizontal((min[2] + max[2]) / 2 + 1e-4));
  const eye = middle.find((loop) => areaOf(loop) < 0 && encloses(loop, [0, 0])) as Loop;
  const rim = middle.find((loop) => areaOf(loop) > 0 && encloses(loop, [0, 0])) as Loop;
  const [eyeX, eyeY] = [spread(eye, 0), spread(eye, 1)];
  const tabSide = sideOfTab(middle, eyeX[0]);
  const pin = pinIn(mesh, tabSide, min[0]);

  const edge = (z: number): number =>
    max[0] - Math.max(...points.filter((p) => Math.abs(p[2] - z) < 1e-5).map(([x]) => x));
  const behind = points.filter(([x]) => x < pin.x);
  const lip = lipOf(mesh, max[0] - edge(max[2]));
  return {
    l: max[0] - min[0],
    b: max[1] - min[1],
    t: max[2] - min[2],
    w_e: width(eyeY),
    l_e: width(eyeX),
    b_r: max[1] - eyeY[1],
    c: edge(min[2]),
    b_t: 2 * tabSide,
    d_h: pin.diameter,
    a_p: eyeX[0] - pin.x,
    e_p: pin.x - min[0],
    r_s: Math.max(...behind.map(([x, , z]) => Math.hypot(x - pin.x, z - pin.z))),
    r_f: insideCornerRadius(rim),
    ...(lip === null
      ? {}
      : {
          θ_l: lip.angle,
          l_l: edge(max[2]),
          t_l: lip.heightAt(max[0]) - min[2],
        }),
  };
}

/** The pin's hole where it runs through, or the dimples for the drill, seen from the side. */
function pinIn(mesh: WeldedMesh, tabSide: number, tabEnd: number) {
  const hole = (y: number): Loop | undefined =>
    section(mesh, lengthwise(y)).find((loop) => areaOf(loop) < 0 && loop.every(([x]) => x > tabEnd && x < 0));
  const through = hole(1e-4);
  const loop = through ?? hole(tabSide - 0.3);
  if (!loop) throw new Error('neither hole nor dimple in the tab');
  const box = [0, 1].map((k) => {
    const values = loop.map((q) => q[k as 0 | 1]);
    return [Math.min(...values), Math.max(...values)] as const;
  }) as [readonly [number, number], readonly [number, number]];
  return {
    x: (box[0][0] + box[0][1]) / 2,
    z: (box[1][0] + box[1][1]) / 2,
    diameter: through ? box[0][1] - box[0][0] : 0,
  };
}

/** The largest flat, sloping, upward surface beyond the underside's flat. */
function lipOf({ points: p, triangles }: WeldedMesh, flatEnd: number) {
  const byNormal = new Map<string, { area: number; n: [number, number, number]; d: number }>();
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * (triangles[t + k] as number)) as [number, number, number];
    if (Math.min(p[a] as number, p[b] as number, p[c] as number) < flatEnd - 1e-3) continue;
    const [u, v] = [b, c].map((q) => [0, 1, 2].map((k) => (p[q + k] as number) - (p[a + k] as number))) as [
      [number, number, number],
      [number, number, number],
    ];
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as [
      number,
      number,
      number,
    ];
    const twice = Math.hypot(...n);
    const unit = n.map((x) => x / twice) as [number, number, number];
    if (!(twice > 1e-3) || unit[2] < 0.5 || unit[2] > 0.999 || Math.abs(unit[1]) > 1e-3) continue;
    const key = unit[2].toFixed(3);
    const seen = byNormal.get(key) ?? { area: 0, n: unit, d: 0 };
    if (twice > seen.area) {
      const d = unit[0] * (p[a] as number) + unit[1] * (p[a + 1] as number) + unit[2] * (p[a + 2] as number);
      byNormal.set(key, { area: twice, n: unit, d });
    }
  }
  const [plane] = [...byNormal.values()].sort((a, b) => b.area - a.area);
  if (!plane) return null;
  const { n, d } = plane;
  return { angle: Math.acos(n[2]), heightAt: (x: number): number => (d - n[0] * x) / n[2] };
}

/** Half the distance between the tab's sides: the straight runs of the outline along the pull. */
function sideOfTab(loops: readonly Loop[], eyeEnd: number): number {
  let [longest, at] = [0, Number.NaN];
  for (const loop of loops) {
    loop.forEach(([x, y], i) => {
      const [u, v] = loop[(i + 1) % loop.length] as Flat;
      if (Math.abs(v - y) > 1e-5 || Math.max(x, u) > eyeEnd || Math.abs(u - x) <= longest) return;
      [longest, at] = [Math.abs(u - x), Math.abs(y)];
    });
  }
  return at;
}

/** Turn of an outline at one of its points, radians, positive to the left. */
function turnAt(loop: Loop, i: number): number {
  const [before, at, after] = [loop.at(i - 1), loop[i], loop[(i + 1) % loop.length]] as [Flat, Flat, Flat];
  const [u, v] = [at[0] - before[0], at[1] - before[1]];
  const [s, t] = [after[0] - at[0], after[1] - at[1]];
  return Math.atan2(u * t - v * s, u * s + v * t);
}

/** Radius of the hollow corner between tab and rim: a circle through three points where the outline turns right. */
function insideCornerRadius(loop: Loop): number {
  const outline = loop.filter((_, i) => Math.abs(turnAt(loop, i)) > 1e-3);
  const isHollow = outline.map((q, i) => q[1] < 0 && turnAt(outline, i) < 0);
  // The farthest run of such points: the notch of a drill dimple is a short one.
  const reach = (points: readonly Flat[]): number =>
    points.length < 4 ? 0 : Math.hypot(...([0, 1] as const).map((k) => points.at(-1)![k] - points[0]![k]));
  let [run, longest]: [Flat[], Flat[]] = [[], []];
  outline.forEach((q, i) => {
    run = isHollow[i] ? [...run, q] : [];
    if (reach(run) > reach(longest)) longest = run;
  });
  // Its ends may belong to what runs into the corner.
  const [a, b, c] = [1, 2, 3].map((k) => longest[Math.floor((k / 4) * longest.length)]) as [Flat, Flat, Flat];
  const side = (p: Flat, q: Flat): number => Math.hypot(p[0] - q[0], p[1] - q[1]);
  return (side(a, b) * side(b, c) * side(c, a)) / (4 * Math.abs(areaOf([a, b, c])));
}
