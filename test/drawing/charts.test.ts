import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apart, cutTo, ptOf, roundSteps } from '../../server/drawing/charts.ts';
import { curvesDrawing } from '../../server/drawing/curves.ts';
import { LETTER_PT } from '../../server/drawing/drawing.ts';
import { textWidthPt } from '../../server/drawing/font-advances.ts';
import { driversDrawing, shapeDrawing } from '../../server/drawing/range-charts.ts';

describe('a scale', () => {
  it('lays its ends on its ends, and values between them in proportion', () => {
    const scale = { fromValue: 100, toValue: 300, fromPt: 10, toPt: 50 };
    expect([100, 150, 300].map((value) => ptOf(scale, value))).toEqual([10, 20, 50]);
  });

  it('has round steps: 1, 2 or 5 times a power of ten', () => {
    expect(roundSteps({ from: 531_600, to: 806_300, most: 4 })).toEqual([600_000, 700_000, 800_000]);
    expect(roundSteps({ from: 0, to: 10, most: 5 })).toEqual([0, 2, 4, 6, 8, 10]);
  });

  it('has no more steps than asked for, all between its ends, evenly', () => {
    const value = fc.integer({ min: 0, max: 100_000_000 });
    fc.assert(
      fc.property(
        value,
        fc.integer({ min: 1, max: 50_000_000 }),
        fc.integer({ min: 2, max: 8 }),
        (from, span, most) => {
          const steps = roundSteps({ from, to: from + span, most });
          expect(steps.length).toBeLessThanOrEqual(most + 1);
          for (const step of steps) {
            expect(step).toBeGreaterThanOrEqual(from - 1e-6 * span);
            expect(step).toBeLessThanOrEqual(from + span * (1 + 1e-6));
          }
        },
      ),
    );
  });
});

describe('labels', () => {
  it('are moved apart, in their order, within their room', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 1, maxLength: 8 }), (ys) => {
        const placed = apart(ys, { leastPt: 10, topPt: 0, bottomPt: 100 });
        const inOrder = [...placed].sort((a, b) => a - b);
        // Sums of binary fractions.
        for (const [nth, y] of inOrder.slice(1).entries()) expect(y - (inOrder[nth] ?? 0)).toBeGreaterThan(10 - 1e-9);
        for (const y of placed) expect(y).toBeLessThanOrEqual(100 + 1e-9);
        for (const y of placed) expect(y).toBeGreaterThanOrEqual(-1e-9);
        for (const [a, y] of ys.entries()) {
          for (const [b, other] of ys.entries()) {
            if (y < other) expect(placed[a] ?? 0).toBeLessThan(placed[b] ?? 0);
          }
        }
      }),
    );
  });

  it('are cut to their room, and said to be', () => {
    expect(cutTo('short', 100)).toBe('short');
    const cut = cutTo('a name that is far too long to stand here', 60);
    expect(cut.endsWith('…')).toBe(true);
    expect(textWidthPt(cut, { sizePt: LETTER_PT, weight: 400 })).toBeLessThanOrEqual(60);
  });
});

describe('curves', () => {
  const points = [
    { at: 10, totals: { a: 100_000, b: 300_000 } },
    { at: 20, totals: { a: 200_000 } },
    { at: 30, totals: { a: 300_000, b: 500_000 } },
  ];
  const options = [
    { id: 'a', label: 'One' },
    { id: 'b', label: 'Two' },
    { id: 'none', label: 'Three' },
  ];
  const drawing = curvesDrawing({
    title: 'By distance',
    axisWords: 'length, ft',
    points,
    options,
    own: 20,
    widthPt: 500,
  });

  it('run straight through what lies on a line, and leave a gap where nothing is known', () => {
    const strokes = drawing.marks.filter(({ kind, weight }) => kind === 'line' && weight === 1.2);
    // The first option is one unbroken stroke through three points, evenly; the second has no two points together.
    expect(strokes).toHaveLength(1);
    const [[x0 = 0, y0 = 0] = [], [x1 = 0, y1 = 0] = [], [x2 = 0, y2 = 0] = []] = strokes[0]?.points ?? [];
    // Points are rounded to hundredths.
    expect(Math.abs(x1 - (x0 + x2) / 2)).toBeLessThan(0.02);
    expect(Math.abs(y1 - (y0 + y2) / 2)).toBeLessThan(0.02);
    expect(drawing.marks.filter(({ kind }) => kind === 'area')).toHaveLength(5);
  });

  it('are named, those that are nowhere left out, and said in words', () => {
    const words = drawing.marks.flatMap(({ text }) => text ?? []);
    expect(words).toEqual(expect.arrayContaining(['One', 'Two', 'as stated', 'length, ft', '10', '20', '30']));
    expect(words).not.toContain('Three');
    expect(drawing.altText).toBe(
      'By distance, by length, ft. One: 10: $1,000, 20: $2,000, 30: $3,000. Two: 10: $3,000, 30: $5,000.',
    );
  });

  it('are marked where they cross, with words where there is room, and said so', () => {
    const crossings = [
      { at: 20, totalCents: 250_000, mark: '20 ft' },
      { at: 20.2, totalCents: 251_000, mark: '20.2 ft' },
      { at: 20.3, totalCents: 252_000, mark: '20.3 ft' },
    ];
    const crossed = curvesDrawing({ title: 'x', axisWords: 'ft', points, options, crossings, widthPt: 500 });
    const rings = crossed.marks.filter(({ kind, weight }) => kind === 'line' && weight === 0.9);
    expect(rings).toHaveLength(3);
    const words = crossed.marks.flatMap(({ text }) => text ?? []);
    expect(words).toEqual(expect.arrayContaining(['20 ft', '20.2 ft'])); // above, and below
    expect(words).not.toContain('20.3 ft'); // it would stand on one of them
    expect(crossed.altText).toContain('Lines cross at about 20 ft, 20.2 ft, 20.3 ft.');
  });

  it('can be drawn of a single point', () => {
    const single = curvesDrawing({ title: 'x', axisWords: 'A', points: points.slice(1, 2), options, widthPt: 500 });
    for (const { points: at } of single.marks) for (const point of at) expect(point.every(Number.isFinite)).toBe(true);
  });
});

