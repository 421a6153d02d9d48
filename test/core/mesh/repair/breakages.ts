import type { ExactMesh, Mesh } from '../../../../core/solid/types.js';

export type Corner = readonly [number, number, number];
export type Soup = readonly (readonly [Corner, Corner, Corner])[];

/** The triangles, each with corners of its own. */
export function soupOf({ positions: p, triangles: t }: Mesh | ExactMesh): Soup {
  const corner = (i: number): Corner => {
    const v = 3 * (t[i] as number);
    return [p[v] as number, p[v + 1] as number, p[v + 2] as number];
  };
  return Array.from({ length: t.length / 3 }, (_, f) => [
    corner(3 * f),
    corner(3 * f + 1),
    corner(3 * f + 2),
  ]);
}

export function meshOfSoup(soup: Soup): ExactMesh {
  return {
    positions: Float64Array.from(soup.flat(2)),
    triangles: Uint32Array.from({ length: 3 * soup.length }, (_, i) => i),
  };
}

/** So many different places among `count`. */
function pick(count: number, some: number, random: () => number): Set<number> {
  const found = new Set<number>();
  for (let i = 0; i < some; i++) found.add(Math.floor(random() * count));
  return found;
}

/** Turns some triangles over. */
export function flip(soup: Soup, some: number, random: () => number): Soup {
  const chosen = pick(soup.length, some, random);
  return soup.map((triangle, f) => (chosen.has(f) ? [triangle[0], triangle[2], triangle[1]] : triangle));
}

export const turnAll = (soup: Soup): Soup => soup.map(([a, b, c]) => [a, c, b]);

/** Adds copies of some triangles, every other one turned over. */
export function duplicate(soup: Soup, some: number, random: () => number): Soup {
  const copies = [...pick(soup.length, some, random)].map((f, i) => {
    const [a, b, c] = soup[f] as Soup[number];
    return i % 2 === 0 ? ([b, c, a] as const) : ([a, c, b] as const);
  });
  return [...soup, ...copies];
}

/** Adds triangles without area: two corners in one place. */
export function collapse(soup: Soup, some: number, random: () => number): Soup {
  const made = [...pick(soup.length, some, random)].map((f) => {
    const [a, b] = soup[f] as Soup[number];
    return [a, b, b] as const;
  });
  return [...soup, ...made];
}

/** Moves every corner a little, each for itself. */
export const shake = (soup: Soup, by: number, random: () => number): Soup =>
  soup.map(
    (triangle) =>
      triangle.map((corner) => corner.map((v) => v + (2 * random() - 1) * by)) as unknown as Soup[number],
  );

/** Takes out some triangles no two of which share a corner, of those that may go. */
export function open(
  soup: Soup,
  some: number,
  random: () => number,
  mayGo: (f: number) => boolean,
): { readonly soup: Soup; readonly opened: number } {
  const gone = new Set<number>();
  const used = new Set<string>();
  for (const f of pick(soup.length, some, random)) {
    const keys = (soup[f] as Soup[number]).map((corner) => corner.join());
    if (!mayGo(f) || keys.some((key) => used.has(key))) continue;
    for (const key of keys) used.add(key);
    gone.add(f);
  }
  return { soup: soup.filter((_, f) => !gone.has(f)), opened: gone.size };
}

/** Cuts some triangles in two at the middle of a side, their neighbours not: cracks without width. */
export function crack(soup: Soup, some: number, random: () => number): Soup {
  const chosen = pick(soup.length, some, random);
  return soup.flatMap((triangle, f): Soup => {
    if (!chosen.has(f)) return [triangle];
    const [a, b, c] = triangle;
    const m: Corner = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
    return [
      [a, m, c],
      [m, b, c],
    ];
  });
}

/** In another order, each triangle begun at another corner. */
export function shuffle(soup: Soup, random: () => number): Soup {
  return soup
    .map((triangle) => ({ triangle, key: random() }))
    .sort((a, b) => a.key - b.key)
    .map(({ triangle: [a, b, c], key }) => (key < 0.5 ? [a, b, c] : [b, c, a]));
}
