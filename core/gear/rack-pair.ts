import { maths } from '../maths/maths.js';
import { type Finding, stop } from '../part/finding.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import { type ContactSpan, specificSliding } from './contact.js';
import { externalFlankTable, type FlankTable } from './flank-table.js';
import { gearGeometry, minimumProfileShift, tipThickness } from './gear-geometry.js';
import { inv } from './involute.js';
import { rackBacklash } from './mesh-backlash.js';
import {
  judgeClearance,
  judgePinionFoot,
  judgePlay,
  judgeRatio,
  judgeTip,
  judgeUndercut,
  mm,
} from './mesh-findings.js';
import { overlapRatio } from './pair.js';
import { pairLimits } from './pair-findings.js';
import { type RackForm, type RackSpec, rackForm } from './rack-form.js';
import type { GearSpec } from './spec.js';
import { leastOver } from './tip-path.js';
import { toothForm } from './tooth-form.js';

export interface RackPairOptions {
  /** From the pinion's axis to the rack's datum line, mm; by default r + x m_n, where only thinning gives backlash. */
  readonly mountingDistance?: number;
  readonly faceWidth?: number;
}

/** Lengths mm. */
export interface RackPairFacts {
  readonly mountingDistance: number;
  /** Pitch line of the motion, from the axis: the reference radius whatever the mounting distance. */
  readonly pitchRadius: number;
  /** The rack moves this far in one turn of the pinion: z p_t. */
  readonly travelPerTurn: number;
  readonly contactRatio: number;
  readonly overlapRatio: number | null;
  readonly backlash: { readonly circumferential: number; readonly normal: number };
  /** Specific sliding on the pinion where contact is nearest its root and tip; −Infinity at the base circle. */
  readonly pinionSliding: readonly [root: number, tip: number];
  readonly pinionTipClearance: number;
  readonly rackTipClearance: number;
  /** How far the rack's tip reaches below the start of the pinion's involute along the line of action; ≤ 0 is right. */
  readonly belowPinionInvolute: number;
  /** How far the pinion's tip reaches past the rack's straight flank into its fillet; ≤ 0 is right. */
  readonly beyondRackFlank: number;
  /** Least gaps of tip and tooth as they run; below 0 they cut in. */
  readonly rackTipGap: number;
  readonly pinionTipGap: number;
}

export interface RackPairCheck {
  readonly facts: RackPairFacts | null;
  readonly findings: readonly Finding[];
}

/** a = r + x m_n, mm: from the axis to the rack's datum line, free of backlash (Elements of Metric Gear Technology, Table 4-5). */
export const rackMountingDistance = (pinion: GearSpec): number =>
  gearGeometry(pinion).referenceDiameter / 2 + pinion.profileShift * pinion.normalModule;

/** Normal tip thickness of a rack's tooth, mm: π m / 2 less thinning and what the flanks take. */
export const rackTipThickness = (rack: RackSpec): number =>
  (Math.PI * rack.normalModule) / 2 -
  rack.thinning -
  2 * (rack.addendum * rack.normalModule - (rack.tipShortening ?? 0)) * maths.tan(rack.normalPressureAngle);

/** Specific sliding at the rack's root, where the pinion's tip is in contact: ζ₂ = 1 − 1 / (1 − ζ₁). */
export const rackSliding = ({ pinionSliding: [, tip] }: RackPairFacts): number => 1 - 1 / (1 - tip);

/** Checks a pinion on a rack on their exact teeth; helical ones have opposite hands. Never throws for legal teeth. */
export function checkRackPair(
  pinion: GearSpec,
  rack: RackSpec,
  options: RackPairOptions = {},
): RackPairCheck {
  const apart = (['normalModule', 'normalPressureAngle', 'helixAngle'] as const).find(
    (key) => Math.abs(pinion[key] - rack[key]) > 1e-9,
  );
  if (apart) {
    const finding = stop(
      'not-mates',
      'Pinion and rack differ in module, pressure angle or helix angle.',
      'Give both the same.',
      apart,
    );
    return { facts: null, findings: [finding] };
  }
  const pinionForm = toothForm(pinion);
  const form = rackForm(rack);
  if (!pinionForm.ok || !form.ok) {
    const findings = [
      ...(pinionForm.ok ? [] : pinionForm.findings.map((f) => ({ ...f, message: `Pinion: ${f.message}` }))),
      ...(form.ok ? [] : form.findings.map((f) => ({ ...f, message: `Rack: ${f.message}` }))),
    ];
    return { facts: null, findings };
  }
  const facts = rackFacts(pinion, rack, externalFlankTable(pinionForm.form), form.form, options);
  return { facts, findings: judge(pinion, rack, facts) };
}

