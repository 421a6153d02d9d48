import { describe, expect, it } from 'vitest';
import { checkOwnAlloy, findAlloy } from '../../../core/foundry/alloys/index.js';
import { emptyGroup, JobReader } from '../../../core/job/job-reader.js';
import { readOwnAlloys } from '../../../core/job/read-own-alloys.js';
import { readYaml } from '../../../core/job/yaml-tree.js';

const read = (text: string) => {
  const { root, position } = readYaml(text);
  const reader = new JobReader('shop.yaml', root ?? emptyGroup, position);
  const alloys = readOwnAlloys({ reader, node: reader.root, path: [] });
  return {
    alloys,
    problems: reader.problems.map((p) => `${p.line}:${p.column} ${p.path.join('.')} ${p.code}`),
  };
};

describe('readOwnAlloys', () => {
  const base = findAlloy('tin-bronze')!;

  it('sets what is given, says so, and keeps the rest with its sources', () => {
    const { alloys, problems } = read(`alloys:
  - name: harbour-bronze
    title: Harbour bronze
    basedOn: tin-bronze
    composition: { Cu: 86, Sn: 10, Pb: 2, Zn: 2 }
    density: 8.8
    contraction: 0.0165
    liquidus: 1810F
    pourLow: 1060C
    pourHigh: 1220C
    minimumSection: 2.5mm
`);
    expect(problems).toEqual([]);
    const [own] = alloys;
    expect(own).toMatchObject({
      name: 'harbour-bronze',
      density: 8.8e-3,
      contraction: { low: 0.0165, usual: 0.0165, high: 0.0165 },
      pourRange: { heavy: [1060, 1140], light: [1140, 1220] },
      minimumSection: 2.5,
      solidus: base.solidus,
      latentHeat: base.latentHeat,
    });
    expect(own!.liquidus).toBeCloseTo((1810 - 32) / 1.8, 9);
    // Lead was not in the base row.
    expect(own!.hazards).toContain('lead');
    for (const group of [
      'composition',
      'density',
      'contraction',
      'melting',
      'pour',
      'minimumSection',
    ] as const)
      expect(own!.sources[group]).toBe('set in the shop profile');
    for (const group of ['latentHeat', 'strength', 'flask', 'conductivity'] as const)
      expect(own!.sources[group]).toBe(base.sources[group]);
    expect(findAlloy('Harbour-Bronze', alloys)).toBe(own);
    expect(findAlloy('harbour-bronze')).toBeUndefined();
    expect(checkOwnAlloy(own!, base)).toEqual([]);
  });

  it('scales the density with the composition: 80-20 bell metal is 8.57 by specific volumes', () => {
    const { alloys } = read('alloys: [{ name: bell, basedOn: tin-bronze, composition: { Cu: 80, Sn: 20 } }]');
    // 1/(0.8/8.96 + 0.2/7.29) = 8.569; the base lies at 8.72 for 8.715.
    expect(alloys[0]!.density * 1000).toBeCloseTo((8.569 * 8.72) / 8.715, 2);
    expect(alloys[0]!.sources.density).toMatch(/rule of mixtures/);
  });

  it('doubts a density that the composition does not explain', () => {
    const { alloys } = read('alloys: [{ name: bell, basedOn: tin-bronze, density: 7.8 }]');
    expect(checkOwnAlloy(alloys[0]!, base).map((f) => f.code)).toEqual(['own-alloy-density']);
  });

  it.each([
    ['alloys: 3', ['1:9 alloys wrong-type']],
    ['alloys:\n  - name: x1', ['2:5 alloys.0.basedOn missing']],
    ['alloys:\n  - { name: x1, basedOn: tin-bronce }', ['2:26 alloys.0.basedOn unknown-alloy']],
    ['alloys:\n  - { name: tin-bronze, basedOn: tin-bronze }', ['2:13 alloys.0.name duplicate-name']],
    ['alloys:\n  - { name: x1, basedOn: pewter, densty: 7 }', ['2:34 alloys.0.densty unknown-key']],
    ['alloys:\n  - { name: x1, basedOn: pewter, density: 70 }', ['2:43 alloys.0.density out-of-range']],
    [
      'alloys:\n  - { name: x1, basedOn: pewter, composition: { Sn: 80 } }',
      ['2:47 alloys.0.composition out-of-range'],
    ],
    [
      'alloys:\n  - { name: x1, basedOn: pewter, composition: { Xx: 80 } }',
      ['2:49 alloys.0.composition.Xx unknown-key'],
    ],
    ['alloys:\n  - { name: x1, basedOn: pewter, solidus: 300C }', ['2:43 alloys.0.solidus out-of-range']],
    [
      'alloys:\n  - { name: x1, basedOn: pewter }\n  - { name: x1, basedOn: pewter }',
      ['3:13 alloys.1.name duplicate-name'],
    ],
  ])('%s', (text, expected) => {
    const { alloys, problems } = read(text);
    expect(problems).toEqual(expected);
    expect(alloys.length).toBeLessThan(2);
  });
});
