/** The fields of an own alloy in a shop profile. */
import { z } from 'zod';
import { length, number, temperature } from '../part/fields.js';

const group = 'Own alloys';
const derived = "the base alloy's";
const value = (min: number, max: number, help: string) => number({ min, max, derived, group, help });
const degrees = (help: string) => temperature({ min: 0, max: 2000, derived, group, help });

/** Fields of an own alloy beside name, title, basedOn and composition. */
export const ownAlloyFields = z.object({
  density: value(1, 23, 'Solid at 20 °C, g/cm³'),
  liquidDensity: value(1, 22, 'Liquid, g/cm³'),
  solidus: degrees('Solidus'),
  liquidus: degrees('Liquidus'),
  pourLow: degrees('Coolest metal at the pour, thick castings'),
  pourHigh: degrees('Hottest metal at the pour, thin castings'),
  flaskLow: degrees('Coolest mould at the pour, thick castings'),
  flaskHigh: degrees('Hottest mould at the pour, thin castings'),
  contraction: value(0, 0.05, 'Contraction from pattern to casting: 0.0156 for 3/16 in/ft'),
  freezingShrinkage: value(0, 0.1, 'Volume lost on freezing, a fraction of the liquid'),
  latentHeat: value(10, 600, 'Latent heat, J/g'),
  tensile: value(5, 1500, 'Tensile strength as cast, MPa'),
  yield: value(3, 1200, 'Yield strength as cast, MPa'),
  meltLoss: value(0, 0.2, 'Lost to oxide, dross and fume, a fraction of the charge'),
  minimumSection: length({
    min: 0.3,
    max: 10,
    derived,
    group,
    help: 'Thinnest wall that fills in a hot mould',
  }),
});