function rackFacts(
  pinion: GearSpec,
  spec: RackSpec,
  table: FlankTable,
  rack: RackForm,
  options: RackPairOptions,
): RackPairFacts {
  const g = gearGeometry(pinion);
  const alpha = g.transversePressureAngle;
  const r = g.referenceDiameter / 2;
  const mounting = options.mountingDistance ?? rackMountingDistance(pinion);
  const flank = rackFlank(rack);
  const { from, to, tipOfRack, footOfRack } = alongRack(table, flank, r, alpha, mounting);
  // The rack's flank slides along itself at ω r sin α_t wherever the contact is.
  const sliding = (rho: number) => specificSliding(rho, r * maths.sin(alpha), 1, 1);
  return {
    mountingDistance: mounting,
    pitchRadius: r,
    travelPerTurn: pinion.teeth * rack.pitch,
    contactRatio: Math.max(0, to - from) / g.transverseBasePitch,
    overlapRatio:
      pinion.helixAngle === 0
        ? 0
        : options.faceWidth === undefined
          ? null
          : overlapRatio(pinion, options.faceWidth),
    backlash: rackBacklash(pinion, spec, mounting),
    pinionSliding: [sliding(from), sliding(to)],
    pinionTipClearance: mounting - rack.rootHeight - table.tipRadius,
    rackTipClearance: mounting - rack.tipHeight - table.rootRadius,
    belowPinionInvolute: table.lowCurvature - tipOfRack,
    beyondRackFlank: table.highCurvature - footOfRack,
    ...rackGaps(table, rack, flank, r, alpha, mounting),
  };
}

/** Contact of a pinion's tooth on a rack along the line of action, as ρ₁, mm. */
export const rackContact = (
  pinion: GearSpec,
  table: FlankTable,
  rack: RackForm,
  mounting: number,
): ContactSpan => {
  const g = gearGeometry(pinion);
  return alongRack(table, rackFlank(rack), g.referenceDiameter / 2, g.transversePressureAngle, mounting);
};

function alongRack(table: FlankTable, flank: RackFlank, r: number, alpha: number, mounting: number) {
  // The line of action crosses the pitch line at the pressure angle; ρ₁ there is r sin α_t, on a height h of the rack
  // it is more by (distance of that height outside the pitch line) / sin α_t.
  const curvature = (height: number) => r * maths.sin(alpha) + (mounting - height - r) / maths.sin(alpha);
  const [tipOfRack, footOfRack] = [curvature(flank.high), curvature(flank.low)];
  return {
    tipOfRack,
    footOfRack,
    from: Math.max(table.lowCurvature, tipOfRack),
    to: Math.min(table.highCurvature, footOfRack),
  };
}

interface RackFlank {
  /** Heights between which the flank is straight. */
  readonly high: number;
  readonly low: number;
  /** Half thickness on the straight flank, produced beyond its ends. */
  halfAt(height: number): number;
  /** Half thickness of the tooth as it is, and the share of a step along the rack that lies along its normal. */
  at(height: number): { readonly half: number; readonly share: number } | undefined;
}

