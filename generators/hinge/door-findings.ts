import { allowableLoadNote, type LoadCheck, loadCaveats, loadFindings } from '../../core/hardware/index.js';
import { type Finding, note } from '../../core/part/finding.js';
import { type DoorUse, heaviestDoor } from './door-load.js';

/** What a hinge's load check says: too light for its door, what it may bear, and how heavy a door that is. */
export function doorFindings(p: DoorUse, load: LoadCheck): readonly Finding[] {
  const door = `a door ${Math.round(p.doorWidth)} mm wide with ${p.hinges} of them, the outer ones ${Math.round(p.hingeSpacing ?? p.doorWidth)} mm apart`;
  return [
    ...(p.doorMass === undefined
      ? []
      : loadFindings(load, {
          part: 'the hinge',
          use: `a door of ${Number(p.doorMass.toFixed(1))} kg`,
          remedy: 'take a larger or thicker hinge, or a stronger pin',
          parameters: ['doorMass', 'size', 'thickness', 'pinDiameter', 'pinMaterial'],
        })),
    allowableLoadNote(load, { part: 'the hinge', parameters: ['doorMass'] }),
    note(
      'heaviest-door',
      `${door} may weigh ${Math.floor(10 * heaviestDoor(p, load)) / 10} kg, as a bench estimate`,
      loadCaveats[0] as string,
      'doorMass',
      'doorWidth',
      'hinges',
    ),
  ];
}
