import { alloyNames, findAlloy } from '../core/foundry/alloys/index.js';
import type { BacklashRequest } from '../core/gear/backlash-plan.js';
import { type BasicRack, basicRackProfiles, maxRootRadius } from '../core/gear/basic-rack.js';
import { castGearMaterial } from '../core/gear/gear-material.js';
import type { MeshKind } from '../core/gear/mesh-backlash.js';
import type { LoadRequest } from '../core/gear/pair-load.js';
import type { PairRequest } from '../core/gear/pair-request.js';
import { jobDefaults } from '../core/job/job-schema.js';
import { showText } from '../core/part/input-problem.js';
import { suggestRemedy } from '../core/part/suggest.js';
import {
  type LengthUnit,
  type Parsed,
  parseLength,
  parsePower,
  parseTorque,
  parseTurns,
} from '../core/units/index.js';
import { Failure, problemInOption } from './failure.js';
import type { OptionRow } from './option-row.js';
import { largestCast, type PairFieldValues } from './pair-fields.js';

const largestBacklash = 3;
/** In place of a size: what teeth need that run as they were cast. */
export const asCast = 'as-cast';

/** Options whose values are neither lengths nor plain numbers. */
export const pairTextOptions: readonly OptionRow[] = [
  {
    name: 'backlash',
    group: 'Backlash',
    value: `mm|${asCast}`,
    help: 'Backlash (j), or as-cast for what the casting tolerances ask for where the flanks stay as cast',
    range: `from 0 to ${largestBacklash} mm, or ${asCast}`,
    fallback: 'the least of ISO/TR 10064-2, for dressed flanks',
  },
  {
    name: 'torque',
    group: 'Load',
    value: 'N·m',
    help: 'Torque on gear 1, like 12Nm or 100lbf·in',
    fallback: 'what the teeth allow',
  },
  {
    name: 'power',
    group: 'Load',
    value: 'W',
    help: 'Power through the pair, like 60W or 1/4hp',
    fallback: 'not given',
  },
  {
    name: 'speed',
    group: 'Load',
    value: 'rev/min',
    help: 'Speed of gear 1, turns a minute',
    fallback: 'slow, or the crank’s',
  },
  {
    name: 'alloy',
    group: 'Load',
    value: 'name',
    help: 'Casting alloy: see patternwright list alloys',
    fallback: jobDefaults.alloy,
  },
  {
    name: 'mate-alloy',
    group: 'Load',
    value: 'name',
    help: 'Casting alloy of gear 2',
    fallback: 'as gear 1',
  },
];

type Texts = Readonly<Record<string, string | boolean | undefined>>;

const refuse = (name: string, code: string, message: string, remedy: string): Failure =>
  new Failure(2, [problemInOption({ code, path: [], got: '', message, remedy }, name)]);

/** A quantity of one option, or nothing where it is not given. @throws Failure */
function quantity(texts: Texts, name: string, read: (text: string) => Parsed): number | undefined {
  const text = texts[name];
  if (text === undefined) return undefined;
  const reading = read(String(text));
  if (!reading.ok)
    throw refuse(name, 'unreadable', `"${showText(String(text))}" ${reading.problem}`, reading.remedy);
  if (!(reading.value > 0))
    throw refuse(name, 'out-of-range', `is ${showText(String(text))}`, 'give more than 0');
  return reading.value;
}

/** The alloys of gear 1 and its mate. @throws Failure */
export function pairAlloys(texts: Texts) {
  const find = (name: string, text: string) => {
    const alloy = findAlloy(text);
    if (alloy) return alloy;
    throw refuse(name, 'unknown-choice', `is ${showText(text)}`, suggestRemedy(text, alloyNames));
  };
  const first = String(texts.alloy ?? jobDefaults.alloy);
  const mate = texts['mate-alloy'];
  return [
    find('alloy', first),
    mate === undefined ? find('alloy', first) : find('mate-alloy', String(mate)),
  ] as const;
}

