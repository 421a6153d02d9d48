import { z } from 'zod';
import { choice, file, flag, length, text } from '../../core/part/fields.js';

const group = 'Mesh';

/** How the file's own sides may stand when it is printed and poured. */
export const stands = [
  'best',
  'second',
  'third',
  'as-drawn',
  'bottom',
  'left',
  'right',
  'front',
  'back',
] as const;

export const parameters = z.object({
  file: file({ group, help: 'The mesh: STL, 3MF, OBJ or PLY' }),
  fileUnit: choice(['stated', 'mm', 'cm', 'm', 'in', 'ft'], {
    default: 'stated',
    group,
    help: 'What one unit of the file is, where the format does not say',
  }),
  scaleTo: length({
    min: 1,
    max: 2000,
    derived: 'as the file has it',
    group,
    help: 'A length of the finished part that is known: the whole mesh is scaled to it',
  }),
  scaleAlong: choice(['longest', 'x', 'y', 'z'], {
    default: 'longest',
    group,
    help: 'Which side of the mesh’s box has that length',
  }),
  closeHoles: length({
    min: 0.1,
    max: 500,
    derived: 'trivial ones only',
    group,
    help: 'Flat holes in the surface up to so wide are closed, as they are meant to be',
  }),
  fillCavities: flag({
    default: false,
    group,
    help: 'Fill closed hollows, which no investment gets into; without, they are refused',
  }),
  up: choice(stands, {
    default: 'best',
    group: 'Print and pour',
    help: 'What stands upward, printed and poured: the best found, the next, or a side as drawn',
  }),
  gateAt: text({
    group: 'Print and pour',
    longest: 200,
    help: 'Where metal enters: a surface, or x, y or x, y, z as drawn; several with semicolons, of which as many are used as gates says. Worked out where left out',
  }),
  marks: text({
    group: 'Surfaces',
    help: 'What surfaces carry other stock than skin: "top face = face; bore at 12, 30 = 0.8mm"',
  }),
  measuredFromCasting: flag({
    default: false,
    group: 'Worn casting',
    help: 'The mesh is a scan of a worn metal part: its size is finished metal, and wear is put back',
  }),
  wear: text({
    group: 'Worn casting',
    help: 'What has worn off, by surface: "bore at 12, 30 = 0.4mm"',
  }),
});

export type MeshParameters = z.output<typeof parameters>;
