import type { HelixStretch } from '../../core/gear/helix.js';
import type { GearSpec } from '../../core/gear/spec.js';
import type { ToothForm } from '../../core/gear/tooth-form.js';
import { type PitchOutline, wholeOutline } from '../../core/gear/transverse-profile.js';
import { maths } from '../../core/maths/maths.js';
import type {
  DimensionNote,
  DrawingNotes,
  DrawnLine,
  LengthNote,
  LineKind,
  ViewNote,
} from '../../core/part/drawing-notes.js';
import type { Vec2, Vec3 } from '../../core/solid/types.js';
import type { BodySizes } from './body-sizes.js';
import { openingOutlines } from './body-solid.js';
import { type BoreParameters, boreOutline } from './bore.js';
import { bodyRows, gearRows } from './drawing-data.js';
import { bodyProfile, inSection, outsideHalf, type ToothedLength, toothProfiles } from './drawn-profile.js';
import type { SetscrewSize } from './setscrew.js';
import type { ToothParameters } from './tooth-spec.js';

/** What a cylindrical gear's drawing is made from: the finished gear. */
export interface DrawnGear {
  readonly parameters: ToothParameters & BoreParameters & { readonly setscrew: 'none' | SetscrewSize };
  readonly spec: GearSpec;
  readonly form: ToothForm;
  readonly sizes: BodySizes;
  /** Toothed lengths from the lower face up. */
  readonly run: readonly (readonly HelixStretch[])[];
  readonly pitch: PitchOutline;
  /** Radius of the body between toothed lengths, mm. */
  readonly coreRadius: number;
  readonly tolerance: number;
}

/**
 * A half section beside the axis, teeth not cut (ISO 128-3) and below it the outside with the sign of the helix
 * (ISO 2203), and the view along the axis from above with every tooth by its exact form.
 */
export function gearDrawing(gear: DrawnGear): DrawingNotes {
  return {
    views: [sectionView(gear), frontView(gear)],
    dataTitle: 'Gear data',
    data: [...gearRows(gear), ...bodyRows(gear)],
  };
}

const lengthsOf = ({ run }: DrawnGear): readonly ToothedLength[] =>
  run.map((stretches) => [(stretches[0] as HelixStretch).z0, (stretches.at(-1) as HelixStretch).z1]);

/** How far centre lines run past what they stand for, mm of the part. */
const pastOf = ({ sizes }: DrawnGear): number => Math.max(0.8, 0.05 * sizes.tipRadius);

/** From the axis up to the bore's surface in the section plane, where keyway, flat or corner stand on +Y. */
function boreReach({ sizes: { bore }, parameters }: DrawnGear): number {
  if (bore.size === 0) return 0;
  if (bore.key) return bore.key.overDepth - bore.size / 2;
  if (bore.flat !== null) return bore.flat - bore.size / 2;
  return parameters.boreShape === 'hexagon' ? bore.mouthRadius : bore.size / 2;
}

function sectionView(gear: DrawnGear): ViewNote {
  const { sizes, form, coreRadius } = gear;
  const lengths = lengthsOf(gear);
  const reach = boreReach(gear);
  const withScrew = sizes.setscrew !== null && sizes.bore.key === null;
  const body = bodyProfile(sizes, reach, lengths, coreRadius, withScrew);
  const past = pastOf(gear);
  const { lowerEnd, upperEnd, lowerFace, upperFace } = sizes;
  const chain = (from: Vec3, to: Vec3): DrawnLine => ({ kind: 'chain', points: [from, to] });
  const pitchLine = (r: number): DrawnLine =>
    chain(inSection(lowerFace - past, r), inSection(upperFace + past, r));
  return {
    from: '+x',
    up: '+y',
    lines: [
      { kind: 'visible', points: body, closed: reach > 0 },
      ...toothProfiles(sizes, lengths),
      ...openingEdges(sizes),
      ...behindSection(gear, reach),
      ...(withScrew ? screwLines(gear, reach) : []),
      ...outsideHalf(sizes, lengths, coreRadius),
      ...helixSign(gear),
      pitchLine(form.rack.radius),
      pitchLine(-form.rack.radius),
      chain(inSection(lowerEnd - past, 0), inSection(upperEnd + past, 0)),
    ],
    hatched: [body, ...openingAreas(sizes), ...(withScrew ? [screwArea(gear, reach)] : [])],
    dimensions: sectionDimensions(gear, lengths, withScrew),
  };
}

