import type { DoubleHelicalForces } from '../core/gear/forces.js';
import { thrustDirection } from '../core/gear/forces.js';
import { describeCrank } from '../core/gear/hand-crank.js';
import type { PairLoad } from '../core/gear/pair-load.js';
import type { AnyRankedPair } from '../core/gear/pair-ranking.js';
import { type MemberStrength, strengthCaveats } from '../core/gear/strength.js';
import type { PairFieldValues } from '../core/pair/fields.js';
import { memberNames } from '../core/pair/parts.js';
import { plain } from '../core/pair/rows.js';
import {
  formatForce,
  formatPower,
  formatStress,
  formatTorque,
  formatTurns,
  formatVelocity,
  type LengthUnit,
} from '../core/units/index.js';
import { bullet, oneRow, paragraph, twoRow } from './pair-sheet.js';

/** What the teeth carry, and the forces between them. */
export function formatLoad(
  p: AnyRankedPair,
  fields: PairFieldValues,
  alloys: readonly [string, string],
  unit: LengthUnit,
): string {
  const { load } = p;
  if (load === null) return paragraph('The strength of these teeth could not be reckoned.');
  return [
    'Strength',
    ...strengthRows(p, load, alloys, unit),
    '',
    ...forceRows(p, load, fields, unit),
    ...(load.crank === null
      ? []
      : ['', paragraph(describeCrank(load.crank.radius, load.strength.gearTorque, unit))]),
    '',
    ...strengthCaveats.map(bullet),
  ].join('\n');
}

function strengthRows(
  { mesh }: AnyRankedPair,
  { strength: s, speed }: PairLoad,
  alloys: readonly [string, string],
  unit: LengthUnit,
): readonly string[] {
  const names = memberNames[mesh];
  const both = (label: string, of: (m: MemberStrength) => string) => twoRow(label, [of(s.gear), of(s.mate)]);
  const limit = {
    'bending of gear 1': `bending of ${theName(names[0])}`,
    'bending of gear 2': `bending of ${theName(names[1])}`,
    wear: 'wear of the flanks',
  }[s.limit];
  return [
    twoRow('', names),
    twoRow('metal', alloys),
    both('stress allowed at the foot', (m) => formatStress(m.material.allowableStress, unit)),
    both('Lewis form factor Y', (m) => plain(m.formFactor, 3)),
    both('load that bends its teeth F_t', (m) => formatForce(m.bendingLoad, unit)),
    oneRow(
      'wear limit F_w (Buckingham)',
      s.wearLoad === null ? 'no figure known for these metals' : formatForce(s.wearLoad, unit),
    ),
    oneRow(
      'velocity factor (Barth, cast teeth)',
      speed === 0
        ? '1: slow; give --speed for another'
        : `${plain(s.velocityFactor, 3)} at ${formatVelocity(s.velocity, unit)}, ${formatTurns(speed)}`,
    ),
    oneRow('allowable load F_t', `${formatForce(s.tangentialForce, unit)}, by ${limit}`),
    oneRow('weaker in bending', s.weaker === 'gear' ? names[0] : names[1]),
    twoRow('allowable torque', [
      formatTorque(s.gearTorque, unit),
      s.mateTorque === null ? '–' : formatTorque(s.mateTorque, unit),
    ]),
    ...(speed === 0 ? [] : [oneRow('allowable power', formatPower(s.power, unit))]),
    ...[s.gear, s.mate]
      .map((m) => basisText(m, unit))
      .filter((text, i, all) => all.indexOf(text) === i)
      .map(paragraph),
  ];
}

const basisText = ({ material }: MemberStrength, unit: LengthUnit): string =>
  `${material.name}: ${material.basis.replace(/(\d+(?:\.\d+)?) MPa/g, (all, mpa: string) => (unit === 'mm' ? all : formatStress(Number(mpa), unit)))}.`;

const theName = (name: string): string => (name.startsWith('gear') ? name : `the ${name}`);

function forceRows(
  p: AnyRankedPair,
  load: PairLoad,
  fields: PairFieldValues,
  unit: LengthUnit,
): readonly string[] {
  const { forces } = load;
  const force = (value: number) => formatForce(value, unit);
  const names = memberNames[p.mesh];
  const from = {
    asked: 'as asked for',
    crank: 'one person’s steady work at the crank',
    allowable: 'the most allowed; ask with --torque, --power or --crank-radius',
  }[load.from];
  const share = load.from === 'allowable' ? '' : `, ${Math.round(100 * load.share)} % of the allowable`;
  return [
    `Forces at ${formatTorque(load.torque, unit)} on ${theName(names[0])}`,
    paragraph(`${from.charAt(0).toUpperCase()}${from.slice(1)}${share}.`),
    ...(load.mateTorque === null
      ? [oneRow('push along the rack', force(forces.tangential))]
      : [oneRow(`torque on ${theName(names[1])}`, formatTorque(load.mateTorque, unit))]),
    ...(load.speed > 0
      ? [oneRow('power', `${formatPower(load.power, unit)} at ${formatTurns(load.speed)}`)]
      : []),
    oneRow('tangential F_t', `${force(forces.tangential)} at the working pitch circle`),
    oneRow(
      'radial F_r',
      `${force(forces.radial)}, pushes the ${p.mesh === 'internal' ? 'pinion towards the ring’s axis' : p.mesh === 'rack' ? 'rack away' : 'axes apart'}`,
    ),
    ...axialRows(p, load, fields, force),
  ];
}

function axialRows(
  p: AnyRankedPair,
  { forces }: PairLoad,
  fields: PairFieldValues,
  force: (value: number) => string,
): readonly string[] {
  if (fields.gearType === 'spur') return [oneRow('axial F_a', '0, straight teeth')];
  if (fields.gearType === 'double-helical') {
    const { half } = forces as DoubleHelicalForces;
    return [
      oneRow(
        'axial F_a',
        `0 net; inside each gear the halves bear ${force(half.axial)} of thrust against each other`,
      ),
      oneRow(
        'each half',
        `F_t ${force(half.tangential)}, F_r ${force(half.radial)}, F_a ${force(half.axial)}`,
      ),
      paragraph('The mate must be free to float endwise, or the halves do not share the load.'),
    ];
  }
  const hand = p.mesh === 'internal' ? 'right' : 'left';
  const up = thrustDirection(hand, 'counter-clockwise', true) > 0;
  return [
    oneRow('axial F_a', `${force(forces.axial)}, to be taken by a thrust face or collar`),
    paragraph(
      `Driving counter-clockwise as seen from above (+Z), the ${hand}-hand ${memberNames[p.mesh][0]} is pushed ${up ? 'up' : 'down'} and its mate ${up ? 'down' : 'up'}; turned the other way, the other way round.`,
    ),
  ];
}