function rackFlank(rack: RackForm): RackFlank {
  // A straight flank is the curve whose ends and middle lie on one line: tip rounding and fillet do not.
  const flank = rack.curves.find((c) => {
    const [[x0, y0], [xm, ym], [x1, y1]] = [c.at(c.from), c.at((c.from + c.to) / 2), c.at(c.to)];
    return Math.abs((x1 - x0) * (ym - y0) - (xm - x0) * (y1 - y0)) < 1e-9;
  }) as PlaneCurve;
  const [x0, high] = flank.at(flank.from);
  const [x1, low] = flank.at(flank.to);
  const slope = (x1 - x0) / (low - high);
  const halfAt = (height: number) => x0 + (height - high) * slope;
  const below = rack.curves.slice(rack.curves.indexOf(flank) + 1);
  const fillet = below.flatMap((c) =>
    Array.from({ length: 257 }, (_, i) => c.at(c.from + ((c.to - c.from) * i) / 256)),
  );
  return {
    high,
    low,
    halfAt,
    at(height) {
      if (height <= high + 1e-12 && height >= low)
        return { half: halfAt(height), share: 1 / maths.hypot(1, slope) };
      for (let i = 0; i + 1 < fillet.length; i++) {
        const [a, b] = [fillet[i] as readonly [number, number], fillet[i + 1] as readonly [number, number]];
        if (height > a[1] || height < b[1]) continue;
        const f = a[1] === b[1] ? 0 : (a[1] - height) / (a[1] - b[1]);
        const length = maths.hypot(b[0] - a[0], b[1] - a[1]);
        return { half: a[0] + f * (b[0] - a[0]), share: length > 0 ? (a[1] - b[1]) / length : 1 };
      }
      return undefined;
    },
  };
}

/** The tips carried past each other with the flanks touching: pinion axis at the origin, the rack moving along y. */
function rackGaps(
  pinion: FlankTable,
  rack: RackForm,
  flank: RackFlank,
  r: number,
  alpha: number,
  mounting: number,
): Pick<RackPairFacts, 'rackTipGap' | 'pinionTipGap'> {
  const pinionMiddle = inv(alpha) - pinion.baseHalfAngle;
  const rackMiddle = flank.halfAt(mounting - r);
  const tipHalf = (rack.curves[0] as PlaneCurve).at((rack.curves[0] as PlaneCurve).from)[0];
  const onPinion = (turn: number): number => {
    const [x, y] = [mounting - rack.tipHeight, rackMiddle - tipHalf + r * turn];
    const radius = maths.hypot(x, y);
    const profile = pinion.at(radius);
    if (profile === undefined) return Number.POSITIVE_INFINITY;
    return (maths.atan2(y, x) - pinionMiddle - turn - profile.angle) * radius * profile.share;
  };
  let pinionTipGap = Number.POSITIVE_INFINITY;
  for (const [radius, half] of pinion.tip) {
    const onRack = (turn: number): number => {
      const angle = pinionMiddle + half + turn;
      const profile = flank.at(mounting - radius * maths.cos(angle));
      if (profile === undefined) return Number.POSITIVE_INFINITY;
      return (rackMiddle + r * turn - radius * maths.sin(angle) - profile.half) * profile.share;
    };
    pinionTipGap = Math.min(pinionTipGap, leastOver(onRack, -1.5, 1.5, 400).value);
  }
  return { rackTipGap: leastOver(onPinion, -1.5, 1.5, 400).value, pinionTipGap };
}

function judge(pinion: GearSpec, rack: RackSpec, facts: RackPairFacts): readonly Finding[] {
  const m = pinion.normalModule;
  const cutsRack: readonly Finding[] =
    facts.pinionTipGap >= -pairLimits.overlap
      ? []
      : [
          stop(
            'tip-fillet-interference',
            `The pinion’s tips cut ${mm(-facts.pinionTipGap)} into the rack’s fillets.`,
            'Shorten the pinion’s tips or use a smaller root radius on the rack.',
            'addendum',
            'rootRadius',
          ),
        ];
  return [
    ...judgeRatio(facts.contactRatio + (facts.overlapRatio ?? 0)),
    ...judgePlay(facts.backlash.circumferential, 'move the rack away'),
    ...judgeClearance(facts.pinionTipClearance, m, 'The pinion’s tips', 'the rack’s root'),
    ...judgeClearance(facts.rackTipClearance, m, 'The rack’s tips', 'the pinion’s root'),
    ...judgePinionFoot(
      'tip-fillet-interference',
      'The rack’s tips',
      facts.rackTipGap,
      facts.belowPinionInvolute,
      m,
    ),
    ...cutsRack,
    ...judgeTip(tipThickness(pinion), m, 'The pinion’s teeth'),
    ...judgeTip(rackTipThickness(rack), m, 'The rack’s teeth'),
    ...judgeUndercut(pinion.profileShift, minimumProfileShift(pinion)),
  ];
}