/** Spokes are not cut lengthwise (ISO 128-3), holes are turned into the section plane: both break the hatching. */
function openingBand({ openings, web, lowerFace, upperFace }: BodySizes) {
  const { windows, holes } = openings;
  if (!windows && !holes) return null;
  const [z0, z1] = web ? [web.lowerFloor, web.upperFloor] : [lowerFace, upperFace];
  const [r0, r1] = windows
    ? [windows.innerRadius, windows.outerRadius]
    : holes
      ? [holes.circle - holes.radius, holes.circle + holes.radius]
      : [0, 0];
  return { z0, z1, r0, r1, middle: holes ? holes.circle : null };
}

function openingAreas(sizes: BodySizes): readonly (readonly Vec3[])[] {
  const band = openingBand(sizes);
  if (!band) return [];
  const { z0, z1, r0, r1 } = band;
  return [[inSection(z0, r0), inSection(z1, r0), inSection(z1, r1), inSection(z0, r1)]];
}

function openingEdges(sizes: BodySizes): readonly DrawnLine[] {
  const band = openingBand(sizes);
  if (!band) return [];
  const { z0, z1, r0, r1, middle } = band;
  const line = (r: number, past = 0, kind: DrawnLine['kind'] = 'visible'): DrawnLine => ({
    kind,
    points: [inSection(z0 - past, r), inSection(z1 + past, r)],
  });
  return [line(r0), line(r1), ...(middle === null ? [] : [line(middle, 0.04 * sizes.tipRadius, 'chain')])];
}

/** Edges seen beyond the section plane, above the axis: mouths of the bore, its corners, and the rim's inner edge. */
function behindSection({ sizes, parameters }: DrawnGear, reach: number): readonly DrawnLine[] {
  const { lowerEnd, upperEnd, lowerFace, upperFace, bore, web, hubRadius } = sizes;
  const upright = (z: number, r0: number, r1: number): DrawnLine => ({
    kind: 'visible',
    points: [inSection(z, r0), inSection(z, r1)],
  });
  const along = (r: number): DrawnLine => ({
    kind: 'visible',
    points: [inSection(lowerEnd, r), inSection(upperEnd, r)],
  });
  const corner = bore.key
    ? [along(Math.sqrt((bore.size / 2) ** 2 - (bore.key.width / 2) ** 2))]
    : bore.size > 0 && parameters.boreShape === 'hexagon'
      ? [along(bore.mouthRadius / 2)]
      : [];
  return [
    ...(reach > 0 ? [upright(lowerEnd, 0, reach), upright(upperEnd, 0, reach)] : []),
    ...corner,
    ...(web
      ? [upright(lowerFace, hubRadius, web.outerRadius), upright(upperFace, hubRadius, web.outerRadius)]
      : []),
  ];
}

const screwSize = ({ parameters }: DrawnGear): number => Number(parameters.setscrew.slice(1));

function screwArea({ sizes }: DrawnGear, reach: number): readonly Vec3[] {
  const { height: h, holeRadius: r, face } = sizes.setscrew as NonNullable<BodySizes['setscrew']>;
  return [inSection(h - r, reach), inSection(h + r, reach), inSection(h + r, face), inSection(h - r, face)];
}

/** The tapped hole: its walls thick, the thread's outside thin, its axis (ISO 6410-1). */
function screwLines(gear: DrawnGear, reach: number): readonly DrawnLine[] {
  const { height: h, holeRadius, face } = gear.sizes.setscrew as NonNullable<BodySizes['setscrew']>;
  const line = (kind: DrawnLine['kind'], z: number, past = 0): DrawnLine => ({
    kind,
    points: [inSection(z, reach), inSection(z, face + past)],
  });
  const half = screwSize(gear) / 2;
  return [
    line('visible', h - holeRadius),
    line('visible', h + holeRadius),
    line('thin', h - half),
    line('thin', h + half),
    line('chain', h, pastOf(gear)),
  ];
}

