import { offsetMesh } from '../../core/mesh/offset/index.js';
import type { BuildKit } from '../../core/part/contract.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { SolidError } from '../../core/solid/errors.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import { formatNumber } from '../../core/units/index.js';
import type { PreparedMesh } from './prepare.js';
import { asDrawn } from './stand-up.js';

/** Finer than any stock that can be filed off, mm. */
const finest = 0.02;

/** So little off is rounding, mm. */
const exact = 1e-3;

/** Off by more than this share of what was to be put on, the casting is to be measured there. */
const worthTelling = 0.5;

/** Off by more than this share of it on average, the surface has not got it. */
const missing = 0.1;

export type WithStock =
  | { readonly ok: true; readonly mesh: Mesh; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** The mesh with its surfaces moved outward, mm a triangle, and how true that came out; or why it cannot be had. */
export function giveStock(
  { mesh, turned }: PreparedMesh & { readonly ok: true },
  amounts: Float64Array,
  { kernel, tolerance }: BuildKit,
): WithStock {
  if (amounts.every((amount) => amount === 0)) return { ok: true, mesh, findings: [] };
  const most = amounts.reduce((a, b) => Math.max(a, Math.abs(b)), 0);
  const inward = amounts.reduce((a, b) => Math.max(a, -b), 0);
  if (inward > 0 && amounts.some((amount) => amount > 0))
    return refused(
      'stock-both-ways',
      `some surfaces are marked to move inward, by up to ${mm(inward)}, and others move outward`,
      'give all of them 0 or more, or everything less than 0',
    );
  let moved: ReturnType<typeof offsetMesh>;
  try {
    moved = offsetMesh(kernel, mesh, amounts, { tolerance: Math.min(tolerance, finest) });
  } catch (error) {
    if (!(error instanceof SolidError && error.code === 'empty-result')) throw error;
    return refused('nothing-left', `moved inward by ${mm(most)}, nothing of it is left`, 'move it less');
  }
  const { max, mean, at, samples, apart, bevelled, joined, short } = moved.error;
  const place = asDrawn(turned, at)
    .map((v) => formatNumber(v, { digits: 1 }))
    .join(', ');
  if (mean > missing * most)
    return refused(
      'stock-not-made',
      `${mm(most)} could not be put on its surface: it is off by ${mm(mean)} on average, by ${mm(max)} near ${place} mm as drawn`,
      'give less stock, or round the places that are narrower than it',
    );
  if ((apart > 0 || short > 0) && !isCarried(moved.mesh, kernel))
    return refused(
      'stock-not-made',
      `${mm(most)} of stock folds the surface where it is creased or narrow, worst near ${place} mm as drawn: no sound casting comes of it`,
      'give less stock, or round the places that are narrower than it',
    );
  const told =
    max < exact
      ? `The surface with its stock is exact to ${mm(exact)}, measured at ${samples} points`
      : `The surface with its stock was measured at ${samples} points: off by ${mm(mean)} on average, by ${mm(max)} at most, near ${place} mm as drawn`;
  const findings = [
    max > Math.max(tolerance, worthTelling * most)
      ? warn('stock-off', told, `Up to ${mm(most)} was to be put on: measure the casting there.`)
      : note('stock-error', told, max > tolerance ? 'Look at that place on the casting.' : 'Nothing to do.'),
    ...(short > 0
      ? [
          note(
            'stock-held-back',
            `at ${count(short, 'corner')} of creases narrower than the stock less was put on, so that the surface does not fold`,
            'smooth the scan there, or mark the surface with less stock',
          ),
        ]
      : []),
    ...(bevelled > 0
      ? [
          note(
            'edges-cut-off',
            `${count(bevelled, 'edge')} so sharp that stock is cut off there before it comes to a point`,
            'file them to the edge of the finished part',
          ),
        ]
      : []),
    ...(joined > 0
      ? [
          note(
            'stock-joined',
            `in narrow places the stock of facing surfaces meets: ${count(joined, 'triangle')}`,
            'look at the casting there: what closes up is cut open in the metal',
          ),
        ]
      : []),
  ];
  return { ok: true, mesh: moved.mesh, findings };
}

/** Whether the kernel gives a mesh back sound: one whose surfaces come too near each other it does not. */
function isCarried(mesh: Mesh, kernel: Kernel): boolean {
  try {
    kernel.scope(() => kernel.fromMesh(mesh).mesh());
    return true;
  } catch (error) {
    if (!(error instanceof SolidError)) throw error;
    return false;
  }
}

const refused = (code: string, message: string, remedy: string): WithStock => ({
  ok: false,
  findings: [stop(code, message, remedy, 'marks')],
});

const mm = (value: number): string => `${formatNumber(value, { digits: 4 })} mm`;
const count = (n: number, one: string): string => (n === 1 ? `1 ${one}` : `${n} ${one}s`);
