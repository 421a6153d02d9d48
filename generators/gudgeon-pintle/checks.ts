import {
  allowableLoadNote,
  filletRadius,
  headLand,
  leastPinWall,
  leastPitch,
  loadCaveats,
  loadFindings,
} from '../../core/hardware/index.js';
import { type Finding, note, stop, warn } from '../../core/part/finding.js';
import { isNoStock, noStock, type Stock } from '../../core/part/stock.js';
import { countersinkFindings } from '../hardware/screw-holes.js';
import { rootFilletIn } from './body.js';
import type { GudgeonPintleParameters } from './parameters.js';
import { type RudderSizes, rudderSizes } from './sizes.js';
import { bossFoot, innerCorner, outerHalf, strapFlat, webAtCorner } from './strap-shape.js';
import { swingLimit } from './swing.js';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;
const degrees = (value: number): string => `${Math.floor((value * 180) / Math.PI)}°`;

/** The rudder is put over no further, radians (common practice, no source: beyond 35° it stalls). */
const hardOver = (40 * Math.PI) / 180;

/** What is wrong with pintle or gudgeon in a state, or worth knowing. No solid can be made after a `stop`. */
export function checkRudder(p: GudgeonPintleParameters, s: RudderSizes, stock: Stock): readonly Finding[] {
  const shape = [...checkPlan(s, stock), ...checkPin(s, stock), ...checkScrews(s)];
  if (shape.some((f) => f.severity === 'stop')) return shape;
  return [...shape, ...checkUse(p, s, stock)];
}

/** Web to strap thickness at their corner (common practice, no source). */
const leastWeb = 0.7;

function checkPlan(s: RudderSizes, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  const { thickness, edge, width } = s;
  if (thickness - 2 * edge < 0.8 || width < 6 * edge) {
    findings.push(
      stop(
        'edges-meet',
        `edges rounded to ${mm(edge)} leave no flat on straps ${mm(thickness)} thick`,
        'make the rounding smaller or the straps thicker',
        'edge',
        'thickness',
      ),
    );
  }
  const wide =
    s.mount === 'strap'
      ? s.bossRadius > 1.5 * outerHalf(s)
      : s.reach - s.bossRadius < 4 * s.fillet + 2 * thickness;
  if (wide) {
    findings.push(
      stop(
        'boss-wide',
        s.mount === 'strap'
          ? `the boss is ${mm(2 * s.bossRadius)} across, the straps about ${mm(s.wood)} of wood ${mm(2 * outerHalf(s))}`
          : `the boss, ${mm(2 * s.bossRadius)} across, leaves no room for its fillets on a plate ${mm(2 * s.reach)} long`,
        'make the wood thicker or the plate longer, or the pin or the fillets smaller',
        'pintleDiameter',
        'fillet',
        s.mount === 'plate' ? 'strapLength' : s.piece === 'pintle' ? 'bladeThickness' : 'postThickness',
      ),
    );
  }
  if (s.mount === 'strap' && webAtCorner(s) < leastWeb * thickness) {
    findings.push(
      stop(
        'web-thin',
        `straps about ${mm(s.wood)} of wood come off a boss ${mm(2 * s.bossRadius)} across with ${mm(Math.max(0, webAtCorner(s)))} of web at their corners`,
        'make the pin or the wall thicker, or the wood thinner',
        'pintleDiameter',
        'wall',
        s.piece === 'pintle' ? 'bladeThickness' : 'postThickness',
      ),
    );
  }
  if (s.mount === 'strap' && s.reach < 4 * s.fillet + 2 * thickness) {
    findings.push(
      stop(
        'straps-short',
        `straps ${mm(s.reach)} long have no room for their corners`,
        `make them ${mm(Math.ceil(4 * s.fillet + 2 * thickness))} or longer`,
        'strapLength',
      ),
    );
  }
  const inside = s.mount === 'strap' ? innerCorner(s) : 1.5 * s.fillet;
  if (Math.min(s.fillet, inside) - stock.skin < 0.3) {
    findings.push(
      stop(
        'fillet-filled-by-stock',
        `inner corners of ${mm(Math.min(s.fillet, inside))} are used up by ${mm(stock.skin)} of stock`,
        `make them ${mm(stock.skin + 0.5)} or more`,
        'fillet',
      ),
    );
  } else if (s.fillet < filletRadius(thickness).least - 1e-9) {
    findings.push(
      warn(
        'fillet-small',
        `inner corners of radius ${mm(s.fillet)} between sections ${mm(thickness)} thick are where a casting tears`,
        `make the fillet ${mm(filletRadius(thickness).least)} to ${mm(filletRadius(thickness).usual)}`,
        'fillet',
      ),
    );
  }
  const slot = s.wood - 2 * stock.skin;
  if (s.mount === 'strap' && s.reach > 5 * slot) {
    findings.push(
      warn(
        'mould-fin-thin',
        `the mould between the straps is ${mm(slot)} thick and ${mm(s.reach)} deep; this thick it holds to ${mm(5 * slot)}`,
        'make the straps shorter',
        'strapLength',
      ),
    );
  }
  return findings;
}

