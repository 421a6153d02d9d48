import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { BuildResult } from '../../core/part/contract.js';
import { type Finding, hasStop, type Severity } from '../../core/part/finding.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import { findPart } from '../../generators/index.js';
import { expectSound } from '../helpers/expect-sound.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const degrees = Math.PI / 180;
const stock: Stock = { flank: 0.2, tip: 0.2, face: 0.5, bore: 0.4, skin: 0.3, mating: 0.4 };

type Parameters = Readonly<Record<string, number | string>>;

interface Trouble {
  readonly what: string;
  readonly part: string;
  readonly given: Parameters;
  readonly code: string;
  readonly severity: Severity;
  /** What the remedy says to do, where it can be done without thinking; `said` is the last number in it. */
  readonly follow?: (said: number) => Parameters;
}

const spur = (given: Parameters): Pick<Trouble, 'part' | 'given'> => ({ part: 'spur-gear', given });
const helical = (given: Parameters): Pick<Trouble, 'part' | 'given'> => ({ part: 'helical-gear', given });
const double = (given: Parameters): Pick<Trouble, 'part' | 'given'> => ({
  part: 'double-helical-gear',
  given,
});
const ring = (given: Parameters): Pick<Trouble, 'part' | 'given'> => ({ part: 'ring-gear', given });
const rack = (given: Parameters): Pick<Trouble, 'part' | 'given'> => ({ part: 'rack', given });
const key = { boreShape: 'keyed' };

