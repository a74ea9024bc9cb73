import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CONDUCTOR_SIZES, circularMils, TRADE_SIZES } from '../../../server/electrical/sizes.ts';
import { ADJUSTMENT_310_15_C_1 } from '../../../server/electrical/tables/adjustment-310-15-c-1.ts';
import { AMBIENT_310_15_B_1 } from '../../../server/electrical/tables/ambient-310-15-b-1.ts';
import { AMPACITY_310_16 } from '../../../server/electrical/tables/ampacity-310-16.ts';
import { BEND_RADIUS_CH9_2 } from '../../../server/electrical/tables/bend-radius-ch9-2.ts';
import { BOX_VOLUMES_314_16_B, METAL_BOXES_314_16_A } from '../../../server/electrical/tables/box-volumes-314-16.ts';
import { COMPACT_AREAS_CH9_5A } from '../../../server/electrical/tables/compact-areas-ch9-5a.ts';
import { CONDUCTOR_AREAS_CH9_5 } from '../../../server/electrical/tables/conductor-areas-ch9-5.ts';
import { CONDUCTOR_PROPERTIES_CH9_8 } from '../../../server/electrical/tables/conductor-properties-ch9-8.ts';
import { CONDUIT_AREAS_CH9_4 } from '../../../server/electrical/tables/conduit-areas-ch9-4.ts';
import { BURIED_WIRINGS, COVER_300_5 } from '../../../server/electrical/tables/cover-300-5.ts';
import { DWELLING_310_12 } from '../../../server/electrical/tables/dwelling-310-12.ts';
import { ELECTRODE_CONDUCTOR_250_66 } from '../../../server/electrical/tables/electrode-conductor-250-66.ts';
import { EQUIPMENT_GROUND_250_122 } from '../../../server/electrical/tables/equipment-ground-250-122.ts';
import { IMPEDANCE_CH9_9 } from '../../../server/electrical/tables/impedance-ch9-9.ts';
import { PVC_EXPANSION_352_44, PVC_EXPANSION_PER_F } from '../../../server/electrical/tables/pvc-expansion-352-44.ts';
import { SMALL_CONDUCTORS_240_4_D } from '../../../server/electrical/tables/small-conductors-240-4-d.ts';
import { STANDARD_RATINGS_240_6 } from '../../../server/electrical/tables/standard-ratings-240-6.ts';
import { TABLE_SUMS } from './table-sums.ts';

type Cell = string | number | null;

/** Tables as rows of numbers: sizes as circular mils where they are figures, left out where they are the row's name. */
const asNumbers = (rows: readonly (readonly Cell[])[], from: number): number[][] =>
  rows.map((row) =>
    row.slice(from).map((cell) => (cell === null ? 0 : typeof cell === 'number' ? cell : milsOf(cell))),
  );
const milsOf = (size: string): number => circularMils(size as (typeof CONDUCTOR_SIZES)[number]);

const TABLES: Record<string, number[][]> = {
  '310.16': asNumbers(AMPACITY_310_16.rows, 1),
  '310.12': asNumbers(DWELLING_310_12.rows, 0),
  '240.6(A)': STANDARD_RATINGS_240_6.ratingsA.map((ratingA) => [ratingA]),
  '240.4(D)': SMALL_CONDUCTORS_240_4_D.rows.map((row) => [row[2]]),
  '310.15(B)(1)(1)': asNumbers(AMBIENT_310_15_B_1.rows, 0),
  '310.15(C)(1)': asNumbers(ADJUSTMENT_310_15_C_1.rows, 1),
  'Chapter 9 Table 2': asNumbers(BEND_RADIUS_CH9_2.rows, 1),
  'Chapter 9 Table 4': asNumbers(CONDUIT_AREAS_CH9_4.rows, 2),
  'Chapter 9 Table 5': asNumbers(CONDUCTOR_AREAS_CH9_5.rows, 1),
  'Chapter 9 Table 5A': asNumbers(COMPACT_AREAS_CH9_5A.rows, 1),
  'Chapter 9 Table 8': asNumbers(CONDUCTOR_PROPERTIES_CH9_8.rows, 2),
  'Chapter 9 Table 9': asNumbers(IMPEDANCE_CH9_9.rows, 1),
  '250.122': asNumbers(EQUIPMENT_GROUND_250_122.rows, 0),
  '352.44(A)': asNumbers(PVC_EXPANSION_352_44.rows, 0),
  '314.16(B)(1)': asNumbers(BOX_VOLUMES_314_16_B.rows, 1),
  '314.16(A)': asNumbers(METAL_BOXES_314_16_A.rows, 1),
};