function checkPin(s: RudderSizes, stock: Stock): readonly Finding[] {
  const findings: Finding[] = [];
  if (s.castPin) {
    const foot = s.pinDiameter / 2 + stock.mating + Math.max(0, rootFilletIn(s, stock));
    if (rootFilletIn(s, stock) < 0.3) {
      findings.push(
        stop(
          'pin-fillet-filled-by-stock',
          `the fillet of ${mm(s.pinFillet)} at the pin's root is used up by ${mm(Math.min(stock.mating, stock.face))} of stock`,
          'leave less stock of the mating and face classes, or take a pin of rod',
          'pin',
        ),
      );
    }
    if (foot > s.bossRadius + stock.skin - s.edge - 0.1) {
      findings.push(
        stop(
          'pin-foot-wide',
          `the pin's foot, ${mm(2 * foot)} across with its fillet, overhangs a boss of ${mm(2 * s.bossRadius)}`,
          'make the wall thicker, or take a pin of rod',
          'wall',
          'pin',
        ),
      );
    }
  } else {
    const wall = s.bossRadius - s.holeDiameter / 2 - s.chamfer - s.edge;
    if (wall < 0.5) {
      findings.push(
        stop(
          'hole-mouth-wide',
          `the chamfered mouth, ${mm(s.holeDiameter + 2 * s.chamfer)} across, leaves no flat on a boss of ${mm(2 * s.bossRadius)}`,
          'make the wall thicker',
          'wall',
        ),
      );
    }
    const thin = s.bossRadius - s.holeDiameter / 2;
    if (thin < leastPinWall(s.holeDiameter) - 1e-9) {
      findings.push(
        warn(
          'wall-thin',
          `${mm(thin)} of metal is left round the ${mm(s.holeDiameter)} hole`,
          `leave ${mm(leastPinWall(s.holeDiameter))}`,
          'wall',
        ),
      );
    }
  }
  if (s.pintleLength < s.width) {
    findings.push(
      warn(
        'pintle-short',
        `a pintle ${mm(s.pintleLength)} long does not reach through a gudgeon of ${mm(s.width)}`,
        `make it ${mm(s.width + 0.2 * s.pinDiameter)} or longer`,
        'pintleLength',
      ),
    );
  }
  if (s.castPin && s.pintleLength < s.pinFillet + 0.35 * s.pinDiameter + 2) {
    findings.push(
      stop(
        'pintle-stub',
        `a pintle ${mm(s.pintleLength)} long is all root and tip`,
        `make it ${mm(s.width + 0.2 * s.pinDiameter)} long`,
        'pintleLength',
      ),
    );
  }
  return findings;
}

