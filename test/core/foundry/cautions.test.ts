import { describe, expect, it } from 'vitest';
import { alloys, findAlloy } from '../../../core/foundry/alloys/index.js';
import { planCautions } from '../../../core/foundry/cautions.js';
import { findInvestment } from '../../../core/foundry/investment.js';
import { findPlastic } from '../../../core/foundry/material.js';

const cautionsFor = (...names: string[]) =>
  planCautions(
    names.map((n) => findAlloy(n)!),
    findInvestment('gypsum-bonded')!,
    findPlastic('PLA')!,
  );

describe('planCautions', () => {
  it('always speaks of metal, steam, fumes, silica, loads and who comes first', () => {
    const hazards = cautionsFor('a356').map((c) => c.hazard);
    for (const h of ['molten metal', 'steam', 'burnout fumes', 'silica dust', 'loaded part', 'authority'])
      expect(hazards).toContain(h);
  });

  it('names the alloy where a hazard is its own, at the melt and after', () => {
    const lead = cautionsFor('tin-bronze', 'red-brass').filter((c) => c.hazard === 'lead');
    expect(lead.map((c) => c.step)).toEqual(['melt', 'finish', 'use']);
    for (const c of lead) {
      expect(c.text).toContain('Leaded red brass');
      expect(c.text).not.toContain('Tin bronze');
    }
    expect(cautionsFor('tin-bronze').some((c) => c.hazard === 'lead')).toBe(false);
    expect(cautionsFor('yellow-brass').some((c) => c.hazard === 'zinc fume')).toBe(true);
  });

  it('comes in the order of the work, each text once', () => {
    const all = cautionsFor(...alloys.map((a) => a.name));
    const order = ['print', 'mix', 'burnout', 'melt', 'pour', 'quench', 'finish', 'use'];
    const places = all.map((c) => order.indexOf(c.step));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(new Set(all.map((c) => c.text)).size).toBe(all.length);
  });
});
