import type { ComponentChildren } from 'preact';
import { useMemo } from 'preact/hooks';
import { contactsAt } from '../../../core/gear/running/contacts.js';
import { pairSection, sectionStands } from '../../../core/gear/running/outlines.js';
import type { RunningPair } from '../../../core/gear/running/running-pair.js';
import {
  lineOfAction,
  type MemberCircles,
  mateOnCentres,
  pairCircles,
  type SectionSize,
  sectionSizes,
} from '../../../core/gear/running/section-lines.js';
import { type FlankSide, rackPitch } from '../../../core/gear/running/stand.js';
import type { Vec2 } from '../../../core/solid/types.js';
import {
  gapArrows,
  type Lie,
  lieTransform,
  onPicture,
  outlinePath,
  standTransform,
} from './close-up-lines.js';
import { frameTurn } from './running-scene.js';
import { useWidth } from './use-width.js';

export interface CloseUpProps {
  readonly pair: RunningPair;
  /** Whether the pair's first member is the chosen part, which is drawn as such. */
  readonly chosenFirst: boolean;
  readonly angle: number;
  /** Height of the section, mm. */
  readonly z: number;
  readonly side: FlankSide;
  /** Seen either way from the pitch point along the pitch line, mm. */
  readonly reach: number;
  readonly length: (mm: number) => string;
  /** What is drawn, in words. */
  readonly title: string;
}

/** Where the teeth meet: a transverse section about the pitch point, exact, as it stands at this moment. */
export function CloseUp(props: CloseUpProps) {
  const { pair, angle, z, side, reach } = props;
  const [ref, width] = useWidth<HTMLDivElement>(480);
  const height = Math.round(Math.min(520, Math.max(260, 0.82 * width)));
  const lie: Lie = {
    width,
    height,
    scale: height / (2 * reach),
    pitchPoint: [pair.pitchRadius, 0],
    frame: frameTurn(pair),
  };
  // The corners of the picture are further off than its sides.
  const drawn = 1.05 * reach * Math.max(1, width / height);
  const paths = useMemo(() => {
    const section = pairSection(pair, drawn);
    return { gear: outlinePath(section.gear), mate: outlinePath(section.mate) };
  }, [pair, drawn]);
  const stands = sectionStands(pair, angle, z, side);
  const circles = useMemo(() => pairCircles(pair), [pair]);
  const arcs = useMemo(() => clearanceArcs(pair, circles.gear, circles.mate), [pair, circles]);
  const line = lineOfAction(pair, side);
  const [own, other] = props.chosenFirst ? ['is-chosen', 'is-mate'] : ['is-mate', 'is-chosen'];
  return (
    <div class="close-up" ref={ref}>
      <svg
        viewBox={`0 0 ${width} ${height}`}
        width={width}
        height={height}
        role="img"
        aria-label={props.title}
      >
        <g transform={lieTransform(lie)}>
          <path class={`section ${other}`} d={paths.mate} transform={standTransform(stands.mate)} />
          <path class={`section ${own}`} d={paths.gear} transform={standTransform(stands.gear)} />
          <Circles {...circles.gear} />
          <Circles {...circles.mate} />
          <path class="clearance-arc" d={arcs} />
          {side !== 'midway' && (
            <>
              <path class="tangent" d={segment(line.tangent)} />
              <path class="path-of-contact" d={segment(line.path)} />
            </>
          )}
        </g>
        <Sizes {...props} lie={lie} />
        <Contacts {...props} lie={lie} />
      </svg>
    </div>
  );
}

const segment = ([[x0, y0], [x1, y1]]: readonly [Vec2, Vec2]): string => `M${x0} ${y0}L${x1} ${y1}`;

/** Tip and root circles where they cross the line of centres: what the clearances are measured between. */
function clearanceArcs(pair: RunningPair, gear: MemberCircles, mate: MemberCircles): string {
  const half = rackPitch(pair) / 3;
  const at = mateOnCentres(pair, mate);
  const arc = (x: number, radius: number, bulge: 0 | 1): string => {
    const sag = radius - Math.sqrt(Math.max(0, radius ** 2 - half ** 2));
    const ends = bulge === 1 ? x - sag : x + sag;
    return `M${ends} ${-half}A${radius} ${radius} 0 0 ${bulge} ${ends} ${half}`;
  };
  const own = arc(gear.tip, gear.tip, 1) + arc(gear.root, gear.root, 1);
  if (mate.base === null) return `${own}M${at.tip} ${-half}V${half}M${at.root} ${-half}V${half}`;
  const bulge = pair.mesh.kind === 'internal' ? 1 : 0;
  return own + arc(at.tip, mate.tip, bulge) + arc(at.root, mate.root, bulge);
}

