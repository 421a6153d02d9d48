import { describe, expect, it } from 'vitest';
import { optionName } from '../../../core/part/field-list.js';
import { groupFields, listFields } from '../../../core/part/help.js';
import { readParameters } from '../../../core/part/parameters.js';
import { testBracket } from '../job/test-part.js';

describe('listFields', () => {
  it('describes each field in millimetres', () => {
    const rows = listFields(testBracket.parameters, 'mm');
    expect(rows.map((row) => [row.name, row.option, row.unit, row.range, row.default])).toEqual([
      ['width', 'width', 'mm', 'from 5 to 400 mm', '40 mm'],
      ['boreDiameter', 'bore-diameter', 'mm', 'from 0 to 100 mm', 'a third of the width'],
      ['tilt', 'tilt', '°', 'from 0 to 45°', '30°'],
      ['shift', 'shift', '', 'from -0.5 to 0.8', '0'],
      ['holes', 'holes', '', 'a whole number from 1 to 12', '2'],
      ['hand', 'hand', '', 'one of left, right', 'left'],
      ['countersunk', 'countersunk', '', 'yes or no', 'no'],
    ]);
    expect(rows[0]).toMatchObject({
      group: 'Shape',
      kind: 'length',
      symbol: 'b',
      help: 'Overall width',
      derived: false,
    });
    expect(rows[1]).toMatchObject({ derived: true, symbol: '', choices: [] });
    expect(rows[5]).toMatchObject({ choices: ['left', 'right'] });
  });

  it('describes lengths in inches', () => {
    expect(listFields(testBracket.parameters, 'in')[0]).toMatchObject({
      unit: 'in',
      range: 'from 0.1969 to 15.748 in',
      default: '1.5748 in',
    });
  });

  it('groups them under their headings', () => {
    const groups = groupFields(listFields(testBracket.parameters, 'mm'));
    expect(groups.map(({ group, fields }) => [group, fields.length])).toEqual([
      ['Shape', 4],
      ['Holes', 3],
    ]);
  });

  it('shows defaults that can be typed back', () => {
    const rows = listFields(testBracket.parameters, 'mm').filter((row) => !row.derived);
    const typed = Object.fromEntries(rows.map((row) => [row.option, row.default]));
    const plain = readParameters(testBracket, {}, { lengthUnit: 'mm' });
    expect(readParameters(testBracket, typed, { lengthUnit: 'mm' })).toEqual(plain);
  });
});

describe('optionName', () => {
  it.each([
    ['helixAngle', 'helix-angle'],
    ['teeth', 'teeth'],
    ['dpInch', 'dp-inch'],
    ['hole2Diameter', 'hole2-diameter'],
  ])('%s is --%s', (name, option) => {
    expect(optionName(name)).toBe(option);
  });
});
