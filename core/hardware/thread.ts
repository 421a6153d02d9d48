/** Tensile stress area of a metric thread, mm²: π/4 (d − 0.9382 P)² (ISO 898-1, 9.1.6.1, from memory). */
export const metricStressArea = (diameter: number, pitch: number): number =>
  (Math.PI / 4) * (diameter - 0.9382 * pitch) ** 2;

/** Tensile stress area of a unified thread, mm²: π/4 (d − 0.9743/n)² (ASME B1.1, from memory); mm, P = 1/n in mm. */
export const unifiedStressArea = (diameter: number, pitch: number): number =>
  (Math.PI / 4) * (diameter - 0.9743 * pitch) ** 2;
