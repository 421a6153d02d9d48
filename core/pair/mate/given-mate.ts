import type { BacklashPlan } from '../../gear/backlash-plan.js';
import { type Mesh, meshBacklash } from '../../gear/mesh-backlash.js';
import { type AnyRankedPair, rankPair } from '../../gear/pair-ranking.js';
import { nameTeeth } from '../../gear/place-on-centres.js';
import { lengthText } from '../../gear/tried-pair.js';
import { type Finding, stop, warn } from '../../part/finding.js';
import { checkMesh } from './check-mesh.js';
import { noMesh, notMates } from './mate-findings.js';
import { isFirst, mateHand, meshOf, type ToothedMember } from './member.js';
import { ownDistance } from './place-mate.js';
import { triedPair } from './try-mate.js';

/** Two parts that are there already. The pair is told as far as it can be reckoned, whatever is wrong with it. */
export interface GivenPair {
  readonly pair: AnyRankedPair | null;
  readonly findings: readonly Finding[];
}

/** Checks the chosen part with another as they are, at their own distance or the one that is given, mm. Never throws. */
export function meetMate(chosen: ToothedMember, other: ToothedMember, centreDistance?: number): GivenPair {
  const kind = meshOf(chosen.kind, other.kind);
  if (kind === null) return { pair: null, findings: [notMates(chosen)] };
  const apart = apartFrom(chosen, other);
  if (apart !== null) return { pair: null, findings: [apart] };
  const first = isFirst(chosen);
  const [gear, mate] = first ? [chosen.spec, other.spec] : [other.spec, chosen.spec];
  const cutter = chosen.cutterTeeth ?? other.cutterTeeth;
  const rim = chosen.rimThickness ?? other.rimThickness;
  const asked = {
    ...chosen,
    ...(cutter === undefined ? {} : { cutterTeeth: cutter }),
    ...(rim === undefined ? {} : { rimThickness: rim }),
  };
  try {
    const bare = { kind, gear, mate, chosenFirst: first };
    const shift = kind === 'rack' ? gear.profileShift : other.spec.profileShift;
    const distance = centreDistance ?? ownDistance(bare, kind === 'rack' && first ? 0 : shift);
    const mesh: Mesh = { kind, gear, mate, distance };
    const check = checkMesh(mesh, asked, other.tipRounding);
    const findings = [...widths(chosen, other), ...check.findings];
    if (check.facts === null) return { pair: null, findings };
    const wish = centreDistance === undefined ? {} : { centreDistance };
    const tried = triedPair(asked, wish, mesh, check, asTheyAre(mesh), findings);
    if (tried === null) return { pair: null, findings };
    const request = { gearType: chosen.gearType, mesh: kind, helixAngle: chosen.spec.helixAngle };
    return { pair: rankPair(request, tried), findings };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { pair: null, findings: [noMesh(nameTeeth(kind, [gear.teeth, mate.teeth], gear.normalModule))] };
  }
}

const asTheyAre = (mesh: Mesh): BacklashPlan => ({
  kind: 'circumferential',
  asked: null,
  circumferential: meshBacklash(mesh).circumferential,
  thinning: {
    total: mesh.gear.thinning + mesh.mate.thinning,
    gear: mesh.gear.thinning,
    mate: mesh.mate.thinning,
  },
  split: 'equal',
  cast: null,
});

const degrees = 180 / Math.PI;

/** What keeps two parts from meshing at all. */
function apartFrom(chosen: ToothedMember, other: ToothedMember): Finding | null {
  const shared = [
    ['normalModule', 'module', 'mm', 1],
    ['normalPressureAngle', 'pressure angle', '°', degrees],
    ['helixAngle', 'helix angle', '°', degrees],
  ] as const;
  for (const [key, name, unit, scale] of shared) {
    const [a, b] = [chosen.spec[key], other.spec[key]].map((v) => Number((v * scale).toFixed(4)));
    if (Math.abs(chosen.spec[key] - other.spec[key]) > 1e-6)
      return stop(
        'not-mates',
        `The ${name} is ${a} ${unit} on the chosen part and ${b} ${unit} on the other.`,
        `Give both the same ${name}.`,
        key === 'normalModule' ? 'module' : key === 'helixAngle' ? 'helixAngle' : 'pressureAngle',
      );
  }
  if (chosen.gearType !== other.gearType)
    return stop(
      'not-mates',
      `One is ${chosen.gearType}, the other ${other.gearType}.`,
      'Choose parts of one kind of teeth.',
      'part',
    );
  if (chosen.gearType === 'spur') return null;
  if (other.hand !== mateHand(chosen, other.kind))
    return stop(
      'wrong-hand',
      `The chosen part is ${chosen.hand}-hand and so ought the other to be ${mateHand(chosen, other.kind)}-hand; it is ${other.hand}-hand.`,
      `Make one of them ${chosen.hand === 'left' ? 'right' : 'left'}-hand.`,
      chosen.gearType === 'double-helical' ? 'lowerHand' : 'hand',
    );
  if (chosen.gearType === 'helical') return null;
  const same =
    Math.abs(chosen.faceWidth - other.faceWidth) < 1e-6 &&
    chosen.apex.shape === other.apex.shape &&
    Math.abs(chosen.apex.width - other.apex.width) < 1e-6;
  return same
    ? null
    : stop(
        'apexes-differ',
        'The halves of the two do not meet at one height or in one shape.',
        'Give both the same face width, apex and width of it.',
        'faceWidth',
        'apex',
        'apexWidth',
      );
}

const widths = (chosen: ToothedMember, other: ToothedMember): readonly Finding[] =>
  Math.abs(chosen.faceWidth - other.faceWidth) < 1e-6
    ? []
    : [
        warn(
          'widths-differ',
          `The face widths are ${lengthText(chosen.faceWidth)} and ${lengthText(other.faceWidth)}: the figures and lines of contact are those of the chosen part's.`,
          'Read the overlap from the narrower one.',
          'faceWidth',
        ),
      ];
