import type { Alloy } from '../foundry/alloys/index.js';
import { alloyNames, findAlloy } from '../foundry/alloys/index.js';
import type { BacklashRequest } from '../gear/backlash-plan.js';
import { type BasicRack, basicRackProfiles, maxRootRadius } from '../gear/basic-rack.js';
import { castGearMaterial } from '../gear/gear-material.js';
import type { MeshKind } from '../gear/mesh-backlash.js';
import type { LoadRequest } from '../gear/pair-load.js';
import type { PairRequest } from '../gear/pair-request.js';
import { jobDefaults } from '../job/job-schema.js';
import { type InputProblem, showText } from '../part/input-problem.js';
import { suggestRemedy } from '../part/suggest.js';
import {
  type LengthUnit,
  type Parsed,
  parseLength,
  parsePower,
  parseTorque,
  parseTurns,
} from '../units/index.js';
import { largestCast, type PairFieldValues } from './fields.js';

/** Most backlash that may be asked for, mm. */
export const largestBacklash = 3;
/** In place of a size: what teeth need that run as they were cast. */
export const asCast = 'as-cast';

/** What a pair is asked for in words and units of their own, beside its fields. */
export interface PairTexts {
  /** A length, or `as-cast`. */
  readonly backlash?: string;
  readonly torque?: string;
  readonly power?: string;
  readonly speed?: string;
  readonly alloy?: string;
  readonly mateAlloy?: string;
}

export type PairAlloys = readonly [gear: Alloy, mate: Alloy];

export type PairRequestReading =
  | { readonly ok: true; readonly request: PairRequest; readonly alloys: PairAlloys }
  /** Paths hold the names of fields and texts. */
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

type Read<T> = { readonly value: T } | { readonly problem: InputProblem };

const refuse = (name: keyof PairTexts, code: string, message: string, remedy: string) => ({
  problem: { code, path: [name], got: '', message, remedy },
});

/** A quantity, or nothing where it is not given. */
function quantity(
  texts: PairTexts,
  name: keyof PairTexts,
  read: (text: string) => Parsed,
): Read<number | undefined> {
  const text = texts[name];
  if (text === undefined) return { value: undefined };
  const reading = read(text);
  if (!reading.ok)
    return refuse(name, 'unreadable', `"${showText(text)}" ${reading.problem}`, reading.remedy);
  if (!(reading.value > 0)) return refuse(name, 'out-of-range', `is ${showText(text)}`, 'give more than 0');
  return { value: reading.value };
}

function alloyOf(name: 'alloy' | 'mateAlloy', text: string): Read<Alloy> {
  const alloy = findAlloy(text);
  if (alloy) return { value: alloy };
  return refuse(name, 'unknown-choice', `is ${showText(text)}`, suggestRemedy(text, alloyNames));
}

/** Backlash as it is asked for: a length of a kind, or `as-cast`; nothing for the least. */
function readBacklash(
  text: string | undefined,
  v: Pick<PairFieldValues, 'backlashKind' | 'toothGrade' | 'centreGrade' | 'centreTolerance' | 'runout'>,
  unit: LengthUnit,
): Read<BacklashRequest | undefined> {
  if (text === undefined) return { value: undefined };
  if (text === asCast) {
    const { toothGrade, centreTolerance, runout } = v;
    const tolerances = { toothGrade, centreTolerance, runout, ...given('centreGrade', v.centreGrade) };
    return { value: { kind: asCast, ...tolerances } };
  }
  const right = `give from 0 to ${largestBacklash} mm, or ${asCast}`;
  const reading = parseLength(text, unit);
  if (!reading.ok) return refuse('backlash', 'unreadable', `"${showText(text)}" ${reading.problem}`, right);
  if (!(reading.value >= 0 && reading.value <= largestBacklash))
    return refuse('backlash', 'out-of-range', `is ${showText(text)}`, right);
  return { value: { kind: v.backlashKind, value: reading.value } };
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

/** The search's request, only what was given, and the alloys it speaks of. Never throws; every problem is told. */
export function readPairRequest(v: PairFieldValues, texts: PairTexts, unit: LengthUnit): PairRequestReading {
  const first = alloyOf('alloy', texts.alloy ?? jobDefaults.alloy);
  const second = texts.mateAlloy === undefined ? first : alloyOf('mateAlloy', texts.mateAlloy);
  const torque = quantity(texts, 'torque', (text) => parseTorque(text, unit));
  const power = quantity(texts, 'power', (text) => parsePower(text, unit));
  const speed = quantity(texts, 'speed', parseTurns);
  const backlash = readBacklash(texts.backlash, v, unit);
  if (
    'problem' in first ||
    'problem' in second ||
    'problem' in torque ||
    'problem' in power ||
    'problem' in speed ||
    'problem' in backlash
  ) {
    const all = [first, second, torque, power, speed, backlash].flatMap((r) =>
      'problem' in r ? [r.problem] : [],
    );
    return { ok: false, problems: [...new Set(all)] };
  }
  const alloys = [first.value, second.value] as const;
  const load: LoadRequest = {
    materials: [castGearMaterial(alloys[0], v.safetyFactor), castGearMaterial(alloys[1], v.safetyFactor)],
    ...given('torque', torque.value),
    ...given('power', power.value),
    ...given('speed', speed.value),
    ...given('crankRadius', v.crankRadius),
  };
  return { ok: true, request: requestOf(v, load, backlash.value), alloys };
}

function requestOf(
  v: PairFieldValues,
  load: LoadRequest,
  backlash: BacklashRequest | undefined,
): PairRequest {
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
    load,
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
    ...given('backlash', backlash),
  };
}
