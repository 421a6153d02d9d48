/** How steeply a mould may be heated: the changes of its silica, and how far its core trails its skin. */
import type { Investment } from '../investment.js';

/** Alpha–beta changes of the mould's silica, °C: the volume steps, so core and skin should pass together. */
export const inversions = {
  cristobalite: [200, 270],
  quartz: [540, 600],
} as const satisfies Record<string, readonly [number, number]>;

export const hour = 3600;
/** °C between skin and core that a steady ramp may cause: planned through an inversion, and planned elsewhere. */
const inversionLag = 40;
const climbLag = 80;
/** °C/h, whatever the flask. */
const inversionCap = 100;
const climbCap = 150;

/** mm²/s */
export const diffusivity = ({ mould }: Investment): number =>
  mould.conductivity / (mould.density * mould.specificHeat);

/**
 * How far the core trails the skin in a long cylinder whose skin warms at a steady rate, °C: r R² / (4 α)
 * (Carslaw & Jaeger, Conduction of Heat in Solids, ch. VII). Dry mould; water makes it trail further.
 * @param rate °C/h
 * @param diameter mm
 */
export function coreLag(rate: number, diameter: number, investment: Investment): number {
  return Math.abs(rate / hour) * ((diameter / 2) ** 2 / (4 * diffusivity(investment)));
}

/** Fastest planned ramp through an inversion, °C/h. */
export const inversionRate = (diameter: number, investment: Investment): number =>
  rateFor(inversionLag, inversionCap, diameter, investment);

/** Fastest planned ramp elsewhere, °C/h. */
export const climbRate = (diameter: number, investment: Investment): number =>
  rateFor(climbLag, climbCap, diameter, investment);

/** Whether a ramp runs through any part of a band, ends excluded. */
export const crosses = (from: number, to: number, [low, high]: readonly [number, number]): boolean =>
  Math.min(from, to) < high && Math.max(from, to) > low;

/** °C/h, whole fives downward, so that the limit holds and the controller takes it. */
function rateFor(lag: number, cap: number, diameter: number, investment: Investment): number {
  const free = lag / coreLag(1, diameter, investment);
  return Math.max(5, Math.floor(Math.min(cap, free) / 5) * 5);
}