function checkScrews(s: RudderSizes): readonly Finding[] {
  const { seat, screw, screwsAt } = s;
  const findings: Finding[] = [...countersinkFindings(seat, s.thickness, 'thickness', false)];
  const mouth = seat.mouthDiameter / 2;
  const flat = s.width / 2 - s.edge - mouth;
  // On a strap the corner of the web, on a plate the boss with its fillet, is before the first one.
  const near = s.mount === 'strap' ? strapFlat(s) : bossFoot(s);
  const end = s.mount === 'strap' ? s.standOff + s.reach : s.reach;
  const along = screwsAt.map(([a]) => a).filter((a) => a > 0);
  const first = Math.min(...along) - near - mouth;
  const last = end - s.thickness / 2 - Math.max(...along) - mouth;
  const apart = Math.min(...along.slice(1).map((a, i) => a - (along[i] as number)));
  const remedy = 'take smaller or fewer screws, or wider and longer straps';
  if (flat < 0.3 || first < 0.2 || last < 0.2 || apart < 2 * mouth + 0.5) {
    findings.push(
      stop(
        'screws-no-room',
        `screws ${screw.name}, their heads ${mm(2 * mouth)}, do not fit ${s.mount === 'strap' ? 'straps' : 'a plate'} ${mm(s.width)} wide and ${mm(s.mount === 'strap' ? s.reach : 2 * s.reach)} long`,
        remedy,
        'screw',
        'screws',
        'strapWidth',
        'strapLength',
      ),
    );
  } else if (flat < 0.5 * headLand(2 * mouth) || apart < leastPitch(screw) - 1e-9) {
    findings.push(
      warn(
        'screws-crowded',
        `screws ${screw.name} leave ${mm(flat)} beside their heads${Number.isFinite(apart) ? ` and stand ${mm(apart)} apart` : ''}`,
        remedy,
        'screw',
        'strapWidth',
      ),
    );
  }
  return findings;
}

function checkUse(p: GudgeonPintleParameters, s: RudderSizes, stock: Stock): readonly Finding[] {
  const words = { part: `the ${s.piece}`, parameters: ['pintleDiameter', 'size', 'speed'] };
  return [
    ...(isNoStock(stock) ? [] : fitting(s)),
    ...swingFindings(p, s),
    ...loadFindings(s.load, {
      ...words,
      use: `a rudder ${Math.round(p.size)} mm deep at ${Number(p.speed.toFixed(1))} knots`,
      remedy: 'take a thicker pintle, a pin of rod or a stronger alloy',
    }),
    allowableLoadNote(s.load, words),
    note(
      'rudder-estimate',
      'the force on the rudder is an estimate for steady steering; a wave, a grounding or a hand on the blade exceeds it',
      loadCaveats[0] as string,
      'size',
      'speed',
    ),
  ];
}

/** None where the other casting cannot be made: it says so itself. */
function swingFindings(p: GudgeonPintleParameters, s: RudderSizes): readonly Finding[] {
  const other = rudderSizes(p, s.piece === 'pintle' ? 'gudgeon' : 'pintle');
  if (checkPlan(other, noStock).some((f) => f.severity === 'stop')) return [];
  const swing = s.piece === 'pintle' ? swingLimit(s, other) : swingLimit(other, s);
  const sentence = `the rudder swings ${degrees(swing)} to each side before it meets the ${p.mount === 'plate' ? 'transom' : 'sternpost'} or the gudgeon`;
  return swing < hardOver
    ? [
        warn(
          'rudder-swing-small',
          sentence,
          'round the corners of the blade, make it thinner, or make the wall thicker so that it stands further off',
          'bladeThickness',
          'wall',
        ),
      ]
    : [note('rudder-swing', sentence, 'give it stops at 35° to 40°', 'bladeThickness')];
}

const fitting = (s: RudderSizes): readonly Finding[] =>
  s.castPin
    ? [
        note(
          'pin-turned',
          `the pin is cast thicker and straight to its end, to be turned or filed to ${mm(s.pinDiameter)} with a tapered tip`,
          'try it in its gudgeon as you go',
          'pintleDiameter',
        ),
      ]
    : [];
