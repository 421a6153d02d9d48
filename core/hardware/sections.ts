/** Cross-sections as beams see them. mm; a moment bends about the axis of `width`, through `height`. */

import { maths } from '../maths/maths.js';

export interface Section {
  /** mm² */
  readonly area: number;
  /** Second moment of area, mm⁴. */
  readonly inertia: number;
  /** Section modulus, mm³. */
  readonly modulus: number;
  /** Largest shear stress over V / area: 3/2 for a rectangle, 4/3 for an ellipse, up to 2 for a thin tube. */
  readonly shearFactor: number;
}

/** Of a rectangle (Gere, Mechanics of Materials: I = b h³/12; from memory, as the others here). */
export const rectangleSection = (width: number, height: number): Section => ({
  area: width * height,
  inertia: (width * maths.pow(height, 3)) / 12,
  modulus: (width * height ** 2) / 6,
  shearFactor: 1.5,
});

/** Of an ellipse: I = π b h³/64. */
export const ellipseSection = (width: number, height: number): Section => ({
  area: (Math.PI / 4) * width * height,
  inertia: (Math.PI / 64) * width * maths.pow(height, 3),
  modulus: (Math.PI / 32) * width * height ** 2,
  shearFactor: 4 / 3,
});

export const roundSection = (diameter: number): Section => ellipseSection(diameter, diameter);

/** Of a round tube; its shear factor 4/3 (r₂² + r₂ r₁ + r₁²)/(r₂² + r₁²). */
export function tubeSection(outside: number, inside: number): Section {
  const area = (Math.PI / 4) * (outside ** 2 - inside ** 2);
  const inertia = (Math.PI / 64) * (maths.pow(outside, 4) - maths.pow(inside, 4));
  const [a, b] = [outside / 2, inside / 2];
  return {
    area,
    inertia,
    modulus: (2 * inertia) / outside,
    shearFactor: (4 / 3) * ((a * a + a * b + b * b) / (a * a + b * b)),
  };
}

/**
 * Of a superellipse |2x/w|ⁿ + |2y/h|ⁿ = 1, n ≥ 1: n 2 the ellipse, larger ones ever squarer. In closed form by the
 * gamma function (Gauss): A = w h Γ(1+1/n)²/Γ(1+2/n), I = w h³/4 · Γ(1+1/n) Γ(1+3/n)/(3 Γ(1+4/n)). The shear factor is the rectangle's 3/2,
 * which is on the safe side.
 */
export function superellipseSection(width: number, height: number, exponent: number): Section {
  const g = (k: number): number => gamma(1 + k / exponent);
  const area = (width * height * g(1) ** 2) / g(2);
  const inertia = (width * maths.pow(height, 3) * g(1) * g(3)) / (12 * g(4));
  return { area, inertia, modulus: (2 * inertia) / height, shearFactor: 1.5 };
}

/** Γ(x), x > 0, by Lanczos' approximation (g 7, 9 terms; Numerical Recipes, 6.1), relative error under 1e-13. */
function gamma(x: number): number {
  const terms = [
    676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
    -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
  ];
  const z = x - 1;
  const t = z + 7.5;
  const sum = terms.reduce((total, c, i) => total + c / (z + i + 1), 0.99999999999980993);
  return Math.sqrt(2 * Math.PI) * maths.pow(t, z + 0.5) * maths.exp(-t) * sum;
}

/**
 * Stress of a bent curved bar over that of a straight one, at the inside and the outside (Winkler and Bach; Shigley,
 * 3-18, from memory): σ = M y / (A e (r_n − y)), the neutral radius r_n = A / ∫dA/r.
 * @param shape rectangle, or ellipse (round bars too): the breadth across the bend does not matter for the factor
 * @param height section's height in the plane of the bend, mm
 * @param radius of the centre line, mm, over height / 2
 * @throws RangeError for a sharper bend: the bar would pass through its own centre
 */
export function curvedBarFactors(
  shape: 'rectangle' | 'ellipse',
  height: number,
  radius: number,
): { readonly inside: number; readonly outside: number; readonly neutralRadius: number } {
  const half = height / 2;
  if (!(radius > half)) {
    throw new RangeError(`centre line radius ${radius} mm; it must be over ${half} mm, half the section`);
  }
  const e = shape === 'rectangle' ? rectangleShift(half, radius) : ellipseShift(half, radius);
  const neutralRadius = radius - e;
  // Straight bar: M y / I, with I / A of the shape.
  const gyration = height ** 2 / (shape === 'rectangle' ? 12 : 16);
  const over = (r: number): number => ((Math.abs(neutralRadius - r) / (e * r)) * gyration) / half;
  return { inside: over(radius - half), outside: over(radius + half), neutralRadius };
}

/** Centre line less neutral radius. Ellipse: r_n = (R + √(R² − c²))/2, which is A/∫dA/r freed of its cancellation. */
const ellipseShift = (half: number, radius: number): number =>
  half ** 2 / (2 * (radius + Math.sqrt(radius ** 2 - half ** 2)));

/** Rectangle: r_n = c / artanh(c/R); by its series where the bend is so slight that the digits would cancel. */
function rectangleShift(half: number, radius: number): number {
  const x = half / radius;
  return radius * (x < 1e-3 ? x ** 2 / 3 + (4 * maths.pow(x, 4)) / 45 : 1 - x / maths.atanh(x));
}
