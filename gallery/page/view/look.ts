import { Color, SRGBColorSpace } from 'three';
import type { Finish } from './content.js';

export type Theme = 'light' | 'dark';

/** Colours of what is not the piece, `#rrggbb`, and strengths. */
export interface Look {
  readonly backdrop: { readonly above: string; readonly below: string };
  readonly ink: string;
  /** Behind the ink, so that it reads over the piece. */
  readonly halo: string;
  readonly accent: string;
  readonly marks: Readonly<Record<'contact' | 'late' | 'thin', string>>;
  readonly rays: Readonly<Record<'action' | 'axis', string>>;
  readonly bed: { readonly plate: string; readonly line: string };
  readonly shadow: number;
  readonly exposure: number;
  /** Of lines along sharp edges, 0 to 1. */
  readonly creases: number;
  /** A cut face is the body's colour mixed with this. */
  readonly cut: { readonly colour: string; readonly share: number };
}

export const looks: Readonly<Record<Theme, Look>> = {
  light: {
    backdrop: { above: '#f4f2ed', below: '#e3dfd7' },
    ink: '#23262b',
    halo: '#fbfaf7',
    accent: '#a3401c',
    marks: { contact: '#b3261e', late: '#7a2fa0', thin: '#0b5d8f' },
    rays: { action: '#0b5d8f', axis: '#5b5f66' },
    bed: { plate: '#d3d2cc', line: '#9b9c97' },
    shadow: 0.42,
    exposure: 1,
    creases: 0.34,
    cut: { colour: '#fbf7ee', share: 0.42 },
  },
  dark: {
    backdrop: { above: '#2b2c2e', below: '#191a1c' },
    ink: '#eceae4',
    halo: '#141517',
    accent: '#f0a27c',
    marks: { contact: '#ff8a75', late: '#d3a2f2', thin: '#7cc4f2' },
    rays: { action: '#7cc4f2', axis: '#a6a9ae' },
    bed: { plate: '#37393b', line: '#55585b' },
    shadow: 0.6,
    exposure: 0.88,
    creases: 0.5,
    cut: { colour: '#f2ead9', share: 0.2 },
  },
};

/** How a surface takes the light, and the share of it that matt ones give back. */
export const finishes: Readonly<
  Record<Finish, { readonly metalness: number; readonly roughness: number; readonly light: number }>
> = {
  metal: { metalness: 1, roughness: 0.36, light: 1 },
  plastic: { metalness: 0, roughness: 0.72, light: 0.62 },
  gating: { metalness: 0, roughness: 0.72, light: 0.62 },
};

/**
 * The colour of a metal's mirror, from the colour the metal seems to have: a mirror shows the light of the room, so it is
 * paler than what is seen, and not as strong.
 */
export function mirrorColour(text: string): Color {
  const colour = colourOf(text);
  const { h, s, l } = colour.getHSL({ h: 0, s: 0, l: 0 }, SRGBColorSpace);
  return colour.setHSL(h, s * 0.92, l + 0.17 * (1 - l), SRGBColorSpace);
}

/** Stock over a body of a colour: warmer than it. */
export const stockTint = (text: string): Color => colourOf(text).lerp(new Color('#d4511f'), 0.6);

/** `#rrggbb`, or a plain grey where it is none. */
export const colourOf = (text: string): Color => new Color(/^#[0-9a-f]{6}$/i.test(text) ? text : '#9a9a9a');
