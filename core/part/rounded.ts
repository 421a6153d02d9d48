/** Limits that are advised, in hundredths, rounded to their right side: the value given is itself accepted. */

/** Float crumbs do not make a round limit a hundredth worse. */
const crumb = 1e-8;

export const roundedUp = (value: number): number => Math.ceil(100 * value - crumb) / 100;
export const roundedDown = (value: number): number => Math.floor(100 * value + crumb) / 100;