describe('what moves it', () => {
  it('is a bar from low to high, its ends written, as long as its money', () => {
    const drawing = driversDrawing({
      title: 'What moves it',
      totalCents: 500_000,
      drivers: [
        { name: 'labor', lowCents: 400_000, highCents: 600_000 },
        { name: 'copper', lowCents: 450_000, highCents: 550_000 },
      ],
      widthPt: 500,
    });
    const widths = drawing.marks
      .filter(({ kind, tone }) => kind === 'area' && tone === 'shade')
      .map(({ points }) => Math.max(...points.map(([x]) => x)) - Math.min(...points.map(([x]) => x)));
    // $2,000 against $1,000; points are rounded to hundredths.
    expect(Math.abs((widths[0] ?? 0) - 2 * (widths[1] ?? 0))).toBeLessThan(0.05);
    expect(drawing.marks.flatMap(({ text }) => text ?? [])).toEqual(
      expect.arrayContaining(['$4,000 to $6,000', '$4,500 to $5,500']),
    );
  });

  it('keeps its words on the sheet and apart, wherever the percentiles lie', () => {
    const cents = fc.integer({ min: 0, max: 1_000_000 });
    fc.assert(
      fc.property(cents, cents, cents, (one, two, three) => {
        const [p10Cents = 0, p50Cents = 0, p90Cents = 0] = [one, two, three].sort((a, b) => a - b);
        const shape = { fromCents: 0, stepCents: 100_000, shares: Array.from({ length: 10 }, () => 0.1) };
        const drawing = shapeDrawing({
          title: 'How often',
          shape,
          p10Cents,
          p50Cents,
          p90Cents,
          likelyCents: two,
          widthPt: 513,
        });
        const spans = drawing.marks
          .filter(({ text }) => /in 10|half/.test(text ?? ''))
          .map(({ points: [[x] = [0]], text = '' }) => [x, x + textWidthPt(text, { sizePt: LETTER_PT, weight: 400 })]);
        expect(spans[0]?.[0]).toBeGreaterThanOrEqual(0);
        // Points are rounded to hundredths.
        expect(spans[2]?.[1]).toBeLessThanOrEqual(513.01);
        expect(spans[0]?.[1]).toBeLessThan(spans[1]?.[0] ?? 0);
        expect(spans[1]?.[1]).toBeLessThan(spans[2]?.[0] ?? 0);
      }),
    );
  });

  it('has humps where the draws have them: bars as high as their shares', () => {
    const shares = [0.1, 0.4, 0.1, 0.1, 0.2, 0.1];
    const drawing = shapeDrawing({
      title: 'How often',
      shape: { fromCents: 0, stepCents: 100, shares },
      p10Cents: 100,
      p50Cents: 200,
      p90Cents: 500,
      likelyCents: 150,
      widthPt: 400,
    });
    const heights = drawing.marks
      .filter(({ kind }) => kind === 'area')
      .map(({ points }) => Math.max(...points.map(([, y]) => y)) - Math.min(...points.map(([, y]) => y)));
    heights.forEach((heightPt, nth) => {
      const share = (shares[nth] ?? 0) / 0.4;
      expect(Math.abs(heightPt / Math.max(...heights) - share)).toBeLessThan(0.001); // hundredths of a point of 50
    });
  });
});