/** Three thin lines that run as the teeth do on the near side (ISO 2203); none on a spur gear. */
function helixSign({ run, form, spec }: DrawnGear): readonly DrawnLine[] {
  if (spec.helixAngle === 0) return [];
  const all = run.flat();
  const [z0, z1] = [(all[0] as HelixStretch).z0, (all.at(-1) as HelixStretch).z1];
  const middle = (z0 + z1) / 2;
  // In the groove of a double helix there are no teeth; its apex plane has no turn.
  const datum = all.find((s) => s.z0 <= middle && middle <= s.z1)?.turn(middle) ?? 0;
  const r = form.rack.radius;
  const half = Math.min(0.38 * (z1 - z0), (0.3 * r) / maths.tan(spec.helixAngle));
  return [-0.66, -0.5, -0.34].flatMap((share) =>
    all.flatMap((stretch): DrawnLine[] => {
      const [from, to] = [Math.max(middle - half, stretch.z0), Math.min(middle + half, stretch.z1)];
      if (to - from < 1e-6) return [];
      const steps = 16;
      const heights = Array.from({ length: steps + 1 }, (_, i) => from + ((to - from) * i) / steps);
      return [
        { kind: 'thin', points: heights.map((z) => inSection(z, r * (share + stretch.turn(z) - datum))) },
      ];
    }),
  );
}

function sectionDimensions(
  gear: DrawnGear,
  lengths: readonly ToothedLength[],
  withScrew: boolean,
): readonly DimensionNote[] {
  const { sizes, parameters } = gear;
  const { lowerFace, upperFace, lowerEnd, upperEnd, tipRadius, hubRadius, edgeChamfer, web, setscrew } =
    sizes;
  const across = (
    of: LengthNote['of'],
    r: number,
    z0: number,
    z1: number,
    side: 'above' | 'below',
  ): LengthNote => ({
    of,
    from: inSection(z0, r),
    to: inSection(z1, r),
    side,
  });
  const diameter = (
    of: LengthNote['of'],
    r: number,
    z: number,
    side: 'left' | 'right',
    half = false,
  ): LengthNote => ({
    of,
    form: 'Ø{}',
    from: inSection(z, -r),
    to: inSection(z, r),
    side,
    half,
  });
  const onUpper = upperEnd > upperFace || lowerEnd === lowerFace;
  const [hubSide, hubEnd] = onUpper ? (['left', upperEnd] as const) : (['right', lowerEnd] as const);
  const raised = upperEnd > upperFace || lowerEnd < lowerFace;
  return [
    across('b', -tipRadius + edgeChamfer, lowerFace, upperFace, 'below'),
    across('L', -hubRadius, lowerEnd, upperEnd, 'below'),
    diameter('d_a', tipRadius, lowerFace + edgeChamfer, 'right'),
    ...(raised || web ? [diameter('d_h', hubRadius, hubEnd, hubSide, !raised)] : []),
    ...(parameters.boreShape === 'round' && sizes.bore.size > 0
      ? [diameter('D', sizes.bore.size / 2, hubEnd, hubSide, true)]
      : []),
    ...(web
      ? [
          across('t_w', web.outerRadius - web.fillet, web.lowerFloor, web.upperFloor, 'above'),
          diameter(2 * web.outerRadius, web.outerRadius, upperFace, 'left', true),
        ]
      : []),
    ...lengths.slice(1).map(([z], i) => {
      const before = (lengths[i] as ToothedLength)[1];
      return across(z - before, tipRadius, before, z, 'above');
    }),
    ...(edgeChamfer > 0
      ? [
          {
            of: edgeChamfer,
            form: '{} × 45°',
            at: inSection(upperFace - edgeChamfer / 2, tipRadius - edgeChamfer / 2),
            outward: inSection(1, 1),
          },
        ]
      : []),
    ...(setscrew && withScrew
      ? [
          {
            of: [],
            form: parameters.setscrew,
            at: inSection(setscrew.height, setscrew.face),
            outward: inSection(0, 1),
          },
          screwPlace(setscrew.height, setscrew.face, onUpper ? upperEnd : lowerEnd, hubRadius),
        ]
      : []),
  ];
}

