/**
 * Cosine of the sharpest bend between facets of one round surface, 38°: a circle in ten. Sharper ones are edges, so that
 * hexagons and octagons stay flats.
 */
export const smoothCosine = 0.788;