/** Base circle dashed, working pitch circle with dashes and dots; of a rack its pitch line. */
function Circles({ centre, base, pitch }: MemberCircles) {
  if (base === null) return <path class="pitch-circle" d={`M${centre - pitch} -1000V1000`} />;
  return (
    <>
      <circle class="base-circle" cx={centre} cy={0} r={base} />
      <circle class="pitch-circle" cx={centre} cy={0} r={pitch} />
    </>
  );
}

type Laid = CloseUpProps & { readonly lie: Lie };

function Contacts({ pair, angle, z, side, lie }: Laid) {
  const [x, y] = onPicture(lie, [pair.pitchRadius, 0]);
  const ends = side === 'midway' ? [] : lineOfAction(pair, side).path.map((p) => onPicture(lie, p));
  return (
    <>
      <path class="pitch-point" d={`M${x - 5} ${y}h10M${x} ${y - 5}v10`} />
      {ends.map(([ex, ey], i) => (
        <text key={i === 0 ? 'A' : 'E'} class="point-name" x={ex + 8} y={ey + (ey > y ? 14 : -6)}>
          {i === 0 ? 'A' : 'E'}
        </text>
      ))}
      {contactsAt(pair, angle, z, side).map(({ tooth, at: [cx, cy] }) => {
        const [px, py] = onPicture(lie, [cx, cy]);
        return <circle key={tooth} class="contact" cx={px} cy={py} r={5} />;
      })}
    </>
  );
}

/** Backlash and tip clearances, each with arrows at the gap and its figure at the edge of the picture. */
function Sizes({ pair, angle, z, side, lie, length }: Laid) {
  const sizes = sectionSizes(pair, angle, z, side);
  const { width, height } = lie;
  const [right, low, middle] = [width - 8, height - 10, height / 2];
  // Clearances on the line of centres, which is upright over a rack; the backlash in a corner on its side of the line.
  const [first, second]: [Vec2, Vec2] =
    pair.mesh.kind === 'rack'
      ? [
          [width / 2 + 10, low],
          [width / 2 - 10, 20],
        ]
      : [
          [right, middle - 8],
          [8, middle - 8],
        ];
  const corner: Vec2 = [right, (side !== 'leading') === (pair.mesh.kind !== 'rack') ? 20 : low];
  const shown = [
    ['c', '1', sizes.gearClearance, first],
    ['c', '2', sizes.mateClearance, second],
    ['j', 'bt', sizes.backlash, corner],
  ] as const;
  return (
    <>
      {shown.map(([symbol, index, size, at]) => (
        <Size key={index} size={size} lie={lie} at={at} symbol={symbol} index={index}>
          {symbol === 'j' && side === 'midway' ? '/ 2 ' : ''}
          {length(size.value)}
        </Size>
      ))}
    </>
  );
}

interface SizeProps {
  readonly size: SectionSize;
  readonly lie: Lie;
  /** Where the figure stands: its end at the right edge and left of an upright line, else its start. */
  readonly at: Vec2;
  readonly symbol: string;
  readonly index: string;
  readonly children: ComponentChildren;
}

function Size({ size, lie, at: [tx, ty], symbol, index, children }: SizeProps) {
  const [from, to] = [onPicture(lie, size.from), onPicture(lie, size.to)];
  const [mx, my] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const atEnd = tx > 0.75 * lie.width;
  const upright = !atEnd && tx > 0.25 * lie.width;
  const level = !upright && Math.abs(ty + 8 - my) < 2;
  const leader = upright
    ? `M${mx} ${my}V${ty < my ? 6 : lie.height - 6}`
    : level
      ? `M${mx} ${my}H${atEnd ? lie.width - 6 : 6}`
      : `M${mx} ${my}L${tx - 36} ${ty + (ty > my ? -18 : 8)}`;
  const arrows = gapArrows(from, to, [to[0] - from[0], to[1] - from[1]]);
  return (
    <>
      <path class="leader" d={leader} />
      <path class="gap" d={arrows.join('')} />
      <text
        class="size"
        x={tx}
        y={ty}
        text-anchor={atEnd || (upright && tx < lie.width / 2) ? 'end' : 'start'}
      >
        <tspan font-style="italic">{symbol}</tspan>
        <tspan class="index" dy="3">
          {index}
        </tspan>
        <tspan dy="-3"> {children}</tspan>
      </text>
    </>
  );
}