const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);
const share = (got: number, wanted: number) => Math.abs(got / wanted - 1);
const rises = (values: readonly number[]) =>
  values.every((value, index) => index === 0 || value > (values[index - 1] ?? Number.POSITIVE_INFINITY));
const neverFalls = (values: readonly number[]) =>
  values.every((value, index) => index === 0 || value >= (values[index - 1] ?? Number.POSITIVE_INFINITY));
const numbers = (values: readonly Cell[]) => values.filter((value): value is number => typeof value === 'number');

describe.each(Object.entries(TABLE_SUMS))('NEC Table %s against sums taken elsewhere', (name, sums) => {
  const rows = TABLES[name] ?? [];

  it('has the same sum in every row', () => {
    expect(rows.map((row) => Number(total(row).toFixed(6)))).toEqual(sums.rows);
  });

  it('has the same sum in every column', () => {
    const columns = sums.columns.map((_, column) => Number(total(rows.map((row) => row[column] ?? 0)).toFixed(6)));
    expect(columns).toEqual(sums.columns);
  });
});

describe('the other tables, against sums worked beside', () => {
  // Cover by column: cable 24 + 18 + 0 + 18 + 24 + 18; RMC 6 + 6 + 0 + 4 + 24 + 18; PVC 18 + 12 + 0 + 4 + 24 + 18;
  // 20 A, 120 V: 12 + 6 + 0 + 6 + 24 + 12; low voltage: 6 + 6 + 0 + 6 + 24 + 18.
  it('sums the columns of Table 300.5(A)', () => {
    const columns = BURIED_WIRINGS.map((wiring) => total(Object.values(COVER_300_5.rows).map((row) => row[wiring])));
    expect(columns).toEqual([102, 58, 76, 60, 60]);
  });

  // Table 250.66: rows end at copper 2, 1/0, 3/0, 350, 600, 1,100 kcmil and aluminum 1/0, 3/0, 250, 500, 900, 1,750.
  it('ends the rows of Table 250.66 where they are printed to end', () => {
    const ends = ELECTRODE_CONDUCTOR_250_66.rows.slice(0, -1).map((row) => [row[0], row[1]]);
    const printed = [
      [milsOf('2'), milsOf('1/0')],
      [milsOf('1/0'), milsOf('3/0')],
      [milsOf('3/0'), 250_000],
      [350_000, 500_000],
      [600_000, 900_000],
      [1_100_000, 1_750_000],
    ];
    expect(ends).toEqual(printed);
    expect(ELECTRODE_CONDUCTOR_250_66.rows.map((row) => row[2])).toEqual(['8', '6', '4', '2', '1/0', '2/0', '3/0']);
    expect(ELECTRODE_CONDUCTOR_250_66.rows.map((row) => row[3])).toEqual(['6', '4', '2', '1/0', '3/0', '4/0', '250']);
  });
});

