import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Drawing, Mark } from '../../server/drawing/drawing.ts';
import { textWidthPt } from '../../server/drawing/font-advances.ts';
import { sectionDrawing } from '../../server/drawing/section.ts';
import { LEG_KINDS } from '../../server/estimate/vocabulary.ts';
import { DESCRIPTION, PANEL_90 } from '../report/fixture.ts';
import { optionOver, readRoute, scenes } from './scenes.ts';

const TITLE = 'A section to measure';
const draw = (widthPt = 513) =>
  sectionDrawing({ title: TITLE, option: PANEL_90, route: DESCRIPTION.route, building: 'detached', widthPt });

interface Box {
  mark: Mark;
  x0: number;
  x1: number;
  y0: number;
  y1: number;
}

/** Where a text stands: from its table of advances, its height above and below the base line by the font's own. */
function boxesOf({ marks }: Drawing): Box[] {
  return marks
    .filter(({ kind }) => kind === 'text')
    .map((mark) => {
      const [x = 0, y = 0] = mark.points[0] ?? [];
      const sizePt = mark.sizePt ?? 0;
      const widthPt = textWidthPt(mark.text ?? '', { sizePt, weight: mark.weight === 600 ? 600 : 400 });
      const x0 = mark.anchor === 'middle' ? x - widthPt / 2 : mark.anchor === 'end' ? x - widthPt : x;
      // Capitals of Barlow are 0.7 of its size high, its descenders 0.2 deep.
      return { mark, x0, x1: x0 + widthPt, y0: y - 0.7 * sizePt, y1: y + 0.2 * sizePt };
    });
}

function overlapping(drawing: Drawing): string[] {
  const boxes = boxesOf(drawing);
  return boxes.flatMap((a, nth) =>
    boxes
      .slice(nth + 1)
      .filter((b) => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1)
      .map((b) => `"${a.mark.text}" over "${b.mark.text}"`),
  );
}

const outside = (drawing: Drawing) =>
  boxesOf(drawing)
    .filter(({ x0, x1, y0, y1 }) => x0 < 0 || x1 > drawing.widthPt + 0.01 || y0 < 0 || y1 > drawing.heightPt)
    .map(({ mark }) => mark.text);

/** Leaders are the thin grey lines of legs; none may run through the words of another leg. */
function strikingThrough(drawing: Drawing): string[] {
  const boxes = boxesOf(drawing);
  const leaders = drawing.marks.filter(
    ({ kind, weight, tone }) => kind === 'line' && weight === 0.4 && tone === 'grey',
  );
  return leaders.flatMap(({ points }) =>
    points.slice(1).flatMap(([x1, y1], nth) => {
      const [x0, y0] = points[nth] ?? [x1, y1];
      return Array.from({ length: 21 }, (_, step) => [
        x0 + ((x1 - x0) * step) / 20,
        y0 + ((y1 - y0) * step) / 20,
      ]).flatMap(([x = 0, y = 0]) =>
        boxes.filter((box) => x > box.x0 && x < box.x1 && y > box.y0 && y < box.y1).map(({ mark }) => mark.text ?? ''),
      );
    }),
  );
}

