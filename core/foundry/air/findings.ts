import { type Finding, note, warn } from '../../part/finding.js';
import type { AirPlan } from './plan.js';
import { totalVolume } from './pockets.js';
import type { Tilt } from './tilt.js';

const ml = (volume: number): string => `${(volume / 1000).toFixed(2)} ml`;
const degrees = (angle: number): string => `${Number(((angle * 180) / Math.PI).toFixed(1))}°`;
const places = (count: number): string => `${count} ${count === 1 ? 'place' : 'places'}`;

const sides = ['+x', '+x +y', '+y', '−x +y', '−x', '−x −y', '−y', '+x −y'] as const;
/** `+x +y`: the nearest of eight sides. */
export const sideAt = (azimuth: number): string =>
  sides[((Math.round((4 * azimuth) / Math.PI) % 8) + 8) % 8]!;

/** What the part's air needs the bench to know. */
export function airFindings(air: AirPlan): readonly Finding[] {
  const { pockets, ventsAdded, left, tilt, offLevel } = air;
  const findings: Finding[] = [];
  const forLevel = ventsAdded.length - offLevel.ventsAdded;
  if (forLevel > 0)
    findings.push(
      note(
        'air-vents-added',
        `Rising metal would trap ${ml(totalVolume(pockets))} of air in ${places(pockets.length)}: ${forLevel} ${forLevel === 1 ? 'vent is' : 'vents are'} added there.`,
        'Saw them off with the part’s other vents, or gate the part at its highest place.',
      ),
    );
  if (left.length > 0) {
    const [largest] = left;
    findings.push(
      warn(
        'air-trapped',
        `Rising metal traps ${ml(totalVolume(left))} of air in ${places(left.length)} where no vent can be put: the largest, ${ml(largest!.volume)}, under ${pointText(largest!.at)}.`,
        tilt ? tiltText(tilt) : noTilt,
      ),
    );
  }
  if (offLevel.ventsAdded > 0)
    findings.push(
      note(
        'air-vents-off-level',
        `Poured ${degrees(offLevel.angle)} off level, the part would keep up to ${ml(offLevel.before.volume)} of air under its high side: ${offLevel.ventsAdded} ${offLevel.ventsAdded === 1 ? 'vent is' : 'vents are'} added for that.`,
        'Saw them off with the part’s other vents.',
      ),
    );
  const { left: still, levelWithin } = offLevel;
  if (still.largest && still.volume - totalVolume(left) >= air.threshold)
    findings.push(
      note(
        'air-off-level',
        `Poured ${degrees(offLevel.angle)} off level, its ${sideAt(still.toward)} side high, the part keeps ${ml(still.volume)} of air in ${places(still.places)}: the largest under ${pointText(still.largest.at)}.`,
        levelWithin !== undefined
          ? `Set the mould by a level: within ${degrees(levelWithin)} nothing from ${ml(air.threshold)} is kept.`
          : 'Set the mould by a level, or vacuum the mould while pouring.',
      ),
    );
  return findings;
}

/** Never "-0.0". */
const tenths = (mm: number): string => (Math.round(mm * 10) / 10 + 0).toFixed(1);

const pointText = ([x, y, z]: readonly [number, number, number]): string =>
  `x ${tenths(x)}, y ${tenths(y)}, z ${tenths(z)} mm`;

function tiltText({ of, azimuth, angle, left }: Tilt): string {
  const kept = left === 0 ? 'nothing is kept then' : `up to ${ml(left)} is kept then`;
  const turned = angle > 3 ? 'over' : `by ${degrees(angle)}, its ${sideAt(azimuth)} side up`;
  return of === 'flask'
    ? `Lean the flask ${turned}, at the pour: ${kept}, also 2° to either side.`
    : `Turn the pattern ${turned}, and gate it by hand at its highest place: ${kept}.`;
}

const noTilt =
  'No lean of the flask up to 30° and no turn of the part tried halves it: give the part a flat of 1.5 mm or more there for a vent, or vacuum the mould while pouring.';
