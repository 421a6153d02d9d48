/** The names that table rows cite, written once. */

export const memory = 'from memory';
export const cda = (uns: string): string => `Copper Development Association property sheet, ${uns}`;
export const supplierSheet = (uns: string): string => `Casting supplier's data sheet, ${uns}`;
export const makeItFrom = (what: string): string => `MakeItFrom material-properties database, ${what}`;
export const supplierChart = 'Patternmakers’ supplier, contraction chart';
export const dooley = 'Dooley, Applied Science for Metal Workers, ch. XXXI';
export const westermann = 'Westermann Tables, p. 2';
export const groover = 'Groover, Fundamentals of Modern Manufacturing (from memory)';
export const kalpakjian = 'Kalpakjian, Manufacturing Engineering & Technology, Table 10.1 (from memory)';
export const afs = 'AFS and CDA pouring tables (from memory)';
export const fromElements = 'Mass-weighted mean of the elements (CRC values, from memory), rounded';
