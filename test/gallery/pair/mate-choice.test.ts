import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { appraise } from '../../../core/gear/pair-appraisal.js';
import { parseJob } from '../../../core/job/read-job.js';
import { checkMesh } from '../../../core/pair/mate/check-mesh.js';
import { mateEntry } from '../../../core/pair/mate/mate-entry.js';
import type { ToothedMember } from '../../../core/pair/mate/member.js';
import { freeName } from '../../../gallery/page/job/free-name.js';
import { chooseMates, firstTeeth, type RawWish } from '../../../gallery/page/pair/mate-choice.js';
import { isToothed, toothedMember } from '../../../gallery/page/pair/toothed-member.js';
import { partNames } from '../../../generators/index.js';
import { jobContext } from '../../../generators/job-context.js';

const partsOf = (parts: readonly object[]) => {
  const reading = parseJob(
    stringify({ job: 'pair', parts }, { aliasDuplicateObjects: false }),
    jobContext('job.yaml'),
  );
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.job.parts;
};

const memberOf = (part: string, parameters: Readonly<Record<string, unknown>>): ToothedMember => {
  const reading = toothedMember(part, parameters);
  if (!reading.ok) throw new Error(reading.findings[0]?.message);
  return reading.member;
};

const cases: readonly (readonly [string, string, Readonly<Record<string, unknown>>, RawWish])[] = [
  ['spur', 'spur-gear', { module: '2mm', teeth: 24, thinning: '0.05mm' }, { mateTeeth: 40 }],
  [
    'spur by diametral pitch, in steps of an inch',
    'spur-gear',
    { diametralPitch: 10, teeth: 20, pressureAngle: '25deg' },
    { ratio: 2 },
  ],
  [
    'helical',
    'helical-gear',
    { module: '2mm', teeth: 18, helixAngle: '18deg', hand: 'left', profileShift: 0.2 },
    { mateTeeth: 29, play: 'normal', backlash: '0.1mm' },
  ],
  [
    'double-helical on 64 mm',
    'double-helical-gear',
    { module: '2mm', teeth: 17, helixAngle: '25deg', profileShift: 0.2, faceWidth: '24mm', apex: 'rounded' },
    { mateTeeth: 41, centreDistance: '64mm' },
  ],
  [
    'ring for a pinion',
    'helical-gear',
    { module: '2mm', teeth: 20, helixAngle: '15deg', hand: 'left' },
    { mate: 'ring', mateTeeth: 60 },
  ],
  ['pinion for a ring', 'ring-gear', { module: '2mm', teeth: 60, addendum: 0.8 }, { mateTeeth: 20 }],
  ['rack', 'spur-gear', { module: '2mm', teeth: 24, rackProfile: 'C' }, { mate: 'rack' }],
  [
    'pinion for a rack',
    'rack',
    { module: '2mm', teeth: 12, helixAngle: '12deg' },
    { mateTeeth: 18, play: 'as-cast' },
  ],
];

describe('the job reads the mate’s entry back as the mate that was chosen', () => {
  it.each(cases)('%s', (_, part, parameters, wish) => {
    const first = { name: 'own', part, parameters };
    const chosen = memberOf(part, partsOf([first])[0]!.parameters);
    const { candidates, values, findings } = chooseMates(chosen, wish, 'mm');
    const pair = candidates[0];
    if (!pair) throw new Error(findings.map((f) => f.message).join(' '));
    const entry = mateEntry(chosen, values!.mate, pair, { name: 'other' });
    const [ownPart, otherPart] = partsOf([first, entry]);
    const [own, other] = [ownPart!, otherPart!].map((p) => memberOf(p.part, p.parameters)) as [
      ToothedMember,
      ToothedMember,
    ];
    expect(own.spec).toEqual(chosen.spec);
    const [gear, mate] = chosen.kind === 'gear' ? [own, other] : [other, own];
    const check = checkMesh(
      { kind: pair.mesh, gear: gear.spec, mate: mate.spec, distance: appraise(pair).distance },
      chosen,
    );
    expect(check.findings.filter((f) => f.severity === 'stop')).toEqual([]);
    expect(check.facts?.backlash.circumferential).toBeCloseTo(pair.facts.backlash.circumferential, 5);
    expect(other.faceWidth).toBeCloseTo(own.faceWidth, 6);
    expect(other.gearType).toBe(own.gearType);
    if (own.gearType !== 'spur') expect(other.hand === own.hand).toBe(pair.mesh === 'internal');
  });
});

describe('what is typed', () => {
  const chosen = memberOf('spur-gear', { module: 2, teeth: 24 });

  it('is read like a job’s fields, every problem told', () => {
    const { problems, candidates } = chooseMates(
      chosen,
      { mateTeeth: 'many', centreDistance: '3 stone' },
      'mm',
    );
    expect(candidates).toEqual([]);
    expect(problems.map((p) => p.path[0])).toEqual(['mateTeeth', 'centreDistance']);
  });

  it('lengths without a unit are the job’s', () => {
    const { candidates } = chooseMates(chosen, { mateTeeth: 40, centreDistance: 2.55 }, 'in');
    expect(appraise(candidates[0]!).distance).toBeCloseTo(2.55 * 25.4, 9);
  });

  it.each([
    ['spur-gear', { module: 2, teeth: 24 }, 'gear'],
    ['spur-gear', { module: 2, teeth: 24 }, 'ring'],
    ['spur-gear', { module: 2, teeth: 60 }, 'ring'],
    ['spur-gear', { module: 2, teeth: 24 }, 'rack'],
    ['ring-gear', { module: 2, teeth: 60, addendum: 0.8 }, 'gear'],
    ['rack', { module: 2, teeth: 12 }, 'gear'],
  ] as const)('%s %j has a first %s that serves', (part, parameters, mate) => {
    const member = memberOf(part, parameters);
    const { candidates, findings } = chooseMates(member, { mate, ...firstTeeth(member, mate) }, 'mm');
    expect(findings.map((f) => f.message)).toEqual([]);
    expect(candidates.length).toBe(1);
  });
});

it('a name that the job has not', () => {
  expect(freeName('wheel-mate', ['wheel'])).toBe('wheel-mate');
  expect(freeName('wheel-mate', ['wheel', 'wheel-mate', 'wheel-mate-2'])).toBe('wheel-mate-3');
});

it('toothed parts are the gears, the ring and the rack', () => {
  expect(partNames.filter(isToothed)).toEqual(
    expect.arrayContaining(['spur-gear', 'helical-gear', 'double-helical-gear', 'ring-gear', 'rack']),
  );
  expect(isToothed('knob')).toBe(false);
});

it('both module and diametral pitch: a finding, not a gear', () => {
  const reading = toothedMember('spur-gear', { module: 2, diametralPitch: 12, teeth: 24 });
  expect(reading.ok).toBe(false);
});
