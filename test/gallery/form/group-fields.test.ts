import { describe, expect, it } from 'vitest';
import { listSchemaFields } from '../../../core/part/field-list.js';
import { note, stop, warn } from '../../../core/part/finding.js';
import { gravestFirst } from '../../../core/report/findings.js';
import {
  answersTo,
  countGroup,
  countsText,
  groupFieldsByHeading,
} from '../../../gallery/page/form/group-fields.js';
import { placeFindings, toldUnder } from '../../../gallery/page/form/place-findings.js';
import { presetSummary } from '../../../gallery/page/form/preset-summary.js';
import { findPart, parts } from '../../../generators/index.js';

const gear = listSchemaFields(findPart('double-helical-gear')!.parameters);
const found = (search: string): string[] => gear.filter((f) => answersTo(f, search)).map((f) => f.name);

describe('groups of fields', () => {
  it('hold every field of every part once', () => {
    for (const part of parts) {
      const fields = listSchemaFields(part.parameters);
      const grouped = groupFieldsByHeading(fields).flatMap((group) => group.fields);
      expect(new Set(grouped)).toEqual(new Set(fields));
      expect(grouped).toHaveLength(fields.length);
    }
  });

  it('come in the order of the schema', () => {
    expect(groupFieldsByHeading(gear).map(({ name }) => name)).toEqual(['Teeth', 'Body', 'Bore and hub']);
  });

  it('say what is set and wrong in them', () => {
    const counts = countGroup(
      gear,
      { module: 2, teeth: 41, bore: undefined },
      (name) => name === 'teeth',
      (name) => (name === 'bore' ? [stop('a', 'b', 'c'), warn('d', 'e', 'f')] : []),
    );
    expect(countsText(counts)).toBe('2 set, 1 problem, 1 stop, 1 warning');
    expect(
      countsText(
        countGroup(
          gear,
          {},
          () => false,
          () => [],
        ),
      ),
    ).toBe('');
  });
});

describe('finding a size', () => {
  it('answers to names, symbols as written or printed, help and choices', () => {
    expect(found('helix angle')).toEqual(['helixAngle']);
    expect(found('m_n')).toEqual(['module']);
    expect(found('α')).toEqual(['pressureAngle']);
    expect(found('z')).toContain('teeth');
    expect(found('staggered')).toEqual(['apex']);
    expect(found('keyed')).toContain('boreShape');
  });

  it('wants every word, and gives nothing where none fits', () => {
    expect(found('hub length')).toEqual(['hubLength']);
    expect(found('zeppelin')).toEqual([]);
  });
});

describe('findings', () => {
  const through = stop('bore-through-root', 'too large', 'smaller', 'bore', 'teeth');
  const mould = warn('pour-slow', 'slow', 'faster');

  it('are told once, pointed to from the other fields, and left over where they name none', () => {
    const placed = placeFindings([through, mould, through], gear);
    expect([...placed.told]).toEqual([['bore', [through]]]);
    expect([...placed.alsoConcerned]).toEqual([['teeth', [through]]]);
    expect(placed.others).toEqual([mould]);
    expect(toldUnder(through, gear)).toBe('bore');
  });

  it('that name fields of another part alone are left over', () => {
    expect(placeFindings([warn('x', 'y', 'z', 'lipLength')], gear).others).toHaveLength(1);
  });

  it('come gravest first and otherwise in their order', () => {
    const [a, b] = [note('n', 'n', 'n'), note('m', 'm', 'm')];
    expect(gravestFirst([a, mould, b, through])).toEqual([through, mould, a, b]);
  });
});

describe('a preset in a line', () => {
  it('tells its values in the reader’s unit, the first four of many', () => {
    const text = presetSummary({ module: 2, teeth: 41, helixAngle: Math.PI / 6 }, gear, 'in');
    expect(text).toBe('Module 0.0787 in, teeth 41, helix angle 30°');
    const many = { module: 2, teeth: 41, faceWidth: 20, bore: 10, hubLength: 5, holes: 3 };
    expect(presetSummary(many, gear, 'mm')).toBe(
      'Module 2 mm, teeth 41, face width 20 mm, holes 3 and 2 more',
    );
  });

  it('is never empty for the presets there are', () => {
    for (const part of parts) {
      const fields = listSchemaFields(part.parameters);
      for (const preset of Object.values(part.presets ?? {})) {
        expect(presetSummary(preset as Record<string, unknown>, fields, 'mm')).not.toBe('');
      }
    }
  });
});