const troubles: readonly Trouble[] = [
  // Teeth.
  ...[spur, helical, double].map(
    (part): Trouble => ({
      what: 'undercut',
      ...part({ teeth: 9, bore: 0 }),
      code: 'undercut',
      severity: 'warn',
      follow: (profileShift) => ({ profileShift }),
    }),
  ),
  {
    what: 'undercut that leaves no foot',
    ...spur({ teeth: 6, profileShift: -0.6, pressureAngle: 14.5 * degrees, bore: 0 }),
    code: 'tooth-cut-through',
    severity: 'stop',
    follow: () => ({ profileShift: 0.2 }),
  },
  {
    what: 'undercut that leaves no flank',
    ...spur({ teeth: 9, profileShift: -0.67, addendum: 0.53, bore: 0 }),
    code: 'undercut-to-tip',
    severity: 'stop',
    follow: () => ({ profileShift: 0.2 }),
  },
  {
    what: 'thin tips',
    ...spur({ teeth: 10, profileShift: 0.6, bore: 0 }),
    code: 'thin-tip',
    severity: 'warn',
    follow: () => ({ tipShortening: 0.5 }),
  },
  {
    what: 'pointed tips',
    ...spur({ teeth: 9, profileShift: 1, bore: 0 }),
    code: 'pointed-tooth',
    severity: 'stop',
    follow: () => ({ profileShift: 0.4 }),
  },
  {
    what: 'pointed tips',
    ...helical({ teeth: 9, profileShift: 0.8, helixAngle: 10 * degrees, bore: 0 }),
    code: 'pointed-tooth',
    severity: 'stop',
    follow: () => ({ addendum: 0.6 }),
  },
  {
    what: 'tips inside the base circle',
    ...spur({ teeth: 6, profileShift: -0.8, addendum: 0.5, dedendum: 0.7, bore: 0 }),
    code: 'no-flank',
    severity: 'stop',
    follow: () => ({ profileShift: 0.3 }),
  },
  {
    what: 'a cutting rack pointed before its tip',
    ...spur({ pressureAngle: 30 * degrees, dedendum: 1.6 }),
    code: 'rack-pointed',
    severity: 'stop',
    follow: () => ({ dedendum: 1.1 }),
  },
  {
    what: 'a root radius too large for the rack',
    ...spur({ rootRadius: 0.5 }),
    code: 'root-radius-too-large',
    severity: 'stop',
    follow: () => ({ rootRadius: 0.38 }),
  },
  {
    what: 'a tip rounding too large for the tip',
    ...spur({ tipRounding: 3 }),
    code: 'tip-rounding-reduced',
    severity: 'note',
    follow: (tipRounding) => ({ tipRounding }),
  },
  {
    what: 'module and diametral pitch at once',
    ...spur({ module: 2, diametralPitch: 12 }),
    code: 'module-and-diametral-pitch',
    severity: 'stop',
  },
  {
    what: 'a gear larger than the largest',
    ...spur({ module: 12, teeth: 60 }),
    code: 'gear-too-large',
    severity: 'stop',
    follow: () => ({ teeth: 24 }),
  },
  {
    what: 'side chamfers deeper than the teeth',
    ...spur({ module: 1, edgeChamfer: 4 }),
    code: 'edge-chamfer-too-large',
    severity: 'stop',
    follow: (edgeChamfer) => ({ edgeChamfer }),
  },
  // Bore and keyway.
  ...[spur, helical, double].map(
    (part): Trouble => ({
      what: 'bore through the roots',
      ...part({ teeth: 20, bore: 36 }),
      code: 'bore-through-root',
      severity: 'stop',
      follow: (bore) => ({ bore }),
    }),
  ),
  {
    what: 'square bore through the roots by its corners',
    ...spur({ teeth: 20, bore: 25, boreShape: 'square' }),
    code: 'bore-through-root',
    severity: 'stop',
    follow: (bore) => ({ bore }),
  },
  {
    what: 'bore that leaves a thin rim',
    ...spur({ teeth: 20, bore: 28 }),
    code: 'thin-rim',
    severity: 'warn',
    follow: (bore) => ({ bore }),
  },
  ...[spur, double].map(
    (part): Trouble => ({
      what: 'keyway through the rim',
      ...part({ teeth: 20, bore: 29, ...key }),
      code: 'keyway-through-rim',
      severity: 'stop',
      follow: (bore) => ({ bore }),
    }),
  ),
  {
    what: 'bore too small for a keyway',
    ...spur({ bore: 5, ...key }),
    code: 'no-keyway-for-bore',
    severity: 'stop',
    follow: () => ({ bore: 7 }),
  },
  {
    what: 'bore too small for an inch keyway',
    ...spur({ bore: 6, keyStandard: 'inch', ...key }),
    code: 'no-keyway-for-bore',
    severity: 'stop',
    follow: () => ({ bore: 9 }),
  },
  { what: 'a bore of half a millimetre', ...spur({ bore: 0.5 }), code: 'bore-too-small', severity: 'stop' },
  {
    what: 'a flat that is no flat',
    ...spur({ bore: 10, boreShape: 'flat', boreFlat: 10 }),
    code: 'bore-flat-out-of-range',
    severity: 'stop',
    follow: (boreFlat) => ({ boreFlat }),
  },
  // Hub, web and openings.
  ...[spur, double].map(
    (part): Trouble => ({
      what: 'hub larger than the root circle',
      ...part({ teeth: 16, hub: 'one', hubDiameter: 60 }),
      code: 'hub-larger-than-root',
      severity: 'stop',
      follow: (hubDiameter) => ({ hubDiameter }),
    }),
  ),
  {
    what: 'hub no thicker than the bore',
    ...spur({ teeth: 40, bore: 20, hub: 'one', hubDiameter: 20 }),
    code: 'hub-wall-thin',
    severity: 'stop',
    follow: (hubDiameter) => ({ hubDiameter }),
  },
  {
    what: 'keyway through the hub',
    ...spur({ teeth: 40, bore: 20, hub: 'both', hubDiameter: 25, ...key }),
    code: 'hub-wall-thin',
    severity: 'stop',
    follow: (hubDiameter) => ({ hubDiameter }),
  },
  ...[spur, helical].map(
    (part): Trouble => ({
      what: 'web thicker than the face',
      ...part({ teeth: 60, faceWidth: 10, webThickness: 12 }),
      code: 'web-thicker-than-face',
      severity: 'stop',
      follow: () => ({ webThickness: 6 }),
    }),
  ),
  {
    what: 'no room for a web',
    ...spur({ teeth: 20, webThickness: 6 }),
    code: 'no-room-for-web',
    severity: 'stop',
    follow: () => ({ webThickness: 20 }),
  },
  {
    what: 'a rim thinner than the teeth need',
    ...spur({ teeth: 60, webThickness: 8, rimThickness: 2 }),
    code: 'thin-rim',
    severity: 'warn',
    follow: (rimThickness) => ({ rimThickness }),
  },
  {
    what: 'windows that leave a thin rim',
    ...helical({ teeth: 80, spokes: 5, rimThickness: 1.5 }),
    code: 'thin-rim',
    severity: 'warn',
    follow: (rimThickness) => ({ rimThickness }),
  },
  {
    what: 'holes that leave a thin rim',
    ...spur({ teeth: 60, holes: 6, rimThickness: 1.5 }),
    code: 'thin-rim',
    severity: 'warn',
    follow: (rimThickness) => ({ rimThickness }),
  },
  ...[spur, double].map(
    (part): Trouble => ({
      what: 'spokes with no room between them',
      ...part({ teeth: 40, spokes: 12, spokeWidth: 20 }),
      code: 'no-room-for-spokes',
      severity: 'stop',
      follow: () => ({ spokes: 4, spokeWidth: 6 }),
    }),
  ),
  {
    what: 'holes that run into each other',
    ...spur({ teeth: 60, holes: 12, holeDiameter: 30 }),
    code: 'holes-do-not-fit',
    severity: 'stop',
    follow: (holeDiameter) => ({ holeDiameter }),
  },
  {
    what: 'spokes and holes',
    ...spur({ teeth: 60, spokes: 5, holes: 6 }),
    code: 'spokes-and-holes',
    severity: 'stop',
    follow: () => ({ holes: 0 }),
  },
  {
    what: 'a heavy hub beside a thin web',
    ...spur({ teeth: 60, webThickness: 3, hubDiameter: 60, hub: 'both' }),
    code: 'uneven-sections',
    severity: 'note',
    follow: () => ({ webThickness: 8, hubDiameter: 30 }),
  },
  // Setscrew.
  {
    what: 'setscrew without a hub',
    ...spur({ teeth: 40, setscrew: 'M5' }),
    code: 'setscrew-needs-hub',
    severity: 'stop',
    follow: () => ({ hub: 'one', hubLength: 13 }),
  },
  {
    what: 'setscrew wider than the hub',
    ...spur({ teeth: 40, bore: 10, hub: 'one', hubLength: 40, hubDiameter: 14, setscrew: 'M8' }),
    code: 'setscrew-too-large',
    severity: 'stop',
    follow: () => ({ setscrew: 'M4' }),
  },
  {
    what: 'setscrew boss into the teeth',
    ...spur({ teeth: 20, bore: 20, hub: 'one', hubLength: 40, hubDiameter: 32, setscrew: 'M10' }),
    code: 'setscrew-boss-too-long',
    severity: 'stop',
    follow: () => ({ setscrew: 'M5' }),
  },
  // Double-helical.
  {
    what: 'a groove as wide as the face',
    ...double({ faceWidth: 10, apex: 'gap', apexWidth: 10 }),
    code: 'apex-too-wide',
    severity: 'stop',
    follow: (apexWidth) => ({ apexWidth }),
  },
  // Ring.
  {
    what: 'internal interference: tips inside the base circle',
    ...ring({ teeth: 30 }),
    code: 'internal-tip-below-base',
    severity: 'stop',
    follow: () => ({ teeth: 40 }),
  },
  {
    what: 'internal interference: a cutter that trims the tips',
    ...ring({ teeth: 40, cutterTeeth: 34 }),
    code: 'cutter-trims-tips',
    severity: 'warn',
    follow: (cutterTeeth) => ({ cutterTeeth }),
  },
  {
    what: 'a cutter that does not turn in the ring',
    ...ring({ teeth: 40, cutterTeeth: 40 }),
    code: 'cutter-too-large',
    severity: 'stop',
    follow: () => ({ cutterTeeth: 20 }),
  },
  {
    what: 'a ring with a thin rim',
    ...ring({ teeth: 60, rimThickness: 2 }),
    code: 'thin-rim',
    severity: 'warn',
    follow: (rimThickness) => ({ rimThickness }),
  },
  {
    what: 'a ring with thin tips',
    ...ring({ teeth: 60, addendum: 1.3, thinning: 1.5 }),
    code: 'thin-tip',
    severity: 'warn',
    follow: () => ({ addendum: 1, thinning: 0.2 }),
  },
  {
    what: 'a ring with pointed tips',
    ...ring({ teeth: 60, addendum: 1.3, thinning: 2 }),
    code: 'pointed-tooth',
    severity: 'stop',
    follow: () => ({ addendum: 1, thinning: 0.2 }),
  },
  {
    what: 'a ring whose cutter comes to a point',
    ...ring({ teeth: 56, rackProfile: 'D', cutterTeeth: 10 }),
    code: 'cutter-pointed',
    severity: 'stop',
    follow: () => ({ cutterTeeth: 25 }),
  },
  {
    what: 'a ring that no cutter can mesh with',
    ...ring({ teeth: 60, profileShift: 1, addendum: 0.65, dedendum: 0.7 }),
    code: 'no-cutting-position',
    severity: 'stop',
    follow: () => ({ profileShift: 0.3 }),
  },
  {
    what: 'a ring larger than the largest',
    ...ring({ teeth: 200, module: 3 }),
    code: 'gear-too-large',
    severity: 'stop',
    follow: () => ({ teeth: 60 }),
  },
  // Rack.
  {
    what: 'a rack cut through from the roots',
    ...rack({ module: 3, height: 5 }),
    code: 'rack-too-thin',
    severity: 'stop',
    follow: (height) => ({ height }),
  },
  {
    what: 'a rack with little behind the roots',
    ...rack({ module: 3, height: 7 }),
    code: 'thin-back',
    severity: 'warn',
    follow: (height) => ({ height }),
  },
  {
    what: 'a rack longer than the longest',
    ...rack({ module: 6, teeth: 60 }),
    code: 'rack-too-long',
    severity: 'stop',
    follow: () => ({ teeth: 12 }),
  },
  {
    what: 'a rack with thin tips',
    ...rack({ module: 2, addendum: 1.3, pressureAngle: 25 * degrees, dedendum: 1, thinning: 0.4 }),
    code: 'thin-tip',
    severity: 'warn',
    follow: () => ({ addendum: 1 }),
  },
  {
    what: 'a rack with pointed tips',
    ...rack({ module: 2, addendum: 1.3, pressureAngle: 30 * degrees, dedendum: 1, thinning: 0.5 }),
    code: 'pointed-tooth',
    severity: 'stop',
    follow: () => ({ addendum: 0.8 }),
  },
  {
    what: 'root fillets that overlap',
    ...rack({ module: 2, rootRadius: 0.5, dedendum: 1.25 }),
    code: 'root-radius-too-large',
    severity: 'stop',
    follow: () => ({ rootRadius: 0.3 }),
  },
];

