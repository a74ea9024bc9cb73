import { describe, expect, it } from 'vitest';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import { estimatePdf, PAPERS, type Paper } from '../../server/report/pdf.ts';
import { ESTIMATE } from './fixture.ts';
import { FULL, SAID_OF_IT } from './full-answer.ts';
import { allOf, qpdfCheck, type ReadPdf, readPdf } from './reading.ts';

const print = (paper: Paper, over: Partial<Parameters<typeof estimatePdf>[0]> = {}) =>
  estimatePdf({ estimate: FULL, optionId: 'panel-90', paper, ...over });
const read = async (...args: Parameters<typeof print>) => readPdf(await print(...args));
const wordsOf = (pdf: ReadPdf) => pdf.pages.map(({ text }) => text).join(' ');

/**
 * Words that stand where none may: outside the margins, or between the body and the title block, whose rule lies 14 pt
 * below the body and whose first line 11 pt below that.
 */
function astray({ pages }: ReadPdf): string[] {
  return pages.flatMap(({ pieces, widthPt, heightPt }) =>
    pieces
      .filter(
        ({ xPt, yPt, widthPt: longPt }) =>
          xPt < 60 || xPt + longPt > widthPt - 37 || yPt > heightPt - 40 || yPt < 14 || (yPt > 42 && yPt < 65),
      )
      .map(({ text, xPt, yPt }) => `${text} at ${xPt}, ${yPt}`),
  );
}

