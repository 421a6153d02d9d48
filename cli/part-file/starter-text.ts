/** The part file that `starter` writes: a part that can be made at once, told to a beginner. */

/** What the helper's parameters are, where the file says types. */
interface Flavour {
  readonly imports: string;
  readonly helper: string;
}

const plain: Flavour = {
  imports: "import { definePart, length, refuse, stop, z } from 'patternwright';",
  helper: 'function profile(p, stock) {',
};

const typed: Flavour = {
  imports: `import { definePart, length, refuse, type Stock, stop, type Vec2, z } from 'patternwright';

interface Sizes {
  readonly flangeDiameter: number;
  readonly flangeThickness: number;
  readonly hubDiameter: number;
  readonly height: number;
  readonly bore: number;
}`,
  helper: 'function profile(p: Sizes, stock: Stock): readonly Vec2[] {',
};

/**
 * @param file as the user types it
 * @param name the part's, safe as a folder's
 */
export function starterText(file: string, name: string, hasTypes: boolean): string {
  const { imports, helper } = hasTypes ? typed : plain;
  return `// A part of your own. Try it:
//
//   patternwright make ${file} --help
//   patternwright make ${file} --bore 14mm
//
// In a plate job its path stands where other parts have their name: part: ${file}
// This file is code: whoever makes the part runs it.
${imports}

export default definePart({
  // The word on papers and folders: small letters, digits and hyphens.
  name: '${name}',
  summary: 'Collar with a flange and a bore',

  // Each becomes an option of the command (--flange-diameter), a line of its help and a key of plate jobs.
  // Whatever the user types, lengths come to build in mm and angles in radians.
  parameters: z.object({
    flangeDiameter: length({ min: 20, max: 120, default: 52, help: 'Diameter of the flange', group: 'Size' }),
    flangeThickness: length({ min: 3, max: 20, default: 5, help: 'Thickness of the flange', group: 'Size' }),
    hubDiameter: length({ min: 12, max: 80, default: 30, help: 'Diameter of the hub', group: 'Size' }),
    height: length({ min: 8, max: 80, default: 22, help: 'Height of the whole', group: 'Size' }),
    bore: length({ min: 5, max: 60, default: 12, help: 'Diameter of the bore', group: 'Size' }),
  }),

  // Sets of values by name: --preset wide. In mm and radians.
  presets: {
    wide: { flangeDiameter: 60, hubDiameter: 38, height: 24, bore: 20 },
  },

  // Called twice: with no stock for the finished part, and with the stock for the casting. It must do the same
  // every time for the same sizes. kernel makes solids; tolerance is how far a facet may lie off the true shape.
  build(p, stock, { kernel, tolerance }) {
    // What cannot be made is refused, with a reason, a remedy and the parameters that it is about.
    const wall = (p.hubDiameter - p.bore) / 2;
    if (wall < 3)
      return refuse([
        stop(
          'hub-too-thin',
          \`The hub's wall is \${wall.toFixed(1)} mm; 3 mm is the least.\`,
          \`Use a bore of at most \${(p.hubDiameter - 6).toFixed(1)} mm.\`,
          'bore',
        ),
      ]);
    if (p.flangeDiameter < p.hubDiameter + 8 || p.height < p.flangeThickness + 4)
      return refuse([
        stop(
          'no-flange',
          'The hub hides the flange.',
          'Make the flange 8 mm wider than the hub, and the whole 4 mm higher than the flange.',
          'flangeDiameter',
          'height',
        ),
      ]);

    // The metal stands as it prints and pours: up is +Z. Every number below answers to the stock.
    const top = p.height + stock.face;
    const hub = p.hubDiameter + 2 * stock.skin;
    const flange = p.flangeDiameter + 2 * stock.skin;
    const ledge = p.flangeThickness + stock.skin;
    const bore = p.bore - 2 * stock.bore;
    return {
      solid: kernel.revolve(profile(p, stock), tolerance),

      // Which surfaces carry which stock: face, bore, skin, mating (gears also flank and tip).
      surfaces: [
        { surfaceClass: 'face', name: 'top and underside' },
        { surfaceClass: 'bore', name: 'bore' },
        { surfaceClass: 'skin', name: 'flange and hub outside' },
      ],

      // What an inspector would measure, as it is in this state.
      dimensions: [
        { symbol: 'D', name: 'flange diameter', value: flange, unit: 'mm', axis: 'xy', method: 'calliper' },
        { symbol: 'h', name: 'height', value: top + stock.face, unit: 'mm', axis: 'z', method: 'calliper' },
        { symbol: 'd', name: 'bore', value: bore, unit: 'mm', axis: 'xy', method: 'calliper' },
      ],

      // Where metal may enter: a flat place that faces up. The gate may cover the ring between the two diameters.
      gates: [{ name: 'top of the hub', at: [0, 0, top], innerDiameter: bore, outerDiameter: hub }],

      // Highest places where rising metal would trap air: here on the flange, on both sides of the hub. A vent's foot
      // has room up to footDiameter.
      vents: [1, -1].map((side) => ({
        name: 'flange',
        at: [(side * (hub + flange)) / 4, 0, ledge],
        footDiameter: 0.8 * ((flange - hub) / 2),
      })),

      // The thinnest wall that must fill: it decides how hot the mould is.
      thinnestWall: Math.min(p.flangeThickness, wall),

      // Advice for the user: warn(...) and note(...) take the same as stop(...).
      findings: [],
    };
  },
});

// Half of the section, as [distance from the axis, height], counter-clockwise. Each surface is moved outward, square to
// itself, by its stock; a bore becomes smaller.
${helper}
  const inner = p.bore / 2 - stock.bore;
  const hub = p.hubDiameter / 2 + stock.skin;
  const rim = p.flangeDiameter / 2 + stock.skin;
  const bottom = -stock.face;
  const top = p.height + stock.face;
  const ledge = p.flangeThickness + stock.skin;
  return [
    [inner, bottom],
    [rim, bottom],
    [rim, ledge],
    [hub, ledge],
    [hub, top],
    [inner, top],
  ];
}
`;
}