/** Part and casting, as far as they can be built, and every finding of either. */
function make(part: string, given: Parameters): { findings: readonly Finding[]; meshes: readonly Mesh[] } {
  const definition = findPart(part);
  if (!definition) throw new Error(part);
  const parameters = definition.parameters.parse(given);
  const findings: Finding[] = [];
  const meshes: Mesh[] = [];
  for (const state of [noStock, stock]) {
    const mesh = kernel.scope(() => {
      const built: BuildResult = definition.build(parameters, state, { kernel, tolerance: 0.03 });
      findings.push(...built.findings);
      expect(built.solid === null).toBe(hasStop(built.findings));
      return built.solid?.mesh();
    });
    if (mesh) meshes.push(mesh);
  }
  return { findings, meshes };
}

describe('troubles of gears: each a finding with a remedy, none a broken mesh', () => {
  it.each(troubles.map((t) => [`${t.part}: ${t.what}`, t] as const))('%s', (_, trouble) => {
    const { part, given, code, severity, follow } = trouble;
    const { findings, meshes } = make(part, given);
    const found = findings.find((f) => f.code === code);
    expect(
      found,
      findings.map((f) => `${f.code}: ${f.message} ${f.remedy}`).join('\n') || 'no finding',
    ).toBeDefined();
    const { message, remedy, parameters = [] } = found as Finding;
    expect((found as Finding).severity).toBe(severity);
    // Read by a person: whole sentences, no code names of numbers gone wrong, and what to change.
    for (const text of [message, remedy]) {
      expect(text).toMatch(/^[A-Z0-9].*[.!?]$/);
      expect(text).not.toMatch(/NaN|undefined|Infinity/);
    }
    for (const name of parameters) expect(findPart(part)?.parameters.shape).toHaveProperty(name);
    expect(parameters.length).toBeGreaterThan(0);
    // What is not refused is whole in both states.
    expect(meshes.length).toBe(severity === 'stop' ? 0 : 2);
    for (const mesh of meshes) expectSound(mesh);
    if (!follow) return;
    const numbers = remedy.match(/\d+(\.\d+)?/g) ?? [];
    const changed = follow(Number(numbers[0]));
    for (const value of Object.values(changed)) expect(value).not.toBeNaN();
    const mended = make(part, { ...given, ...changed });
    expect(mended.findings.filter((f) => f.code === code || f.severity === 'stop')).toEqual([]);
    expect(mended.meshes.length).toBe(2);
    for (const mesh of mended.meshes) expectSound(mesh);
  });

  it('has every finding that the single gears can give', () => {
    const covered = new Set(troubles.map((t) => t.code));
    // Seen elsewhere: notes on how bore and screw are made, meshes refused for their size, and a root that no legal
    // tooth number brings to the axis.
    const elsewhere = [
      ...['keyway-cut-after', 'bore-core-long', 'bore-cast-solid', 'bore-cast-as-pilot', 'setscrew-drilled'],
      ...['mesh-too-fine', 'root-at-axis', 'double-helical-gear', 'spur-gear', 'ring-gear', 'helical-gear'],
    ];
    const sources = [
      ...['ring-gear', 'rack', 'double-helical-gear', 'spur-gear', 'helical-gear'].map(
        (n) => `generators/${n}.ts`,
      ),
      ...['build-gear', 'check-body', 'bore', 'openings', 'setscrew', 'thin-tip', 'tooth-spec'].map(
        (n) => `generators/gear/${n}.ts`,
      ),
      ...['tooth-form', 'internal-form', 'rack-form'].map((n) => `core/gear/${n}.ts`),
    ];
    const given = sources.flatMap((path) =>
      [...readFileSync(path, 'utf8').matchAll(/(?<!code: )'([a-z]+(?:-[a-z]+)+)',?$/gm)].map(
        (m) => m[1] as string,
      ),
    );
    expect(given.filter((code) => !covered.has(code) && !elsewhere.includes(code))).toEqual([]);
  });
});
