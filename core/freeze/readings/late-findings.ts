import { type Finding, note, warn } from '../../part/finding.js';
import type { FoundPlace } from './late-places.js';
import { type Landmarks, placeText, volumeText } from './place-words.js';

/** From which void on a place is worth acting on: a hole 2.7 mm across. Common practice, no source. */
export const seriousVoid = 10;

/** Codes by where the way from a place to the gating closes. */
export const lateCodes = {
  atGate: 'cut-off-at-gate',
  inCasting: 'cut-off-in-casting',
  noWay: 'no-way-to-feeder',
} as const;

const remedies: Readonly<Record<keyof typeof lateCodes, readonly [string, ...string[]]>> = {
  atGate: [
    'Let sprue and gate freeze later: wider (modulusRatio, leastSprueDiameter) on a wider gate place, a larger cup (cupLeastDiameter), the cup covered with dry ash or ceramic fibre as soon as it is full; or make the casting thinner there.',
    'modulusRatio',
    'leastSprueDiameter',
    'cupLeastDiameter',
  ],
  inCasting: [
    'Gate the part there too (gates), or thicken the casting from there to its gate; a smaller fillet or a recess makes the place itself freeze sooner.',
    'gates',
    'leastSprueDiameter',
  ],
  noWay: ['Gate the part there (gates), or thicken what joins it to its gate.', 'gates'],
};

const kindOf = ({ shutAt, neckIn }: FoundPlace): keyof typeof lateCodes =>
  shutAt === 0 || neckIn === 'none' ? 'noWay' : neckIn === 'gating' ? 'atGate' : 'inCasting';

const seconds = (s: number): string => `${s < 10 ? s.toFixed(1) : s.toFixed(0)} s`;

/** One finding for each way that places are cut off, told by the worst. */
export function lateFindings(places: readonly FoundPlace[], marks: Landmarks): readonly Finding[] {
  const kinds = Object.keys(lateCodes) as (keyof typeof lateCodes)[];
  return kinds.flatMap((kind) => {
    const of = places.filter((p) => p.cutOff > 0 && p.void > 0 && kindOf(p) === kind);
    if (of.length === 0) return [];
    const worst = of.reduce((a, b) => (b.void > a.void ? b : a));
    const all = of.reduce((sum, p) => sum + p.void, 0);
    const way =
      kind === 'noWay'
        ? 'no liquid way leads from it to a feeder'
        : kind === 'atGate'
          ? `its way through the gating closes at ${seconds(worst.shutAt)}`
          : `its way to the gate closes at ${seconds(worst.shutAt)}, ${placeText(worst.neck!, marks)}`;
    const foot =
      worst.lastIn === 'casting' ? '' : ` in the ${worst.lastIn === 'vent' ? 'vent' : 'gate’s foot'},`;
    const more =
      of.length === 1 ? '' : ` ${of.length} such places have ${volumeText(all)} of voids together.`;
    const tell = of.some((p) => p.void >= seriousVoid) ? warn : note;
    const [remedy, ...settings] = remedies[kind];
    return [
      tell(
        lateCodes[kind],
        `Metal ${placeText(worst.at, marks)},${foot} freezes last, at ${seconds(worst.solidAt)}; ${way}, with ${volumeText(worst.cutOff)} still liquid: it may leave a void, or spongy metal, of ${volumeText(worst.void)}.${more}`,
        remedy,
        ...settings,
      ),
    ];
  });
}
