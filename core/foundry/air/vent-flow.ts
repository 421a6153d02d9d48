/** Air at about 400 °C, kg/m³: p/(R T) with R 287 J/(kg K) at 673 K and 101 325 Pa. */
export const hotAirDensity = 101325 / (287 * 673);

/** Sharp-edged orifice (ISO 5167-2 gives 0.60 to 0.61 for small openings; from memory). */
const dischargeCoefficient = 0.61;

/** Pressure that drives `flow` mm³/s of hot air through openings of `area` mm², Pa: Δp = (ρ/2) (Q/(C A))². */
export const orificePressure = (flow: number, area: number): number =>
  (hotAirDensity / 2) * (flow / (dischargeCoefficient * area) / 1000) ** 2;