describe('laws of the conductor', () => {
  const GAUGE = { '1/0': 0, '2/0': -1, '3/0': -2, '4/0': -3 } as const;
  const gaugeOf = (size: string): number => (size in GAUGE ? GAUGE[size as keyof typeof GAUGE] : Number(size));
  const awg = CONDUCTOR_SIZES.filter((size) => !/^\d{3}$/.test(size));

  // ASTM B258: the diameter of gauge n is 0.005 in × 92^((36 − n) / 39). Table 8 keeps four figures: 0.1 %.
  it.each(awg)('gives %s AWG the circular mils of the gauge', (size) => {
    const byGauge = (5 * 92 ** ((36 - gaugeOf(size)) / 39)) ** 2;
    expect(share(circularMils(size), byGauge)).toBeLessThan(0.001);
  });

  // Copper 10.371 Ω·cmil/ft at 20 °C, α 0.00323 from 75 °C; aluminum 61 % of the conductivity, α 0.0033; 2 % for the twist of
  // strands. The table is rounded to three figures: 0.6 %.
  it.each(CONDUCTOR_PROPERTIES_CH9_8.rows.map((row) => [`${row[0]} ${row[1]}`, row] as const))(
    'gives %s the resistance of its metal',
    (_name, [, construction, , mils, , , copper, aluminum]) => {
      const twist = construction === 'stranded' ? 1.02 : 1;
      const at75 = (ohmCmil: number, alpha: number) => (ohmCmil * 1000 * twist) / (mils * (1 - alpha * (75 - 20)));
      expect(share(copper, at75(10.371, 0.00323))).toBeLessThan(0.006);
      expect(share(aluminum, at75(10.371 / 0.61, 0.0033))).toBeLessThan(0.006);
    },
  );

  // Large conductors lose more to alternating current, none less: but for half of the last figure that Table 9 prints.
  it('keeps the resistance to alternating current at or above that to direct current', () => {
    const halfOfLastFigure = (ohm: number) => (ohm >= 1 ? 0.05 : ohm >= 0.1 ? 0.005 : 0.0005);
    const low = IMPEDANCE_CH9_9.rows.filter(([size, , , copper]) => {
      const dc = CONDUCTOR_PROPERTIES_CH9_8.rows.find((row) => row[0] === size && row[1] === 'stranded')?.[6];
      return dc === undefined || copper + halfOfLastFigure(copper) < dc;
    });
    expect(low).toEqual([]);
  });

  // Printed to two figures, from R and X that are themselves rounded: 6 % in the smallest.
  it('prints the effective impedance that R and X give at 0.85', () => {
    const sine = Math.sqrt(1 - 0.85 ** 2);
    const worst = IMPEDANCE_CH9_9.rows.flatMap(
      ([, xPvc, xSteel, pvc, aluminum, steel, , , , zPvc, zAluminum, zSteel]) => [
        share(0.85 * pvc + sine * xPvc, zPvc),
        share(0.85 * aluminum + sine * xPvc, zAluminum),
        share(0.85 * steel + sine * xSteel, zSteel),
      ],
    );
    expect(Math.max(...worst)).toBeLessThan(0.06);
  });
});

describe('laws of conduit and insulation', () => {
  // Areas are printed to 0.001 in²; the smallest are 0.067: 0.5 % and half of the last figure.
  it.each(CONDUIT_AREAS_CH9_4.rows.map((row) => [`${row[0]} ${row[1]}`, row] as const))(
    'gives %s the area of its circle, and 53, 31 and 40 percent of it',
    (_name, [, , diameterIn, totalIn2, one, two, more]) => {
      expect(share(totalIn2, (Math.PI / 4) * diameterIn ** 2)).toBeLessThan(0.002);
      for (const [printed, percent] of [
        [one, 53],
        [two, 31],
        [more, 40],
      ] as const) {
        expect(Math.abs(printed - (totalIn2 * percent) / 100)).toBeLessThan(0.00101);
      }
    },
  );

  it('grows with the trade size, in every type', () => {
    for (const type of ['pvc-40', 'pvc-80', 'emt', 'rmc']) {
      const rows = CONDUIT_AREAS_CH9_4.rows.filter((row) => row[0] === type);
      expect(rows.map((row) => row[1])).toEqual([...TRADE_SIZES]);
      expect(rises(rows.map((row) => row[3]))).toBe(true);
    }
  });

  // Diameters are printed to 0.001 in: 0.4 % of the area of the smallest.
  it.each(CONDUCTOR_AREAS_CH9_5.rows.map((row) => [row[0], row] as const))(
    'gives insulated %s the area of its circle',
    (_size, [, d1, a1, d2, a2, d3, a3]) => {
      for (const [diameterIn, areaIn2] of [
        [d1, a1],
        [d2, a2],
        [d3, a3],
      ] as const) {
        expect(Math.abs(areaIn2 - (Math.PI / 4) * diameterIn ** 2)).toBeLessThan(0.004 * areaIn2 + 0.00005);
      }
    },
  );

  it('gives compact aluminum less room than other strands of the same insulation', () => {
    for (const [size, , , thhn, xhhw] of COMPACT_AREAS_CH9_5A.rows) {
      const common = CONDUCTOR_AREAS_CH9_5.rows.find(([rowSize]) => rowSize === size);
      if (thhn !== null) expect(thhn).toBeLessThan(common?.[2] ?? 0);
      expect(xhhw).toBeLessThan(common?.[4] ?? 0);
    }
  });
});

