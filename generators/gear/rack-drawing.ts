import type { RackForm, RackSpec } from '../../core/gear/rack-form.js';
import type { DrawingNotes, DrawnLine, LengthNote, ViewNote } from '../../core/part/drawing-notes.js';
import type { Vec2, Vec3 } from '../../core/solid/types.js';
import { easingRows, helixRows, toothRows } from './drawing-data.js';
import type { ToothParameters } from './tooth-spec.js';

/** What the drawing of a rack is made from: the finished rack. */
export interface DrawnRack {
  readonly parameters: Pick<ToothParameters, 'rackProfile' | 'diametralPitch' | 'tipRounding'> & {
    readonly teeth: number;
    readonly hand: 'left' | 'right';
  };
  readonly spec: RackSpec;
  readonly form: RackForm;
  /** The toothed edge at z = 0, from −x to +x, past both ends. */
  readonly edge: readonly Vec2[];
  /** Shift of the teeth in x a mm of rise in z. */
  readonly slope: number;
  readonly length: number;
  readonly faceWidth: number;
  readonly back: number;
}

/** The upper side face with its teeth, an end in section, teeth not cut, and for inclined teeth the toothed side. */
export function rackDrawing(rack: DrawnRack): DrawingNotes {
  const { parameters, spec, form } = rack;
  return {
    views: [frontView(rack), endView(rack), ...(spec.helixAngle === 0 ? [] : [toothedSide(rack)])],
    dataTitle: 'Rack data',
    data: [
      ...toothRows(parameters, spec),
      ...helixRows(spec, `${parameters.hand}-hand`),
      { symbol: 'p_t', name: 'pitch along the rack', value: form.pitch },
      { symbol: 'h', name: 'tooth depth', value: form.tipHeight - form.rootHeight },
      ...easingRows(spec, parameters.tipRounding),
    ],
  };
}

/** The part of a line, rising in x, between two abscissae. */
function clip(points: readonly Vec2[], x0: number, x1: number): readonly Vec2[] {
  const at = (x: number, [ax, ay]: Vec2, [bx, by]: Vec2): Vec2 => [
    x,
    ay + ((x - ax) * (by - ay)) / (bx - ax),
  ];
  return points.flatMap((p, i): Vec2[] => {
    const next = points[i + 1];
    const own = p[0] >= x0 && p[0] <= x1 ? [p] : [];
    if (!next) return own;
    const crossed = [x0, x1].filter((x) => p[0] < x && x < next[0]);
    return [...own, ...crossed.map((x) => at(x, p, next))];
  });
}

function frontView({ edge, slope, length, faceWidth: z, back, form }: DrawnRack): ViewNote {
  const teeth = clip(
    edge.map(([x, y]): Vec2 => [x + slope * z, y]),
    0,
    length,
  );
  const on = (points: readonly Vec2[]): readonly Vec3[] => points.map(([x, y]) => [x, y, z]);
  const past = Math.max(0.8, 0.02 * length);
  const level = (kind: DrawnLine['kind'], y: number, over: number): DrawnLine => ({
    kind,
    points: on([
      [-over, y],
      [length + over, y],
    ]),
  });
  const upright = (of: string | number, x: number, y: number, side: 'left' | 'right'): LengthNote => ({
    of,
    from: [x, back, z],
    to: [x, y, z],
    side,
  });
  return {
    from: '+z',
    lines: [
      {
        kind: 'visible',
        closed: true,
        points: on([[0, back], [length, back], ...[...teeth].reverse()]),
      },
      level('chain', 0, past),
      level('thin', form.rootHeight, 0),
    ],
    dimensions: [
      { of: 'L', from: [0, back, z], to: [length, back, z], side: 'below' },
      upright('h_t', 0, form.tipHeight, 'left'),
      upright(-back, length, 0, 'right'),
    ],
  };
}

function endView({ form, faceWidth: b, back }: DrawnRack): ViewNote {
  const body: readonly Vec3[] = [
    [0, back, 0],
    [0, back, b],
    [0, form.rootHeight, b],
    [0, form.rootHeight, 0],
  ];
  const past = Math.max(0.8, 0.05 * b);
  return {
    from: '-x',
    lines: [
      { kind: 'visible', points: body, closed: true },
      {
        kind: 'visible',
        points: [
          [0, form.rootHeight, 0],
          [0, form.tipHeight, 0],
          [0, form.tipHeight, b],
          [0, form.rootHeight, b],
        ],
      },
      {
        kind: 'chain',
        points: [
          [0, 0, -past],
          [0, 0, b + past],
        ],
      },
    ],
    hatched: [body],
    dimensions: [
      { of: 'b', from: [0, back, 0], to: [0, back, b], side: 'below' },
      { of: 'h_f', from: [0, back, b], to: [0, form.rootHeight, b], side: 'right' },
    ],
  };
}

/** Seen on the teeth: the outline and three lines that run as they do (ISO 2203). */
function toothedSide({ form, faceWidth: b, length, slope }: DrawnRack): ViewNote {
  const y = form.tipHeight;
  const spread = Math.min(2 * form.pitch, length / 8);
  return {
    from: '+y',
    lines: [
      {
        kind: 'visible',
        closed: true,
        points: [
          [0, y, 0],
          [length, y, 0],
          [length, y, b],
          [0, y, b],
        ],
      },
      ...[-1, 0, 1].map((k): DrawnLine => {
        const rise = Math.min(0.38 * b, (0.3 * length) / Math.max(1e-9, Math.abs(slope)));
        return {
          kind: 'thin',
          points: [-rise, rise].map((z): Vec3 => [length / 2 + k * spread + slope * z, y, b / 2 + z]),
        };
      }),
    ],
  };
}
