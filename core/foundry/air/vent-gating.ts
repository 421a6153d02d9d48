import type { VentPlace } from '../../part/contract.js';
import { type Finding, note, warn } from '../../part/finding.js';
import type { Kernel, Mesh, Solid, Vec3 } from '../../solid/types.js';
import { columnPressure } from '../gating/choke.js';
import { defaultGatingSettings, type GatingInput } from '../gating/input.js';
import { isBuildable, planGating } from '../gating/plan.js';
import { buildGating } from '../gating/solid.js';
import { ventBackPressure } from '../gating/vents.js';
import type { GatingPlan } from '../plans.js';
import { readCavity } from './cavity.js';
import { placeVent } from './place-vent.js';
import type { AirPlan } from './plan.js';
import {
  plainPocket as bare,
  findPockets,
  leastPocket,
  searchPockets,
  totalVolume as total,
} from './pockets.js';

/** A gated pattern with its vents. */
export interface VentedGating {
  readonly gating: GatingPlan;
  readonly gatingSolid: Solid;
  readonly gated: Solid;
  readonly air: AirPlan;
  /** What the air does; the plan's own findings are in the plan. */
  readonly findings: readonly Finding[];
}

const mostRounds = 5;

/** Gates the pattern by the plan, finds the air it traps and adds vents until none is left or none can be put. */
export function ventGating(
  first: GatingPlan,
  input: GatingInput,
  pattern: Mesh,
  kernel: Kernel,
  tolerance: number,
): VentedGating {
  const body = kernel.fromMesh(pattern);
  const build = (gating: GatingPlan) => {
    const gatingSolid = buildGating(gating, kernel, tolerance);
    const gated = body.add(gatingSolid);
    const cavity = readCavity(gated.mesh());
    return { gating, gatingSolid, gated, cavity, ...searchPockets(cavity, openTops(gating)) };
  };
  const settings = { ...defaultGatingSettings, ...input.settings };
  const range = { least: settings.ventLeastDiameter, largest: settings.ventLargestDiameter };
  const before = build(first);
  let now = before;
  let added: readonly VentPlace[] = [];
  for (let round = 0; round < mostRounds && now.pockets.length > 0; round++) {
    const offered = now.pockets.flatMap((p, i) => {
      const place = placeVent(`air vent ${added.length + i + 1}`, p, now.cavity, pattern, range);
      return place ? [place] : [];
    });
    const next = planWith(input, [...added, ...offered]);
    if (next.places.length <= added.length || !isBuildable(next.gating)) break;
    const built = build(next.gating);
    if (total(built.pockets) >= total(now.pockets)) break;
    now = built;
    added = next.places;
  }
  const { gating } = now;
  const left = now.pockets.map(bare);
  const tilt = left.length > 0 ? betterTilt(now.gated.mesh(), gating, total(now.pockets)) : undefined;
  const { flow, ventArea } = gating.fill;
  const metalPressurePa = 1e6 * columnPressure(gating.sprue.head, input.metal.liquidDensity);
  const air: AirPlan = {
    threshold: leastPocket,
    pockets: before.pockets.map(bare),
    ventsAdded: added.map(({ name, at }) => ({
      name,
      at,
      diameter: gating.vents.find((v) => v.name === name)?.diameter ?? 0,
    })),
    left,
    ignored: now.ignored,
    ...(tilt ? { tilt } : {}),
    ...(ventArea > 0
      ? {
          outflow: {
            velocityMmPerSecond: flow / ventArea,
            pressurePa: ventBackPressure(gating.vents, flow),
            metalPressurePa,
          },
        }
      : {}),
    bases: {
      pockets: {
        rule: 'cavity above the saddle where air loses its way up to cup or vent',
        source: 'join tree of height (H. Carr, J. Snoeyink, U. Axen, 2003); volume by the divergence theorem',
      },
      threshold: { rule: 'pockets from 0.05 ml are told', source: 'common practice, no source' },
      outflow: {
        rule: 'pipe friction 32 μ L v/d² and 1.5 velocity heads, all vents at one pressure; air at 400 °C',
        source: 'Hagen and Poiseuille; air by Incropera, table A.4 (from memory)',
      },
    },
  };
  return { gating, gatingSolid: now.gatingSolid, gated: now.gated, air, findings: airFindings(air) };
}

/** The plan with the places that got a vent; those that did not are asked for no longer. */
function planWith(input: GatingInput, places: readonly VentPlace[]) {
  let kept = places;
  for (;;) {
    const gating = planGating({ ...input, vents: [...input.vents, ...kept] });
    const got = kept.filter((p) => gating.vents.some((v) => v.name === p.name));
    if (got.length === kept.length || !isBuildable(gating)) return { gating, places: kept };
    kept = got;
  }
}

const openTops = (gating: GatingPlan) => ({ openHeight: gating.topHeight - 1e-3 });
/** Turns tried, degrees: beyond these the part stands another way altogether. */
const turns = [5, 10, 15, 20, 30];

/** The least turn about x or y that halves what is trapped; the gating is taken as turned with the part. */
function betterTilt(gated: Mesh, gating: GatingPlan, now: number): AirPlan['tilt'] | undefined {
  for (const degrees of turns)
    for (const axis of ['x', 'y'] as const)
      for (const sign of [1, -1]) {
        const angle = (sign * degrees * Math.PI) / 180;
        // The direction that a turn of the part brings upright.
        const up: Vec3 =
          axis === 'x' ? [0, Math.sin(angle), Math.cos(angle)] : [-Math.sin(angle), 0, Math.cos(angle)];
        const left = total(findPockets(gated, { ...openTops(gating), up }).pockets);
        if (left < now / 2) return { axis, angle, left };
      }
  return undefined;
}

const ml = (volume: number): string => `${(volume / 1000).toFixed(2)} ml`;

function airFindings({ pockets, ventsAdded, left, tilt }: AirPlan): readonly Finding[] {
  const findings: Finding[] = [];
  if (ventsAdded.length > 0)
    findings.push(
      note(
        'air-vents-added',
        `Rising metal would trap ${ml(total(pockets))} of air in ${pockets.length} ${pockets.length === 1 ? 'place' : 'places'}: ${ventsAdded.length} ${ventsAdded.length === 1 ? 'vent is' : 'vents are'} added there.`,
        'Saw them off with the part’s other vents, or gate the part at its highest place.',
      ),
    );
  if (left.length > 0) {
    const [largest] = left;
    const [x, y, z] = largest!.at.map((c) => c.toFixed(1));
    const where = `the largest, ${ml(largest!.volume)}, under x ${x}, y ${y}, z ${z} mm`;
    findings.push(
      warn(
        'air-trapped',
        `Rising metal traps ${ml(total(left))} of air in ${left.length} ${left.length === 1 ? 'place' : 'places'} where no vent can be put: ${where}.`,
        tilt
          ? `Turn the part by ${Math.round((Math.abs(tilt.angle) * 180) / Math.PI)}° about ${tilt.angle < 0 ? '−' : '+'}${tilt.axis} before gating: ${ml(tilt.left)} is left then.`
          : 'Give the part a flat of 1.5 mm or more there for a vent, or vacuum the mould while pouring.',
      ),
    );
  }
  return findings;
}
