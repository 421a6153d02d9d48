import { largestToleranceDimension } from '../foundry/iso-8062.js';
import { type Finding, stop } from '../part/finding.js';
import { type PairRequest, usualRatioTolerance } from './pair-request.js';

/** Least tooth number of a ring that the part can be made with. */
export const leastRingTeeth = 20;

/** What is wrong with the request in itself; empty when a search makes sense. */
export const checkRequest = (request: PairRequest): readonly Finding[] => [
  ...checkNumbers(request),
  ...checkMesh(request),
  ...checkBacklash(request),
  ...checkEnough(request),
];

const bad = (name: string, value: unknown, right: string): Finding =>
  stop(
    'bad-request',
    `The ${name} asked for is ${String(value)}.`,
    `Give ${right}.`,
    name.replace(/ (\w)/g, (_, c: string) => c.toUpperCase()),
  );

const degreesOf = (angle: number): string => `${Number(((angle * 180) / Math.PI).toFixed(3))}°`;

function checkNumbers(request: PairRequest): readonly Finding[] {
  const findings: Finding[] = [];
  const positive = (name: string, value: number | undefined) => {
    if (value !== undefined && !(value > 0 && Number.isFinite(value)))
      findings.push(bad(name, value, 'a number above 0'));
  };
  positive('ratio', request.ratio);
  positive('centre distance', request.centreDistance);
  positive('face width', request.faceWidth);
  positive('largest diameter', request.largestDiameter);
  positive('largest centre distance', request.largestCentreDistance);
  positive('travel', request.travel);
  positive('travel per turn', request.travelPerTurn);
  for (const [name, value] of [
    ['module', request.module],
    ['diametral pitch', request.diametralPitch],
  ] as const) {
    if (typeof value === 'number') positive(name, value);
    else if (value && !(value.from > 0 && value.to >= value.from))
      findings.push(bad(name, `${value.from} to ${value.to}`, 'two numbers above 0, the smaller first'));
  }
  const tolerance = request.ratioTolerance;
  if (tolerance !== undefined && !(tolerance >= 0 && tolerance < 1))
    findings.push(bad('ratio tolerance', tolerance, 'a share from 0 to below 1'));
  for (const teeth of [...(request.teeth ?? []), request.gearTeeth, request.mateTeeth]) {
    if (teeth !== undefined && (!Number.isInteger(teeth) || teeth < 5 || teeth > 400))
      findings.push(bad('teeth', teeth, 'a whole number of teeth from 5 to 400'));
  }
  const helix = request.helixAngle;
  if (helix !== undefined && !(helix >= 0 && helix < (50 * Math.PI) / 180))
    findings.push(bad('helix angle', degreesOf(helix), 'an angle from 0 to below 50°'));
  if (request.gearType === 'spur' && helix !== undefined && helix !== 0)
    findings.push(
      bad('helix angle', `${degreesOf(helix)} on spur gears`, 'no helix angle, or ask for helical gears'),
    );
  return findings;
}

function checkMesh(request: PairRequest): readonly Finding[] {
  const { mesh = 'external', gearType, ratio, teeth } = request;
  const findings: Finding[] = [];
  if (mesh !== 'external' && gearType === 'double-helical') {
    findings.push(
      stop(
        'no-double-helical-mate',
        `A double-helical ${mesh === 'internal' ? 'ring' : 'rack'} is asked for; it comes straight or helical only.`,
        'Ask for spur or helical gears.',
        'gearType',
      ),
    );
  }
  const ring = teeth?.[1] ?? request.mateTeeth;
  if (mesh === 'internal' && ring !== undefined && ring < leastRingTeeth)
    findings.push(bad('mate teeth', `${ring} on a ring`, `at least ${leastRingTeeth} teeth`));
  if (mesh === 'internal' && teeth && teeth[1] <= teeth[0])
    findings.push(
      bad(
        'mate teeth',
        `${teeth[1]}, of the ring round ${teeth[0]} teeth`,
        'the ring more teeth than the pinion',
      ),
    );
  if (mesh === 'internal' && ratio !== undefined && ratio <= 1)
    findings.push(bad('ratio', `${ratio} in a ring`, 'a ratio above 1: gear 1 is the pinion'));
  if (mesh === 'rack' && ratio !== undefined)
    findings.push(
      bad('ratio', `${ratio} on a rack`, 'the travel of the rack in one turn of the pinion instead'),
    );
  if (mesh !== 'rack' && (request.travel !== undefined || request.travelPerTurn !== undefined))
    findings.push(
      stop(
        'travel-without-rack',
        'A travel is given, but there is no rack.',
        'Ask for a rack as the mate, or leave the travel out.',
        'travel',
        'travelPerTurn',
      ),
    );
  return findings;
}

