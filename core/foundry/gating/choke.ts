/**
 * Flow down a sprue: Torricelli and continuity.
 * Sources: M. P. Groover, Fundamentals of Modern Manufacturing, ch. 10 (v = √(2gh), Q = vA, T = V/Q); P. N. Rao,
 * Manufacturing Technology: Foundry, Forming and Welding (choke area, effective head, taper).
 * mm, mm², mm³, g, s; density g/mm³.
 */

/** Standard gravity, mm/s² (exact, CGPM 1901). */
export const standardGravity = 9806.65;

/** Pressure of a column of liquid, MPa: p = ρ g h. @param head mm @param density g/mm³ */
export const columnPressure = (head: number, density: number): number =>
  head * density * standardGravity * 1e-6;

/** Velocity of a stream that has fallen `head` mm, mm/s: √(2 g h). */
export const fallVelocity = (head: number, gravity = standardGravity): number =>
  Math.sqrt(2 * gravity * head);

/** The fall that gives `velocity`, mm: v²/(2 g). */
export const fallHeight = (velocity: number, gravity = standardGravity): number =>
  velocity ** 2 / (2 * gravity);

/**
 * Head that acts on the choke on average while the casting fills, mm: h_p = H − h1²/(2 h2) (Rao).
 * `head` H: metal surface in the cup above the gate; `above` h1: casting height above the gate; `height` h2: total
 * casting height. Top gate h1 = 0 gives H; bottom gate h1 = h2 = c gives H − c/2; parting line h1 = c/2 gives
 * H − c/8. Needs 0 ≤ above ≤ height, height > 0.
 */
export const effectiveHead = (head: number, above: number, height: number): number =>
  head - above ** 2 / (2 * height);

/** Choke area, mm²: A = W/(ρ t C √(2 g h_p)) (Rao). `coefficient` C is the sprue's discharge coefficient, 0..1. */
export const chokeArea = (
  mass: number,
  density: number,
  time: number,
  coefficient: number,
  head: number,
  gravity = standardGravity,
): number => mass / (density * time * coefficient * fallVelocity(head, gravity));

/** Flow through `area` under `head`, mm³/s: Q = C A √(2 g h). */
export const flowThrough = (
  area: number,
  coefficient: number,
  head: number,
  gravity = standardGravity,
): number => coefficient * area * fallVelocity(head, gravity);

/**
 * Ratio of a sprue's section at depth `upper` to that at depth `lower` below the metal surface so that the falling
 * stream just fills it: A_top/A_bottom = √(h_bottom/h_top) (continuity; Rao, Groover).
 */
export const taperRatio = (upper: number, lower: number): number => Math.sqrt(lower / upper);

export const circleArea = (diameter: number): number => (Math.PI / 4) * diameter ** 2;
export const circleDiameter = (area: number): number => Math.sqrt((4 * area) / Math.PI);