describe('every paper', () => {
  it.each(PAPERS)(
    '%s is sound, carries the cautions, and says what it is on each page, on both sizes',
    async (paper) => {
      for (const pageSize of ['letter', 'a4'] as const) {
        const bytes = await print(paper, { pageSize });
        expect(await qpdfCheck(bytes)).toBe(0);
        const pdf = await readPdf(bytes);
        expect(pdf.pages.length).toBeGreaterThan(0);
        expect(astray(pdf)).toEqual([]);
        for (const { text } of pdf.pages) {
          expect(text).toContain('Not a permit, not a design by a licensed person, not an approval.');
          expect(text).not.toMatch(/undefined|NaN|\[object|\binfinity\b/i);
        }
        for (const notice of FULL.notices) expect(wordsOf(pdf)).toContain(notice);
        for (const { alt } of allOf(pdf.elements, 'Figure')) expect(alt).toMatch(/^[A-Z]/);
      }
    },
  );

  it('keeps rows on the sheet that are higher than a page, and loses none of their words', async () => {
    const because = Array.from({ length: 150 }, (_, nth) => `reckoned for stretch number ${nth} of the ditch, by hand`);
    const options = FULL.options.map((option) => ({
      ...option,
      labor: { ...option.labor, tasks: option.labor.tasks.map((task) => ({ ...task, because })) },
    }));
    const pdf = await read('estimate', { estimate: { ...FULL, options } });
    expect(astray(pdf)).toEqual([]);
    const words = wordsOf(pdf);
    for (let nth = 0; nth < 150; nth += 1) expect(words).toMatch(new RegExp(`number ${nth}\\b`));
  });

  it.each(PAPERS)('%s is printed of an answer that has only its core', async (paper) => {
    const core = ESTIMATE.options.map(({ range: _range, ...option }): EstimateOption => option);
    const words = wordsOf(await read(paper, { estimate: { ...ESTIMATE, options: core } }));
    expect(words).not.toMatch(/undefined|NaN/);
  });
});

describe('the estimate on paper', () => {
  it('says all of the answer', async () => {
    const words = wordsOf(await read('estimate'));
    for (const said of SAID_OF_IT) expect(words).toContain(said);
  });

  it('says nothing of what the answer does not have', async () => {
    const words = wordsOf(await readPdf(await estimatePdf({ estimate: ESTIMATE, optionId: 'panel-90' })));
    for (const title of ['Later:', 'Worth finding out', 'The price by', 'The bid of', 'What would make it fit']) {
      expect(words).not.toContain(title);
    }
  });
});

describe('the budget', () => {
  it('says what to carry into the purchase, how far to trust it, and what matters most', async () => {
    const words = wordsOf(await read('budget'));
    // The sums are the fixture's own; the path of a fact gives way to its name, a day to words.
    for (const said of [
      'In the loan at 6.5 % a year over 30 years. Closing is on June 1, 2026.',
      'Confidence is medium. Eight of ten cases lie between $7,000 and $12,100, 59 % of the middle apart, and rating of the service alone swings 17 %.',
      'Closing is June 1, 2026.',
      'Likely: half of all cases cost less $8,600 54.36',
      'To plan for: nine of ten cost less $12,100 76.48',
      'Interest on the likely sum comes to $10,970 over all years.',
      'May we see the permits of electrical work?',
      'One circuit, 48 A Cannot be built as stated.',
    ]) {
      expect(words).toContain(said);
    }
    expect(words).not.toContain('What the house draws'); // the fourth fact: three matter
  });

  it('leads with the middle of a range that lies above the total, and says what the total is then', async () => {
    const range = { p10Cents: 51_400, p50Cents: 160_000, p90Cents: 476_200, likelyCents: 3_900 };
    const options = FULL.options.map((option) => ({
      ...option,
      totals: { ...option.totals, totalCents: 3_900 },
      ...(option.range && { range: { ...option.range, ...range } }),
    }));
    for (const paper of ['budget', 'estimate'] as const) {
      const words = wordsOf(await read(paper, { estimate: { ...FULL, options } }));
      expect(words).toContain('Middle of the range $1,600');
      expect(words).toContain('$39 if nothing turns up.');
    }
    expect(wordsOf(await read('budget'))).not.toContain('if nothing turns up');
  });

  it('says what is missing where no purchase is stated', async () => {
    const { purchase: _purchase, ...description } = FULL.description;
    const options = FULL.options.map(({ budget: _budget, ...option }): EstimateOption => option);
    const words = wordsOf(await read('budget', { estimate: { ...FULL, description, options } }));
    expect(words).toContain('No purchase is described.');
  });
});

describe('the list for the inspection', () => {
  it('asks for each fact that is not known, with who can tell and room to write', async () => {
    const pdf = await read('inspection');
    const words = wordsOf(pdf);
    expect(words).toMatch(
      /You can tell .*Rating of the service.*An inspector can tell .*asbestos.*The utility can tell/,
    );
    expect(words).toContain('its cover stays on');
    expect(words).not.toMatch(/remove the cover|take off the cover/i);
  });

  it('stays on one page however much is not known, and says what it left out', async () => {
    const unknowns = Array.from({ length: 70 }, (_, nth) => ({
      path: `route.${nth}.lengthFt`,
      swingCents: 100 * (70 - nth),
      howToFindOut:
        'Measure it with a tape or a wheel, or pace it twice and take the mean, from where the leg before ends.',
      whoCanTell: 'you' as const,
    }));
    const options = FULL.options.map((option) => ({ ...option, unknowns }));
    for (const pageSize of ['letter', 'a4'] as const) {
      const pdf = await read('inspection', { pageSize, estimate: { ...FULL, options } });
      expect(pdf.pages).toHaveLength(1);
      const shown = wordsOf(pdf).match(/Length of leg/g)?.length ?? 0;
      expect(wordsOf(pdf)).toContain(`${70 - shown} more facts stand in the estimate: this page is full.`);
    }
  });

  it('prints all of a dozen facts with long words, and where the first leg begins', async () => {
    const howToFindOut =
      'Measure it with a tape or a wheel, or pace it twice and take the mean, from where the leg before it ends.';
    const paths = ['site.service.ratingA', 'site.service.panel.kind', 'site.service.panel.state', 'site.hazards'];
    const legs = [0, 1, 2, 3].flatMap((leg) => [`route.${leg}.lengthFt`, `route.${leg}.soil`]);
    const tellers = ['you', 'inspector', 'electrician', 'utility'] as const;
    const unknowns = [...paths, ...legs].map((path, nth) => ({
      path,
      swingCents: 100_000 - nth,
      howToFindOut,
      whoCanTell: tellers[nth % 4] ?? 'you',
    }));
    const options = FULL.options.map((option) => ({ ...option, unknowns }));
    for (const pageSize of ['letter', 'a4'] as const) {
      const pdf = await read('inspection', { pageSize, estimate: { ...FULL, options } });
      expect(pdf.pages).toHaveLength(1);
      expect(wordsOf(pdf)).not.toContain('this page is full');
      expect(wordsOf(pdf).match(/of leg \d/g)).toHaveLength(8);
      expect(wordsOf(pdf)).toContain('Length of leg 1, joists, from the main panel');
    }
  });

  it('says so where all is known', async () => {
    const words = wordsOf(await read('inspection', { estimate: ESTIMATE }));
    expect(words).toContain('All that this description asks for is stated');
  });
});

describe('papers for those who build', () => {
  const option = FULL.options[2];
  it('list every package to take, and no money', async () => {
    const words = wordsOf(await read('picklist'));
    for (const { class: lineClass, description, scope } of option?.lines ?? []) {
      if (lineClass === 'material') expect(words).toContain(description);
      if (lineClass === 'labor') expect(words).not.toContain(description);
      if (scope === 'travel') expect(words).not.toContain(description);
    }
    expect(words).toContain('PVC conduit 1-1/2 in, Schedule 40 9 each 10 ft; 8.7 ft left 3–6');
    expect(words).not.toContain('$');
  });

  it('tell the crew and who digs what lies there, not what its hours are reckoned for, in units as they are set', async () => {
    const task = { key: 'task-saw-cut', quantity: 31.25, inPlace: 27.5, unit: 'ft2', hoursPerUnit: 0.1, factor: 1 };
    const tasks = [{ ...task, hours: 3, legs: [4], because: ['6 in thick where the task is for 4 in'] }];
    const options = FULL.options.map((option) => ({ ...option, labor: { ...option.labor, tasks } }));
    for (const paper of ['crew', 'digging'] as const) {
      const words = wordsOf(await read(paper, { estimate: { ...FULL, options } }));
      expect(words).toContain('27.5 ft²');
      expect(words).not.toMatch(/31\.3|31\.25|ft2/);
    }
    const estimate = wordsOf(await read('estimate', { estimate: { ...FULL, options } }));
    expect(estimate).toContain('31.25 ft²'); // there it is quantity × hours a unit × factor
  });

  it('give the crew its days, its cuts and its ends, and no money', async () => {
    const words = wordsOf(await read('crew'));
    // By the fixture: 9.36 + 3.1 + 1.75 + 1.75 h by one person of 8 h a day: the trench alone takes more than a day.
    expect(words).toMatch(/Day 1 8 Trench in clay, 18 in cover 3 18.7 ft 8 Day 2/);
    expect(words).toContain('Trench in clay, 18 in cover, goes on 3 1.4');
    expect(words).toContain('XHHW-2 2 AWG, aluminum 2 117.4 ft 1–6');
    expect(words).not.toContain('$');
  });

  it('say for the permit what is built, by which articles, and no money', async () => {
    const words = wordsOf(await read('permit'));
    expect(words).toContain('NEC 220.87 the charger in full, at 125 % 208.8 A no');
    expect(words).toContain('feeder, main panel to subpanel 97 ft 68 A 90 A, 2-pole 2 AWG aluminum, 90 A 6 AWG');
    expect(words).toContain('2 ground rods, on 6 AWG copper');
    expect(words).toContain('cover depth, legs 3, 6 (300.5(A))');
    expect(words).toContain('whoever applies checks it and answers for it');
    expect(words).not.toContain('$');
  });

  it('tell those who dig what lies across, how deep it goes, and whom to call', async () => {
    const words = wordsOf(await read('digging'));
    expect(words).toContain('Call 811 first');
    // 36 + 8 + 5 + 17 ft of the description, legs 3 to 6; 24 in is the deepest cover of the fixture's findings.
    expect(words).toContain('Legs 3–6: 66 ft in one ditch');
    expect(words).toContain('3 lawn 36 ft (31 to 44)');
    expect(words).toContain('1 gas line, 2 irrigation lines');
    expect(words).toContain('cut 12 in wide, 4 in thick');
    expect(words).toContain('Leg 3: The ditch crosses a gas line.');
    expect(words).not.toContain('$');
  });

  it('say so where nothing is dug', async () => {
    const route = FULL.description.route.slice(0, 1);
    const words = wordsOf(
      await read('digging', { estimate: { ...FULL, description: { ...FULL.description, route } } }),
    );
    expect(words).toContain('Nothing is dug or bored for this option.');
  });
});
