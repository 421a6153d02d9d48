import { describe, expect, it } from 'vitest';
import { listSchemaFields } from '../../../core/part/field-list.js';
import { fieldWords, plainWords, readSymbol } from '../../../core/part/field-words.js';
import { parts } from '../../../generators/index.js';

describe('field words', () => {
  it('spell code names', () => {
    expect(fieldWords('helixAngle')).toBe('Helix angle');
    expect(fieldWords('teeth')).toBe('Teeth');
  });

  it('spell the code names in a sentence, and leave units alone', () => {
    expect(plainWords('a fifth of faceWidth, 2 kWh, 30 °C')).toBe('a fifth of face width, 2 kWh, 30 °C');
    expect(plainWords('Let boreCasting be auto.')).toBe('Let bore casting be auto.');
  });

  it('set symbols', () => {
    expect(readSymbol('m_n')).toEqual({ letter: 'm', subscript: 'n', mark: '' });
    expect(readSymbol('alpha_n')).toEqual({ letter: 'α', subscript: 'n', mark: '' });
    expect(readSymbol('rho_fP*')).toEqual({ letter: 'ρ', subscript: 'fP', mark: '*' });
    expect(readSymbol('beta')).toEqual({ letter: 'β', subscript: '', mark: '' });
    expect(readSymbol('L')).toEqual({ letter: 'L', subscript: '', mark: '' });
  });

  it('set every symbol of every part in single letters', () => {
    for (const part of parts) {
      for (const { info } of listSchemaFields(part.parameters)) {
        if (info.symbol !== undefined) expect([...readSymbol(info.symbol).letter]).toHaveLength(1);
      }
    }
  });
});