function checkBacklash({ backlash }: PairRequest): readonly Finding[] {
  if (!backlash) return [];
  if (backlash.kind !== 'as-cast') {
    const { value } = backlash;
    return value >= 0 && Number.isFinite(value) ? [] : [bad('backlash', value, 'a length of 0 or more')];
  }
  const findings: Finding[] = [];
  for (const [name, grade] of [
    ['tooth grade', backlash.toothGrade],
    ['centre grade', backlash.centreGrade],
  ] as const) {
    // The finest two are not defined for every size up to the table's end.
    if (grade !== undefined && !(Number.isInteger(grade) && grade >= 3 && grade <= 12))
      findings.push(
        bad(
          name,
          grade,
          `a DCTG of ISO 8062-3 from 3 to 12, known here up to ${largestToleranceDimension} mm`,
        ),
      );
  }
  for (const [name, value] of [
    ['centre tolerance', backlash.centreTolerance],
    ['runout', backlash.runout],
  ] as const) {
    if (value !== undefined && !(value >= 0 && Number.isFinite(value)))
      findings.push(bad(name, value, 'a length of 0 or more'));
  }
  return findings;
}

/** Whether the request says enough to look for a pair, and nothing twice. */
function checkEnough(request: PairRequest): readonly Finding[] {
  const findings: Finding[] = [];
  const { module, diametralPitch, centreDistance, mesh } = request;
  if (module !== undefined && diametralPitch !== undefined) {
    findings.push(
      stop(
        'module-and-diametral-pitch',
        'Both a module and a diametral pitch are given; they say the same thing.',
        'Keep one of the two.',
        'module',
        'diametralPitch',
      ),
    );
  }
  const oneOfTwo = request.gearTeeth !== undefined || request.mateTeeth !== undefined;
  const related = request.teeth !== undefined || request.ratio !== undefined;
  if (request.teeth && request.ratio !== undefined) {
    const [z1, z2] = request.teeth;
    const off = Math.abs(z2 / z1 / request.ratio - 1);
    if (off > (request.ratioTolerance ?? usualRatioTolerance) + 1e-12)
      findings.push(
        stop(
          'ratio-contradicts-teeth',
          `${z1} and ${z2} teeth have the ratio ${Number((z2 / z1).toFixed(4))}, ${Number((off * 100).toPrecision(3))} % off the ${Number(request.ratio.toFixed(4))} asked for.`,
          'Leave the ratio or a tooth number out.',
          'teeth',
          'ratio',
        ),
      );
  }
  if (mesh !== 'rack' && !related && !(oneOfTwo && centreDistance !== undefined)) {
    findings.push(
      stop(
        'ratio-not-given',
        'Neither tooth numbers nor a ratio are given.',
        'Give both tooth numbers, or a ratio, or one tooth number and the centre distance.',
        'teeth',
        'ratio',
      ),
    );
  }
  const sizes = [
    module,
    diametralPitch,
    centreDistance,
    request.largestDiameter,
    request.largestCentreDistance,
    request.faceWidth,
    request.travelPerTurn,
  ];
  if (sizes.every((v) => v === undefined)) {
    findings.push(
      stop(
        'size-not-given',
        'Nothing says how large the pair is to be.',
        'Give a module or diametral pitch, a centre distance, a face width or the space there is.',
        'module',
        'centreDistance',
        'largestDiameter',
      ),
    );
  }
  return findings;
}
