import type { PartDefinition } from '../core/part/contract.js';
import bowPull from './bow-pull.js';
import buttHinge from './butt-hinge.js';
import deckEye from './deck-eye.js';
import doubleHelicalGear from './double-helical-gear.js';
import fairlead from './fairlead.js';
import flushPull from './flush-pull.js';
import gudgeonPintle from './gudgeon-pintle.js';
import hatchPull from './hatch-pull.js';
import helicalGear from './helical-gear.js';
import hornCleat from './horn-cleat.js';
import jamCleat from './jam-cleat.js';
import knob from './knob.js';
import mesh from './mesh.js';
import rack from './rack.js';
import ringGear from './ring-gear.js';
import ringPull from './ring-pull.js';
import spurGear from './spur-gear.js';
import strapHinge from './strap-hinge.js';

/** Every part the program draws, in the order lists show them. A new part is one file and one line here. */
export const parts: readonly PartDefinition[] = [
  spurGear,
  helicalGear,
  doubleHelicalGear,
  ringGear,
  rack,
  hatchPull,
  ringPull,
  bowPull,
  flushPull,
  knob,
  hornCleat,
  jamCleat,
  deckEye,
  fairlead,
  buttHinge,
  strapHinge,
  gudgeonPintle,
];

/** Those, and the part that is read from a mesh file. */
export const allParts: readonly PartDefinition[] = [...parts, mesh];

export const partNames: readonly string[] = allParts.map((part) => part.name);

export const findPart = (name: string): PartDefinition | undefined =>
  allParts.find((part) => part.name === name);
