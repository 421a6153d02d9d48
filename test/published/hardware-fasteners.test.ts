/** Fasteners, wood and rope against printed figures; the sources stand beside them. */
import { describe, expect, it } from 'vitest';
import { countersinkSeat, countersunkHead, headDepth } from '../../core/hardware/fastener-seat.js';
import { fastener } from '../../core/hardware/find-fastener.js';
import { splitPinFor, stockRods } from '../../core/hardware/rods.js';
import { lineLoad, ropeBreakingStrength } from '../../core/hardware/ropes.js';
import { lagWithdrawal, screwLateral, screwWithdrawal } from '../../core/hardware/wood.js';
import { gaugeDiameter } from '../../core/hardware/wood-screws.js';
import { printed } from './printed.js';

const inch = 25.4;
const pound = 4.4482216;
const degree = Math.PI / 180;

const bolt = (name: string) => {
  const found = fastener(name);
  if (found.kind !== 'bolt') throw new Error(`${name} is no bolt`);
  return found;
};
const headOf = (name: string, standard?: string) => {
  const head = countersunkHead(fastener(name), standard);
  if (head === undefined) throw new Error(`${name} has no head`);
  return head;
};

describe('tensile stress area', () => {
  it.each([
    ['M3', '5.03'],
    ['M4', '8.78'],
    ['M5', '14.2'],
    ['M6', '20.1'],
    ['M8', '36.6'],
    ['M10', '58.0'],
    ['M12', '84.3'],
    ['M14', '115'],
    ['M16', '157'],
  ])('%s: %s mm² (ISO 898-1, table 4, from memory)', (name, area) => {
    printed(bolt(name).stressArea, area);
  });
  it.each([
    // Printed as 0.00604; the formula gives 0.006033.
    ['#4-40', '0.0060'],
    ['#6-32', '0.00909'],
    ['#8-32', '0.0140'],
    ['#10-24', '0.0175'],
    ['1/4in', '0.0318'],
    ['5/16in', '0.0524'],
    ['3/8in', '0.0775'],
    ['7/16in', '0.1063'],
    ['1/2in', '0.1419'],
    ['5/8in', '0.226'],
  ])('%s: %s in² (ASME B1.1, from memory)', (name, area) => {
    printed(bolt(name).stressArea / inch ** 2, area);
  });
});

describe('tap drill', () => {
  it.each([
    ['M3', '2.5'],
    ['M4', '3.3'],
    ['M5', '4.2'],
    ['M6', '5.0'],
    ['M8', '6.8'],
    ['M10', '8.5'],
    ['M12', '10.2'],
    ['M14', '12.0'],
    ['M16', '14.0'],
  ])('%s: %s mm (ISO 2306, from memory; rounded to drills sold, M8 and M12 by 0.05)', (name, drill) => {
    expect(Math.abs(bolt(name).tapDrill - Number(drill))).toBeLessThan(0.0501);
  });
});

describe('clearance hole', () => {
  it.each([
    ['M3', 3.4],
    ['M4', 4.5],
    ['M5', 5.5],
    ['M6', 6.6],
    ['M8', 9],
    ['M10', 11],
    ['M12', 13.5],
    ['M16', 17.5],
  ])('%s medium: %d mm (ISO 273, from memory)', (name, hole) => {
    expect(bolt(name).clearanceHole.medium).toBe(hole);
  });
  it.each([
    ['1/4in', '0.281'],
    ['5/16in', '0.344'],
    ['3/8in', '0.406'],
    ['1/2in', '0.562'],
  ])('%s normal: %s in (ASME B18.2.8, from memory)', (name, hole) => {
    expect(Math.abs(bolt(name).clearanceHole.medium / inch - Number(hole))).toBeLessThan(0.0006);
  });
});

describe('countersunk heads', () => {
  it.each([
    ['M3', '1.86'],
    ['M4', '2.48'],
    ['M5', '3.10'],
    ['M6', '3.72'],
    ['M8', '4.96'],
    ['M10', '6.20'],
    ['M12', '7.44'],
    ['M14', '8.4'],
    ['M16', '8.8'],
  ])(
    'ISO 10642 %s: depth %s mm (M3 to M8 seen in three hardware tables, the rest from memory)',
    (name, k) => {
      printed(headDepth(headOf(name, 'ISO 10642'), fastener(name).diameter), k);
    },
  );
  it.each([
    ['M3', '1.65', 5.5],
    ['M4', '2.7', 8.4],
    ['M5', '2.7', 9.3],
    ['M6', '3.3', 11.3],
    ['M8', '4.65', 15.8],
    ['M10', '5', 18.3],
  ])('ISO 7046 %s: depth %s mm, head %d mm (M3 to M8 seen on a fastener data page)', (name, k, most) => {
    const head = headOf(name, 'ISO 7046');
    printed(headDepth(head, fastener(name).diameter), k);
    expect(head.actualDiameter.most).toBe(most);
  });
  it.each([
    ['#4-40', '0.067'],
    ['#6-32', '0.083'],
    ['#8-32', '0.100'],
    ['#10-24', '0.116'],
    ['1/4in', '0.153'],
    ['3/8in', '0.230'],
  ])(
    'ASME B18.6.3 %s: reference height %s in, which is that of the least angle, 80° (from memory)',
    (name, h) => {
      const depth = headDepth({ ...headOf(name), angle: 80 * degree }, fastener(name).diameter) / inch;
      expect(Math.abs(depth - Number(h))).toBeLessThan(0.0011);
    },
  );
  it('M5 countersink over a medium hole: 90°, mouth 10.4, cone 2.45 deep', () => {
    const seat = countersinkSeat(fastener('M5'))!;
    expect(seat.angle / degree).toBeCloseTo(90, 9);
    printed(seat.mouthDiameter, '10.4');
    printed(seat.coneDepth, '2.45');
  });
});