describe('a section', () => {
  it('lays lengths out to one scale, and makes areas money', () => {
    const blocks = draw()
      .marks.filter(
        ({ kind, tone, legs, weight }) => kind === 'area' && tone === 'shade' && legs.length === 1 && weight === 0.5,
      )
      .slice(0, 6);
    const spans = blocks.map(({ points }) => {
      const xs = points.map(([x]) => x);
      const ys = points.map(([, y]) => y);
      return { widthPt: Math.max(...xs) - Math.min(...xs), heightPt: Math.max(...ys) - Math.min(...ys) };
    });
    // The fixture's legs, in feet.
    const feet = [22, 9, 36, 8, 5, 17];
    const ptPerFt = spans.reduce((sum, { widthPt }) => sum + widthPt, 0) / 97;
    spans.forEach(({ widthPt }, leg) => {
      // Points are rounded to hundredths at both ends.
      expect(Math.abs(widthPt - (feet[leg] ?? 0) * ptPerFt)).toBeLessThan(0.03);
    });
    // What the drawing writes beside each leg, in whole dollars.
    const dollars = [...draw().altText.matchAll(/\$([\d,]+)/g)]
      .slice(0, 6)
      .map(([, sum]) => Number(sum?.replace(',', '')));
    const perDollar = spans.map(({ widthPt, heightPt }, leg) => (widthPt * heightPt) / (dollars[leg] ?? 1));
    // Half a dollar of some 400 is 0.13 %, hundredths of a point on both sides of a low block 0.3 %.
    for (const each of perDollar) expect(Math.abs(each / (perDollar[2] ?? 1) - 1)).toBeLessThan(0.005);
  });

  it('names each leg with its number, length, method and money', () => {
    const words = draw().marks.flatMap(({ text }) => text ?? []);
    expect(words).toEqual(
      expect.arrayContaining(['3  lawn', 'about 36 ft', '1-1/2 in PVC', '18 in cover', 'gas', '2 × irrigation']),
    );
  });

  // Ours: about a third of the height, on a sheet of 11 in and in a window of 1,280 by 1,050 px (4/3 px a point).
  it('takes no more than a third of a sheet or a window', () => {
    const { 'circuit-screen': screen, ...kept } = scenes();
    const onPaper = ['panel-letter', 'crew-letter', 'rises-bends-conduits'].flatMap((name) => kept[name] ?? []);
    expect(onPaper).toHaveLength(3);
    for (const { heightPt } of onPaper) expect(heightPt).toBeLessThanOrEqual((11 * 72) / 3);
    expect((screen?.heightPt ?? Number.POSITIVE_INFINITY) * (4 / 3)).toBeLessThanOrEqual(1050 / 3);
  });

  it('says which scale the heights have', () => {
    const notes = draw()
      .marks.flatMap(({ text }) => text ?? [])
      .join(' ');
    expect(notes).toMatch(/Lengths are to scale, heights × \d/);
    expect(notes).toMatch(/Both ends and the whole job: \$[\d,]+ besides/);
  });

  it('never shows a missing price as nothing', () => {
    const lines = PANEL_90.lines.map((line, nth) => (nth === 5 ? { ...line, priced: false, amountCents: 0 } : line));
    const option = { ...PANEL_90, complete: false, lines };
    const drawing = sectionDrawing({
      title: TITLE,
      option,
      route: DESCRIPTION.route,
      building: 'detached',
      widthPt: 513,
    });
    const money = drawing.marks
      .flatMap(({ text }) => (text?.includes('$') ? [text] : []))
      .filter((text) => text.startsWith('over'));
    expect(money).toHaveLength(6);
    const none = { ...option, lines: lines.map((line) => ({ ...line, priced: false, amountCents: 0 })) };
    expect(
      sectionDrawing({ title: TITLE, option: none, route: DESCRIPTION.route, building: 'detached', widthPt: 513 })
        .altText,
    ).not.toMatch(/\$0/);
  });

  it('marks crossings in the colors of the trade, and the route in red', () => {
    const tones = new Set(draw().marks.map(({ tone }) => tone));
    expect([...tones]).toEqual(expect.arrayContaining(['route', 'gas', 'irrigation']));
  });

  it('warns where the danger is', () => {
    expect(
      draw()
        .marks.filter(({ tone }) => tone === 'caution')
        .map(({ legs }) => legs),
    ).toEqual([[2]]);
  });

  it('draws what is laid beside the run, what climbs and what turns, each on its leg, and says so', () => {
    const drawing = scenes()['rises-bends-conduits'];
    if (!drawing) throw new Error('there is no such scene');
    const legsOf = (is: (mark: Mark) => boolean) => [...new Set(drawing.marks.filter(is).flatMap(({ legs }) => legs))];
    // Broken lines are 1 pt wide, a rise is headed by an arrow in the route's color, a bend is a diamond of 0.8 pt.
    expect(legsOf(({ kind, tone, weight }) => kind === 'line' && tone === 'communications' && weight === 1)).toEqual([
      0, 1, 2, 3, 4, 5,
    ]);
    expect(legsOf(({ kind, tone, weight }) => kind === 'line' && tone === 'route' && weight === 1)).toEqual([
      0, 1, 2, 3, 4, 5,
    ]);
    expect(legsOf(({ kind, tone }) => kind === 'area' && tone === 'route')).toEqual([0, 1]);
    expect(legsOf(({ kind, weight }) => kind === 'area' && weight === 0.8)).toEqual([3]);
    const words = drawing.marks.flatMap(({ text }) => text ?? []).join(' ');
    expect(words).toContain('9 ft, 5 ft up');
    expect(words).toContain('Diamonds: bends of 90° in leg 4.');
    expect(drawing.altText).toContain('spare conduit (red), data conduit (orange), empty and capped.');
  });

  it('shows no money to those who build', () => {
    const drawing = scenes()['crew-letter'];
    const words = [drawing?.altText ?? '', ...(drawing?.marks ?? []).flatMap(({ text }) => text ?? [])].join(' ');
    expect(words).toContain('1-1/2 in PVC');
    expect(words).not.toContain('$');
  });

  it('lights up for every line: each of its legs has a stroke of the route, words and a block of the skyline', () => {
    const { marks } = draw();
    const has = (leg: number, is: (mark: Mark) => boolean) => marks.some((mark) => mark.legs.includes(leg) && is(mark));
    for (const { legs, key } of PANEL_90.lines) {
      for (const leg of legs) {
        expect([key, leg, has(leg, ({ kind, tone }) => kind === 'line' && tone === 'route')]).toEqual([key, leg, true]);
        expect([key, leg, has(leg, ({ kind }) => kind === 'text')]).toEqual([key, leg, true]);
        expect([key, leg, has(leg, ({ kind, tone }) => kind === 'area' && tone === 'shade')]).toEqual([key, leg, true]);
      }
    }
  });

  it('tells all of it in words', () => {
    expect(draw().altText).toMatch(
      /^Section along the route from the main panel to the car, 97 ft in 6 legs\. 1: 22 ft joists, SER cable, \$/,
    );
  });

  it('is the same, mark for mark, each time', () => {
    expect(draw()).toEqual(draw());
  });

  it('keeps letters at 9 pt or more, inside the sheet, apart from each other and from leaders', () => {
    for (const [name, drawing] of Object.entries(scenes())) {
      expect([name, overlapping(drawing), outside(drawing), strikingThrough(drawing)]).toEqual([name, [], [], []]);
      for (const { sizePt = 9 } of drawing.marks.filter(({ kind }) => kind === 'text'))
        expect(sizePt).toBeGreaterThanOrEqual(9);
    }
  });

  const legs = fc.array(
    fc.record({
      kind: fc.constantFrom(...LEG_KINDS),
      type: fc.constant('pvc-40'),
      tradeSize: fc.constant('1'),
      place: fc.constantFrom('indoor', 'outdoor', 'underground'),
      lengthFt: fc.oneof(fc.double({ min: 0.5, max: 3000, noNaN: true }), fc.integer({ min: 1, max: 90 })),
      riseFt: fc.constantFrom(0, 0, 3, 40),
      bendsDeg: fc.constantFrom(0, 0, 90, 360),
      crossings: fc.array(
        fc.record({
          what: fc.constantFrom('gas', 'water', 'private-electric', 'tree-root-zone'),
          count: fc.integer({ min: 1, max: 9 }),
        }),
        {
          maxLength: 3,
        },
      ),
    }),
    { minLength: 1, maxLength: 60 },
  );

  it('can be drawn of any route, and its words never overlap', () => {
    fc.assert(
      fc.property(
        legs,
        fc.constantFrom('attached', 'detached', 'outdoor' as const),
        fc.constantFrom(440, 509, 960),
        fc.subarray(['spare', 'data'] as const),
        fc.boolean(),
        (legs, building, widthPt, emptyRaceways, isWithoutMoney) => {
          const drawing = sectionDrawing({
            title: TITLE,
            option: optionOver(legs.length),
            route: readRoute(legs),
            building: building as 'outdoor',
            emptyRaceways,
            isWithoutMoney,
            widthPt,
          });
          expect(overlapping(drawing)).toEqual([]);
          expect(outside(drawing)).toEqual([]);
          expect(strikingThrough(drawing)).toEqual([]);
          for (const { points } of drawing.marks)
            for (const point of points) expect(point.every(Number.isFinite)).toBe(true);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('a way to an outlet that is there', () => {
  const there = sectionDrawing({
    title: TITLE,
    option: { ...PANEL_90, runs: [], lines: PANEL_90.lines.map((line) => ({ ...line, legs: [] })) },
    route: DESCRIPTION.route,
    building: 'detached',
    widthPt: 513,
  });
  const said = there.marks.map(({ text }) => text ?? '').join(' ');

  it('is drawn thin, where one that is built is drawn thick', () => {
    const weights = ({ marks }: Drawing) =>
      marks.flatMap(({ kind, tone, weight }) => (kind === 'line' && tone === 'route' ? weight : []));
    expect(Math.min(...weights(draw()))).toBeGreaterThan(1);
    expect(weights(there).length).toBeGreaterThan(0);
    expect(Math.max(...weights(there))).toBeLessThan(1);
  });

  it('stands under no blocks and no sums, and says that nothing is run', () => {
    expect(said).not.toContain('$');
    expect(said).not.toContain('Blocks');
    expect(said).toContain('Nothing new is run:');
    expect(there.altText).toBe(
      'Section from the panel to the car. Nothing new is run: the outlet that is there is used.',
    );
    const blocks = (drawing: Drawing) =>
      drawing.marks.filter(({ tone, legs }) => tone === 'shade' && legs.length === 1).length;
    expect(blocks(draw())).toBe(DESCRIPTION.route.length);
    expect(blocks(there)).toBe(0);
  });
});