function loadFrom(v: PairFieldValues, texts: Texts, unit: LengthUnit): LoadRequest {
  const torque = quantity(texts, 'torque', (text) => parseTorque(text, unit));
  const power = quantity(texts, 'power', (text) => parsePower(text, unit));
  const speed = quantity(texts, 'speed', parseTurns);
  const [first, second] = pairAlloys(texts);
  return {
    materials: [castGearMaterial(first, v.safetyFactor), castGearMaterial(second, v.safetyFactor)],
    ...given('torque', torque),
    ...given('power', power),
    ...given('speed', speed),
    ...given('crankRadius', v.crankRadius),
  };
}

function backlashFrom(v: PairFieldValues, texts: Texts, unit: LengthUnit): BacklashRequest | undefined {
  const text = texts.backlash;
  if (text === undefined) return undefined;
  if (text === asCast)
    return {
      kind: asCast,
      toothGrade: v.toothGrade,
      centreTolerance: v.centreTolerance,
      runout: v.runout,
      ...given('centreGrade', v.centreGrade),
    };
  const right = `give from 0 to ${largestBacklash} mm, or ${asCast}`;
  const reading = parseLength(String(text), unit);
  if (!reading.ok)
    throw refuse('backlash', 'unreadable', `"${showText(String(text))}" ${reading.problem}`, right);
  if (!(reading.value >= 0 && reading.value <= largestBacklash))
    throw refuse('backlash', 'out-of-range', `is ${showText(String(text))}`, right);
  return { kind: v.backlashKind, value: reading.value };
}

/** The standard's profile at another pressure angle, its fillet as large as the steeper rack's tip bears. */
function rackFrom({ rackProfile, pressureAngle }: PairFieldValues): BasicRack {
  const rack = { ...basicRackProfiles[rackProfile], normalPressureAngle: pressureAngle };
  const fits = maxRootRadius(rack);
  // Profile A's own 0.38 is 0.37995 rounded up.
  return fits > rack.rootRadius - 1e-3 ? rack : { ...rack, rootRadius: Math.floor(fits * 1e4) / 1e4 };
}

const given = <K extends string, T>(key: K, value: T | undefined) =>
  (value === undefined ? {} : { [key]: value }) as { [P in K]?: T };

const meshes: Readonly<Record<PairFieldValues['mate'], MeshKind>> = {
  gear: 'external',
  ring: 'internal',
  rack: 'rack',
};

/** The search's request: only what was given. @throws Failure */
export function requestFrom(v: PairFieldValues, texts: Texts, unit: LengthUnit): PairRequest {
  const mesh = meshes[v.mate];
  const bothTeeth = v.teeth !== undefined && v.mateTeeth !== undefined && mesh !== 'rack';
  const sized = [
    v.module,
    v.diametralPitch,
    v.centreDistance,
    v.faceWidth,
    v.largestCentreDistance,
    v.travelPerTurn,
  ].some((size) => size !== undefined);
  return {
    gearType: v.gearType,
    mesh,
    rack: rackFrom(v),
    ratioTolerance: v.ratioTolerance,
    profileShift: v.profileShift,
    split: v.split,
    keepMate: v.keepMate,
    thinningSplit: v.thinningSplit,
    load: loadFrom(v, texts, unit),
    ...(bothTeeth ? { teeth: [v.teeth as number, v.mateTeeth as number] as const } : {}),
    ...given('gearTeeth', bothTeeth ? undefined : v.teeth),
    ...given('mateTeeth', bothTeeth ? undefined : v.mateTeeth),
    ...given('ratio', v.ratio),
    ...given('travel', v.travel),
    ...given('travelPerTurn', v.travelPerTurn),
    ...given('module', v.module),
    ...given('diametralPitch', v.diametralPitch),
    ...given('helixAngle', v.helixAngle),
    ...given('centreDistance', v.centreDistance),
    ...given('faceWidth', v.faceWidth),
    ...given('largestDiameter', v.largestDiameter ?? (sized ? largestCast[v.mate] : undefined)),
    ...given('largestCentreDistance', v.largestCentreDistance),
    ...given('backlash', backlashFrom(v, texts, unit)),
  };
}