describe('hexagon', () => {
  it.each([
    ['M5', 8],
    ['M6', 10],
    ['M8', 13],
    ['M10', 16],
    ['M12', 18],
    ['M16', 24],
  ])('%s: %d mm across flats (ISO 272, ISO 4032, from memory)', (name, flats) => {
    expect(bolt(name).hexagon.nutAcrossFlats).toBe(flats);
  });
  it.each([
    ['1/4in', '7/16'],
    ['5/16in', '1/2'],
    ['3/8in', '9/16'],
    ['7/16in', '11/16'],
    ['1/2in', '3/4'],
    ['5/8in', '15/16'],
  ])('%s nut: %s in across flats (ASME B18.2.2, from memory)', (name, text) => {
    const [top, bottom] = text.split('/').map(Number) as [number, number];
    expect(bolt(name).hexagon.nutAcrossFlats / inch).toBeCloseTo(top / bottom, 12);
  });
});

describe('wood screws by gauge', () => {
  it.each([
    [2, '2.18', 0.172],
    [4, '2.84', 0.225],
    [6, '3.51', 0.279],
    [7, '3.84', 0.305],
    [8, '4.17', 0.332],
    [9, '4.50', 0.358],
    [10, '4.83', 0.385],
    [12, '5.49', 0.438],
    [14, '6.15', 0.507],
  ])(
    '#%i: shank %s mm, head %d in (ANSI B18.6.1; heads of 2 to 7 seen on a screw chart)',
    (gauge, mm, head) => {
      printed(gaugeDiameter(gauge), mm);
      expect(headOf(`#${gauge}`).theoreticalDiameter / inch).toBeCloseTo(head, 12);
      expect(headOf(`#${gauge}`).angle / degree).toBeCloseTo(82, 9);
    },
  );
  it('heads are those of machine screws of the same size (ASME B18.6.3)', () => {
    for (const gauge of [4, 6, 8]) {
      const machine = fastener(gauge === 4 ? '#4-40' : `#${gauge}-32`);
      expect(machine.diameter).toBeCloseTo(gaugeDiameter(gauge), 9);
      expect(headOf(`#${gauge}`).theoreticalDiameter).toBe(headOf(machine.name).theoreticalDiameter);
    }
  });
});

describe('hold in wood: metric constants as the Wood Handbook prints them beside the inch ones (ch. 8, from memory)', () => {
  it('withdrawal of a wood screw 108.25 G² D L', () => {
    printed(screwWithdrawal(1, 1, 1), '108.25');
  });
  it('withdrawal of a lag screw 125.4 G^1.5 D^0.75 L', () => {
    printed(lagWithdrawal(1, 1, 1), '125.4');
  });
  it.each([
    [0.4, 'softwood', '23.17'],
    [0.45, 'softwood', '29.79'],
    [0.5, 'softwood', '36.40'],
    [0.4, 'hardwood', '23.17'],
    [0.5, 'hardwood', '31.99'],
    [0.6, 'hardwood', '44.13'],
  ] as const)('sideways, G %d %s: K %s N/mm²', (gravity, kind, k) => {
    printed(screwLateral(gravity, kind, 1), k);
  });
});

describe('rope, three-strand', () => {
  it.each([
    ['polyester', 8, '10.0'],
    ['polyester', 10, '15.6'],
    ['polyester', 12, '22.3'],
    ['polyester', 16, '39.8'],
    ['polyester', 20, '62.3'],
    ['polyester', 24, '89.6'],
    ['nylon', 8, '13.2'],
    ['nylon', 10, '20.4'],
    ['nylon', 12, '29.4'],
    ['nylon', 16, '52.0'],
    ['nylon', 20, '81.4'],
    ['polypropylene', 12, '19.9'],
  ] as const)(
    '%s %i mm breaks at %s kN (ISO 1141, 1140, 1346, from memory; table in kgf, BS 4928)',
    (fibre, d, kn) => {
      printed(ropeBreakingStrength(fibre, d) / 1000, kn);
    },
  );
  it.each([
    [1 / 4, 540],
    [3 / 8, 1215],
    [1 / 2, 2385],
    [5 / 8, 3960],
    [3 / 4, 4860],
    [1, 8100],
  ])(
    'manila %d in: nine tenths is %i lbf, the minimum of Cordage Institute CI 1201 (from memory)',
    (d, lbf) => {
      expect((0.9 * ropeBreakingStrength('manila', d * inch)) / pound).toBeCloseTo(lbf, 3);
    },
  );
  it('works at a fifth (Cordage Institute CI 1401: design factors 5 to 12, from memory)', () => {
    expect(lineLoad('manila', inch / 2) / pound).toBeCloseTo(2650 / 5, 3);
  });
});

describe('pins', () => {
  it.each([
    [3, 0.8],
    [4, 1],
    [5, 1.2],
    [6, 1.6],
    [8, 2],
    [10, 3.2],
    [12, 3.2],
    [16, 4],
  ])('clevis pin %d mm takes a split pin of %d mm (ISO 2341 and ISO 1234, from memory)', (pin, split) => {
    expect(splitPinFor(pin).nominal).toBe(split);
  });
  it('stock rod: whole sixteenths in inches but for 3/32, and round bar (merchants’ lists)', () => {
    expect(stockRods.inch.map((d) => Number(((d / inch) * 32).toFixed(9)))).toEqual([
      3, 4, 6, 8, 10, 12, 16, 20, 24,
    ]);
    expect(stockRods.metric).toEqual(expect.arrayContaining([3, 4, 5, 6, 8, 10, 12]));
  });
});
