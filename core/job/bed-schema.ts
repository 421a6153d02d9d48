/** The fields of a print bed, of the zones on it that are not printed on, and of how patterns are laid out on plates. */
import { z } from 'zod';
import { choice, count, duration, length } from '../part/fields.js';

const bed = 'Bed';
const zone = 'Zone';
const plates = 'Plates';

export const bedShapes = ['rectangle', 'circle'] as const;

const bedSize = (help: string, fallback: number) =>
  length({ min: 20, max: 2000, default: fallback, group: bed, help });

export const bedFields = z.object({
  shape: choice(bedShapes, { default: 'rectangle', group: bed, help: 'Outline of the print bed' }),
  width: bedSize('Rectangular bed in X', 220),
  depth: bedSize('Rectangular bed in Y', 220),
  diameter: length({
    min: 20,
    max: 2000,
    derived: '',
    group: bed,
    help: 'Round bed, in place of width and depth',
  }),
  height: bedSize('Greatest print height', 250),
  margin: length({ min: 0, max: 100, default: 5, group: bed, help: 'Kept free along the edges' }),
  gap: length({
    min: 0.5,
    max: 100,
    derived: 'the margin, 3mm at least',
    group: bed,
    help: 'Kept free between patterns; brims only keep off each other',
  }),
  brim: length({
    min: 0,
    max: 50,
    default: 0,
    group: bed,
    help: "Width of the brim that the printer's own program will lay round each pattern's foot",
  }),
});

const place = (help: string) => length({ min: -2000, max: 2000, derived: '', group: zone, help });
const zoneSize = (help: string) => length({ min: 0.5, max: 4000, derived: '', group: zone, help });

/** Of a clip, a magnet, a lamp: sizes have no default. */
export const keepOutFields = z.object({
  x: place("Of its left side, or a circle's middle, from the bed's left edge"),
  y: place("Of its front side, or a circle's middle, from the bed's front edge"),
  width: zoneSize('Rectangle in X'),
  depth: zoneSize('Rectangle in Y'),
  diameter: zoneSize('Circle, in place of width and depth'),
  above: length({
    min: 0,
    max: 2000,
    derived: 'patterns of any height are kept out',
    group: zone,
    help: 'Keeps out only patterns higher than this',
  }),
});

/** Which patterns may share a plate. */
export const plateSorts = ['any', 'alloy', 'flask'] as const;
export type PlateSort = (typeof plateSorts)[number];

export const longestNesting = 24 * 3600;
export const mostRounds = 1_000_000;

export const nestingFields = z.object({
  sortBy: choice(plateSorts, {
    default: 'any',
    group: plates,
    help: 'What shares a plate: any patterns, those of one alloy, or those for flasks of one size (shells: of one alloy); in the order poured',
  }),
  seconds: duration({
    min: 0,
    max: longestNesting,
    default: 0,
    group: plates,
    help: 'Time to go on looking for fuller plates',
  }),
  seed: count({
    min: 0,
    max: 999_999,
    default: 1,
    group: plates,
    help: 'Start of the chance by which layouts are tried: another may give other plates',
  }),
  rounds: count({
    min: 0,
    max: mostRounds,
    derived: 'some hundred, fewer where patterns are many',
    group: plates,
    help: 'Layouts to try: as many as the summary of an earlier run tells give its plates again',
  }),
});

export const mostKeepOuts = 100;