describe('laws of ampacity and grounds', () => {
  it('lists ampacities in the order of sizes, each column rising with size', () => {
    expect(AMPACITY_310_16.rows.map(([size]) => size)).toEqual([...CONDUCTOR_SIZES]);
    for (const column of [1, 2, 3, 4, 5, 6] as const) {
      expect(rises(numbers(AMPACITY_310_16.rows.map((row) => row[column])))).toBe(true);
    }
  });

  it('lets a hotter column carry more, and aluminum less than copper', () => {
    for (const [, cu60, cu75, cu90, al60, al75, al90] of AMPACITY_310_16.rows) {
      expect(rises([cu60, cu75, cu90])).toBe(true);
      if (al60 === null || al75 === null || al90 === null) continue;
      expect(rises([al60, al75, al90])).toBe(true);
      expect([al60 < cu60, al75 < cu75, al90 < cu90]).toEqual([true, true, true]);
    }
  });

  // The heat that a conductor sheds falls with what is left to its temperature: √((Tc − Ta) / (Tc − 30)) at the upper end of
  // the row. Two decimals: 0.006.
  it.each(AMBIENT_310_15_B_1.rows.map((row) => [row[0], row] as const))(
    'corrects at %d °C as the square-root law does',
    (_toC, [toC, ...factors]) => {
      const columns = [60, 75, 90];
      factors.forEach((factor, column) => {
        const ratedC = columns[column] ?? 0;
        if (factor === null) expect(toC).toBeGreaterThan(ratedC - 5.5);
        else expect(Math.abs(factor - Math.sqrt((ratedC - toC) / (ratedC - 30)))).toBeLessThan(0.006);
      });
    },
  );

  it('takes more away the more conductors lie together', () => {
    expect(rises(ADJUSTMENT_310_15_C_1.rows.map(([, percent]) => -percent))).toBe(true);
  });

  // 310.12: the smallest whose 75 °C ampacity reaches 83 % of the rating.
  it('lists for an entire dwelling the smallest conductors of 83 percent', () => {
    const smallest = (ratingA: number, column: 2 | 5) =>
      AMPACITY_310_16.rows.find((row) => (row[column] ?? 0) >= 0.83 * ratingA)?.[0];
    const byRule = DWELLING_310_12.rows.map(([ratingA]) => [ratingA, smallest(ratingA, 2), smallest(ratingA, 5)]);
    expect(DWELLING_310_12.rows).toEqual(byRule);
  });

  it('never asks for a smaller ground or electrode conductor behind more', () => {
    expect(rises(EQUIPMENT_GROUND_250_122.rows.map(([ocpdToA]) => ocpdToA))).toBe(true);
    for (const column of [1, 2] as const) {
      expect(neverFalls(EQUIPMENT_GROUND_250_122.rows.map((row) => milsOf(row[column])))).toBe(true);
    }
    for (const column of [2, 3] as const) {
      expect(rises(ELECTRODE_CONDUCTOR_250_66.rows.map((row) => milsOf(row[column])))).toBe(true);
    }
  });

  it('lists standard ratings and boxes once, the ratings rising', () => {
    expect(rises(STANDARD_RATINGS_240_6.ratingsA)).toBe(true);
    expect(new Set(METAL_BOXES_314_16_A.rows.map(([box]) => box)).size).toBe(METAL_BOXES_314_16_A.rows.length);
  });

  // Printed to 0.01 in: half of that.
  it('lengthens PVC by its coefficient', () => {
    for (const [changeF, inches] of PVC_EXPANSION_352_44.rows) {
      expect(Math.abs(inches - changeF * PVC_EXPANSION_PER_F * 1200)).toBeLessThan(0.0051);
    }
  });
});

describe('sources', () => {
  it('names code, edition and table beside every table', async () => {
    const folder = new URL('../../../server/electrical/tables/', import.meta.url);
    const modules = await Promise.all(
      readdirSync(folder).map((file) => import(new URL(file, folder).href) as Promise<Record<string, unknown>>),
    );
    const constants = modules.flatMap((module) => Object.entries(module));
    const tables = constants.filter(([, value]) => typeof value === 'object' && value !== null);
    const sourceless = tables.filter(([, value]) => {
      const { source } = value as { source?: { code?: string; edition?: string; table?: string; note?: string } };
      return !source?.code || !source.edition || !source.table || !source.note;
    });
    expect(tables.length).toBeGreaterThan(20);
    expect(sourceless.map(([name]) => name)).toEqual(['BURIED_WIRINGS']);
  });
});
