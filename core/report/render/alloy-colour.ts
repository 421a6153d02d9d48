import { metalColour } from './colour.js';

/** A casting brushed clean, `#rrggbb`, by its alloy: matched by eye against castings; from memory, no source. */
const colours: Readonly<Record<string, string>> = {
  'tin-bronze': '#b98a58',
  'tin-bronze-c90300': '#bb8d59',
  'navy-m-bronze': '#b78a5c',
  'bearing-bronze': '#ad8159',
  'red-brass': '#bd8052',
  'yellow-brass': '#cdab5c',
  'yellow-brass-c85400': '#c9a85d',
  'manganese-bronze': '#c8a45f',
  'silicon-bronze': '#bd8a63',
  'silicon-brass': '#c6a067',
  'aluminium-bronze': '#cda964',
  copper: '#bd7452',
  a356: '#aab0b4',
  'al-319': '#a3a9ad',
  'al-si12': '#aeb3b7',
  'zinc-alloy-3': '#9ba3aa',
  'za-12': '#9fa4a8',
  'grey-iron': '#73757a',
  pewter: '#b0b1ae',
  'sterling-silver': '#c9c9c5',
};

/** The colour of a casting of an alloy of the table; that of cast metal in general for any other name. */
export const alloyColour = (name: string): string =>
  (Object.hasOwn(colours, name) ? colours[name] : undefined) ?? metalColour.colour;
