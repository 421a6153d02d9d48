import type { ElementSymbol } from '../alloys/index.js';

/** As findings and papers call them. */
export const elementNames: Readonly<Record<ElementSymbol | 'unknown metal', string>> = {
  Ag: 'silver',
  Al: 'aluminium',
  C: 'carbon',
  Cu: 'copper',
  Fe: 'iron',
  Mg: 'magnesium',
  Mn: 'manganese',
  Ni: 'nickel',
  P: 'phosphorus',
  Pb: 'lead',
  S: 'sulphur',
  Sb: 'antimony',
  Si: 'silicon',
  Sn: 'tin',
  Zn: 'zinc',
  'unknown metal': 'metal of unknown kind',
};

/** °C (CRC Handbook, from memory; carbon sublimes, taken as 3800). */
export const meltingPoint: Readonly<Record<ElementSymbol, number>> = {
  Ag: 962,
  Al: 660,
  C: 3800,
  Cu: 1085,
  Fe: 1538,
  Mg: 650,
  Mn: 1246,
  Ni: 1455,
  P: 44,
  Pb: 327,
  S: 115,
  Sb: 631,
  Si: 1414,
  Sn: 232,
  Zn: 420,
};

/** °C, boiling point at one atmosphere (CRC Handbook, from memory). */
export const zincBoils = 907;
export const magnesiumBoils = 1090;
