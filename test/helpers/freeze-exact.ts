/** Exact solutions of conduction and freezing (H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids). */

const { PI, abs, cos, exp, sin, sinh, sqrt } = Math;

/** ∫ over 0 to `to` by Simpson's rule. */
export function integrate(f: (x: number) => number, to: number, pieces = 400): number {
  let sum = f(0) + f(to);
  for (let i = 1; i < pieces; i++) sum += (i % 2 === 1 ? 4 : 2) * f((i * to) / pieces);
  return (sum * to) / pieces / 3;
}

/** Its Maclaurin series near 0, its continued fraction farther out (Abramowitz and Stegun 7.1.5, 7.1.14). */
export function erfc(x: number): number {
  if (x < 0) return 2 - erfc(-x);
  if (x < 2) {
    let [term, sum] = [x, x];
    for (let n = 1; abs(term) > 1e-17; n++) {
      term *= (-x * x) / n;
      sum += term / (2 * n + 1);
    }
    return 1 - (2 / sqrt(PI)) * sum;
  }
  let tail = 0;
  for (let n = 60; n > 0; n--) tail = n / 2 / (x + tail);
  return exp(-x * x) / sqrt(PI) / (x + tail);
}
export const erf = (x: number): number => 1 - erfc(x);

/** Bessel's functions of order 0 (Abramowitz and Stegun 9.1.18, 9.1.22). */
export const bessel0 = (x: number): number => integrate((t) => cos(x * sin(t)), PI) / PI;
export const neumann0 = (x: number): number =>
  integrate((t) => sin(x * sin(t)), PI) / PI - (2 / PI) * integrate((t) => exp(-x * sinh(t)), 12, 2000);

/** Where a rising or falling f is 0 between two places. */
export function rootBetween(f: (x: number) => number, low: number, high: number): number {
  const sign = Math.sign(f(low));
  let [a, b] = [low, high];
  for (let i = 0; i < 100; i++) {
    const m = (a + b) / 2;
    if (Math.sign(f(m)) === sign) a = m;
    else b = m;
  }
  return (a + b) / 2;
}

/** W/(mm·K), J/(mm³·K). */
export interface Plain {
  readonly conductivity: number;
  readonly capacity: number;
}
export const diffusivity = ({ conductivity, capacity }: Plain): number => conductivity / capacity;
export const effusivity = ({ conductivity, capacity }: Plain): number => sqrt(conductivity * capacity);

interface Freezing {
  readonly solid: Plain;
  readonly liquid: Plain;
  /** J/mm³ */
  readonly latent: number;
  /** °C: of melting, and of the liquid far off. */
  readonly melting: number;
  readonly poured: number;
}

/** Heat that the front draws from superheated liquid, over that of latent heat: the same in every such problem. */
const drawn = ({ solid, liquid, melting, poured }: Freezing, lambda: number): number => {
  const v = sqrt(diffusivity(solid) / diffusivity(liquid));
  return (
    (effusivity(liquid) * (poured - melting) * exp(-((lambda * v) ** 2))) / (sqrt(PI) * erfc(lambda * v))
  );
};
const released = ({ solid, latent }: Freezing, lambda: number): number =>
  lambda * latent * sqrt(diffusivity(solid));

/** Neumann's λ for a surface held at `wall`, °C: the front stands at 2 λ √(α t) (Carslaw and Jaeger, ch. XI). */
export const neumannRoot = (f: Freezing, wall: number): number =>
  rootBetween(
    (x) =>
      (effusivity(f.solid) * (f.melting - wall) * exp(-x * x)) / (sqrt(PI) * erf(x)) -
      drawn(f, x) -
      released(f, x),
    1e-6,
    5,
  );

/** The same with a mould that reaches far, at `start` °C at first (C. Schwarz, 1931; Carslaw and Jaeger, ch. XI); the face's °C. */
export function schwarzRoot(f: Freezing, mould: Plain, start: number): { root: number; face: number } {
  const ratio = effusivity(mould) / effusivity(f.solid);
  const root = rootBetween(
    (x) =>
      (effusivity(mould) * (f.melting - start) * exp(-x * x)) / (sqrt(PI) * (1 + ratio * erf(x))) -
      drawn(f, x) -
      released(f, x),
    1e-9,
    5,
  );
  return { root, face: start + (f.melting - start) / (1 + ratio * erf(root)) };
}

/**
 * λ of the solidus' place 2 λ √(α t) where latent heat comes out evenly over a range, which is a third substance, the
 * metal at first at the liquidus (Carslaw and Jaeger, § 11.2: freezing over a range of temperatures).
 */
export const rangeRoot = (
  solid: Plain,
  mushy: Plain,
  [wall, solidus, liquidus]: readonly [number, number, number],
): number =>
  rootBetween(
    (x) => {
      const v = sqrt(diffusivity(solid) / diffusivity(mushy));
      return (
        (effusivity(solid) * (solidus - wall) * exp(-x * x)) / erf(x) -
        (effusivity(mushy) * (liquidus - solidus) * exp(-((x * v) ** 2))) / erfc(x * v)
      );
    },
    1e-6,
    5,
  );

/** J/(mm²·K) that an unbounded mould takes in from a face held 1 K over it, by its shape; radius mm (Carslaw and Jaeger, §§ 2.4, 9.10, 13.5). */
export function takenIn(
  mould: Plain,
  shape: 'plate' | 'cylinder' | 'sphere',
  radius: number,
  t: number,
): number {
  const flat = 2 * effusivity(mould) * sqrt(t / PI);
  if (shape === 'plate') return flat;
  if (shape === 'sphere') return flat + (mould.conductivity * t) / radius;
  // Jaeger's integral of exp(−τu²)/(u (J0² + Y0²)), in ln u, taken over the time as well.
  const tau = (diffusivity(mould) * t) / radius ** 2;
  const step = (logTo - logFrom) / crossSizes.length;
  let sum = 0;
  for (const [i, size] of crossSizes.entries()) {
    const u = exp(logFrom + (i + 0.5) * step);
    sum += (-Math.expm1(-tau * u * u) / (u * u) / size) * step;
  }
  // Nearer 0 than that J0 is 1 and Y0 (2/π)(ln u/2 + γ).
  sum += tau * (PI / 2) * (PI / 2 + Math.atan((2 / PI) * (logFrom - Math.LN2 + 0.5772156649)));
  return (4 / PI ** 2) * sum * mould.capacity * radius;
}

const [logFrom, logTo] = [-14, 8];
/** J0² + Y0² at places even in ln u; far out it is 2/(πu). */
const crossSizes = Float64Array.from({ length: 500 }, (_, i) => {
  const u = exp(logFrom + ((i + 0.5) * (logTo - logFrom)) / 500);
  return u > 30 ? 2 / (PI * u) : bessel0(u) ** 2 + neumann0(u) ** 2;
});
