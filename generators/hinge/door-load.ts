import {
  type Allowables,
  checkLoad,
  doorReaction,
  type HingeSizes,
  hingeMembers,
  type LoadCheck,
  type RodMaterial,
  rodAllowables,
  rodMaterials,
} from '../../core/hardware/index.js';
import { choice, count, length, number } from '../../core/part/fields.js';
import { strengthAllowables, strengthField } from '../hardware/load-fields.js';

/** The door a hinge is for, and whose strength the check relies on. */
export const doorFields = {
  doorMass: number({
    group: 'Load',
    help: 'Mass of the door or lid in kg: pin, knuckles and leaf are sized to bear it',
    min: 0.2,
    max: 300,
    derived: 'none: the sizes follow the length, and the report says what they bear',
  }),
  doorWidth: length({
    group: 'Load',
    help: 'Width of the door, hinge edge to latch edge',
    min: 50,
    max: 3000,
    default: 600,
  }),
  hingeSpacing: length({
    group: 'Load',
    help: 'Top hinge to bottom hinge',
    min: 50,
    max: 3000,
    derived: "the door's width",
  }),
  hinges: count({ group: 'Load', help: 'Hinges on the door', min: 2, max: 6, default: 2 }),
  pinMaterial: choice(rodMaterials as [RodMaterial, ...RodMaterial[]], {
    group: 'Load',
    help: 'Rod the pin is cut from',
    default: 'silicon bronze',
  }),
  ...strengthField,
};

export interface DoorUse {
  readonly doorMass?: number | undefined;
  readonly doorWidth: number;
  readonly hingeSpacing?: number | undefined;
  readonly hinges: number;
  readonly pinMaterial: RodMaterial;
  readonly strengthOf: string;
}

/** What one hinge is sized for by a door of this mass, N. @param mass g */
export const hingeForce = (use: DoorUse, mass: number): number =>
  doorReaction({
    mass,
    width: use.doorWidth,
    spacing: use.hingeSpacing ?? use.doorWidth,
    hinges: use.hinges,
  }).design;

/** A hinge under the door it is for; under 10 kg where none is given, to say what it bears. */
export function checkHinge(use: DoorUse, hinge: HingeSizes): LoadCheck {
  const casting: Allowables = strengthAllowables(use.strengthOf);
  const force = hingeForce(use, 1000 * (use.doorMass ?? 10));
  return checkLoad(force, hingeMembers(force, hinge, casting, rodAllowables(use.pinMaterial)));
}

/** Heaviest door the hinge bears, kg: everything grows in proportion to the mass. */
export const heaviestDoor = (use: DoorUse, check: LoadCheck): number =>
  (use.doorMass ?? 10) / check.utilisation;