/** From the hub's end to the setscrew's axis. */
const screwPlace = (height: number, face: number, end: number, hubRadius: number): LengthNote => ({
  of: Math.abs(end - height),
  from: inSection(height, face),
  to: inSection(end, hubRadius),
  side: 'above',
});

function frontView(gear: DrawnGear): ViewNote {
  const { sizes, form, pitch, parameters, tolerance } = gear;
  const z = sizes.upperFace;
  const turn = (gear.run.flat().at(-1) as HelixStretch).turn(z);
  const teeth = wholeOutline(pitch, turn);
  const on = (points: readonly Vec2[]): readonly Vec3[] => points.map(([x, y]) => [x, y, z]);
  const circle = (kind: DrawnLine['kind'], radius: number, at: Vec2 = [0, 0]): DrawnLine => ({
    kind,
    centre: [...at, z],
    radius,
  });
  const outline = (points: readonly Vec2[]): DrawnLine => ({
    kind: 'visible',
    points: on(points),
    closed: true,
  });
  const reach = sizes.tipRadius + pastOf(gear);
  const bore = boreOutline(parameters.boreShape, sizes.bore, tolerance);
  const { holes } = sizes.openings;
  return {
    from: '+z',
    lines: [
      outline(teeth),
      ...chamferArcs(teeth, sizes, z),
      circle('chain', form.rack.radius),
      circle('thin', sizes.tipRadius),
      circle('thin', sizes.rootRadius),
      ...hubCircle(sizes).map((kind) => circle(kind, sizes.hubRadius)),
      ...(sizes.web ? [circle('visible', sizes.web.outerRadius)] : []),
      ...(holes ? holeCircles(holes, z) : openingOutlines(sizes, tolerance).map(outline)),
      ...(parameters.boreShape === 'round' && sizes.bore.size > 0
        ? [circle('visible', sizes.bore.size / 2)]
        : bore
          ? [outline(bore)]
          : []),
      ...screwInFront(gear),
      {
        kind: 'chain',
        points: on([
          [-reach, 0],
          [reach, 0],
        ]),
      },
      {
        kind: 'chain',
        points: on([
          [0, -reach],
          [0, reach],
        ]),
      },
    ],
    dimensions: frontDimensions(gear),
  };
}

/** The hub from above: hidden where it stands below only. */
function hubCircle({ web, upperEnd, upperFace, lowerEnd, lowerFace }: BodySizes): readonly LineKind[] {
  if (web || upperEnd > upperFace) return ['visible'];
  return lowerEnd < lowerFace ? ['hidden'] : [];
}

/** Where a 45° chamfer of the tips meets the side face: arcs from flank to flank. */
function chamferArcs(
  teeth: readonly Vec2[],
  { edgeChamfer, tipRadius }: BodySizes,
  z: number,
): readonly DrawnLine[] {
  if (edgeChamfer === 0) return [];
  const radius = tipRadius - edgeChamfer;
  const arcs: DrawnLine[] = [];
  let from: number | undefined;
  for (let i = 0; i <= 2 * teeth.length; i++) {
    const [a, b] = [teeth[i % teeth.length] as Vec2, teeth[(i + 1) % teeth.length] as Vec2];
    const [ra, rb] = [maths.hypot(...a), maths.hypot(...b)];
    if (ra > radius === rb > radius) continue;
    const t = (radius - ra) / (rb - ra);
    const angle = maths.atan2(a[1] + t * (b[1] - a[1]), a[0] + t * (b[0] - a[0]));
    if (rb > radius) from = angle;
    else if (from !== undefined && (i < teeth.length || arcs.length === 0)) {
      arcs.push({
        kind: 'visible',
        centre: [0, 0, z],
        radius,
        from,
        to: angle < from ? angle + 2 * Math.PI : angle,
      });
    }
  }
  return arcs;
}

function holeCircles(holes: NonNullable<BodySizes['openings']['holes']>, z: number): readonly DrawnLine[] {
  const { number, circle, radius } = holes;
  const axes = Array.from({ length: number }, (_, k): DrawnLine[] => {
    const angle = (2 * Math.PI * (k + 0.5)) / number;
    const [c, s] = [maths.cos(angle), maths.sin(angle)];
    return [
      { kind: 'visible', centre: [circle * c, circle * s, z], radius },
      {
        kind: 'chain',
        points: [-1.25, 1.25].map((share): Vec3 => {
          const r = circle + share * radius;
          return [r * c, r * s, z];
        }),
      },
    ];
  });
  return [{ kind: 'chain', centre: [0, 0, z], radius: circle }, ...axes.flat()];
}

/** Boss and tapped hole from above: the hole hidden in the hub, all of it hidden where the hub is below. */
function screwInFront(gear: DrawnGear): readonly DrawnLine[] {
  const { setscrew, hubRadius, bore, upperFace } = gear.sizes;
  if (!setscrew) return [];
  const { boss, holeRadius, face, height } = setscrew;
  const line = (kind: DrawnLine['kind'], ...points: Vec2[]): DrawnLine => ({
    kind,
    points: points.map(([x, y]): Vec3 => [x, y, height]),
  });
  const foot = boss ? Math.sqrt(Math.max(0, hubRadius ** 2 - boss.radius ** 2)) : 0;
  const from = bore.size / 2;
  return [
    ...(boss
      ? [
          line(
            height > upperFace ? 'visible' : 'hidden',
            [foot, -boss.radius],
            [boss.reach, -boss.radius],
            [boss.reach, boss.radius],
            [foot, boss.radius],
          ),
        ]
      : []),
    line('hidden', [from, -holeRadius], [face, -holeRadius]),
    line('hidden', [from, holeRadius], [face, holeRadius]),
  ];
}

function frontDimensions({ sizes, parameters }: DrawnGear): readonly DimensionNote[] {
  const { bore, openings, setscrew } = sizes;
  const z = sizes.upperEnd;
  const r = bore.size / 2;
  const axis: Vec3 = [0, 0, z];
  const { holes } = openings;
  const first = holes ? Math.PI / holes.number : 0;
  return [
    ...(bore.size > 0 && (parameters.boreShape === 'keyed' || parameters.boreShape === 'flat')
      ? [{ of: 'D', form: 'Ø{}', at: axis, radius: r }]
      : []),
    ...(bore.size > 0 && (parameters.boreShape === 'hexagon' || parameters.boreShape === 'square')
      ? [
          {
            of: 's_b',
            form: parameters.boreShape === 'square' ? '□{}' : '{} across flats',
            at: [
              0,
              -bore.mouthRadius * maths.cos(parameters.boreShape === 'square' ? Math.PI / 4 : 0),
              z,
            ] as const,
          },
        ]
      : []),
    ...(bore.key
      ? [
          {
            of: [bore.key.width, bore.key.overDepth],
            form: 'keyway {}, {} over the bore',
            at: [bore.key.width / 2, bore.key.overDepth - r, z] as const,
          },
        ]
      : []),
    ...(bore.flat !== null
      ? [{ of: bore.flat, form: '{} over the flat', at: [0, bore.flat - r, z] as const }]
      : []),
    ...(holes
      ? [
          {
            of: 2 * holes.radius,
            form: `${holes.number} × Ø{}`,
            at: [holes.circle * maths.cos(first), holes.circle * maths.sin(first), z] as const,
            radius: holes.radius,
          },
          { of: 2 * holes.circle, form: 'Ø{}', at: axis, radius: holes.circle },
        ]
      : []),
    ...(setscrew && bore.key
      ? [
          {
            of: Math.abs(
              setscrew.height > 0 ? sizes.upperEnd - setscrew.height : setscrew.height - sizes.lowerEnd,
            ),
            form: `${parameters.setscrew}, {} from the hub end`,
            at: [setscrew.face, 0, z] as const,
          },
        ]
      : []),
  ];
}
