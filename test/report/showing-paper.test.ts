import { describe, expect, it } from 'vitest';
import type { Estimate } from '../../server/estimate/answer.ts';
import { estimatePdf } from '../../server/report/pdf.ts';
import { optionOver, readRoute } from '../drawing/scenes.ts';
import { FULL } from './full-answer.ts';
import { allOf, qpdfCheck, readPdf } from './reading.ts';

const print = (estimate: Estimate = FULL, over: Partial<Parameters<typeof estimatePdf>[0]> = {}) =>
  estimatePdf({ estimate, optionId: 'panel-90', paper: 'showing', ...over });
const wordsOf = ({ pages }: Awaited<ReturnType<typeof readPdf>>) => pages.map(({ text }) => text).join(' ');

describe('the sheet to show the job with', () => {
  it('is one lying page with section and plan view, on both sizes', async () => {
    for (const pageSize of ['letter', 'a4'] as const) {
      const bytes = await print(FULL, { pageSize });
      expect(await qpdfCheck(bytes)).toBe(0);
      const pdf = await readPdf(bytes);
      expect(pdf.pages).toHaveLength(1);
      expect(pdf.pages[0]?.widthPt).toBeGreaterThan(pdf.pages[0]?.heightPt ?? Number.POSITIVE_INFINITY);
      expect(allOf(pdf.elements, 'Figure')).toHaveLength(2);
      expect(allOf(pdf.elements, 'Figure')[1]?.alt).toContain('from above');
    }
  });

  it('says of each option its range and what it gives, and which one is drawn', async () => {
    const words = wordsOf(await readPdf(await print()));
    for (const { label } of FULL.options) expect(words).toContain(label);
    expect(words).toContain('$7,000 to $12,100');
    expect(words).toContain('Half of the time below $8,600');
    // 48 A × 240 V = 11.52 kW; × 0.9 × 3.5 = 36.3 miles an hour; the night is the fixture's.
    expect(words).toContain('11.5 kW: 36 miles of range an hour');
    expect(words).toContain('363 miles in a night of 10 h');
    expect(words.match(/This way is drawn above\./g)).toHaveLength(1);
    expect(words).toContain('Cannot be built as stated.');
  });

  it('stays one page with twelve options, a long route and many legs, and says what it leaves out', async () => {
    const legs = Array.from({ length: 24 }, (_, nth) => ({
      kind: ['joists', 'lawn-trench', 'gravel-trench', 'concrete-cut'][nth % 4],
      lengthFt: 2 + ((nth * 7) % 11),
    }));
    const route = readRoute(legs);
    const [stated] = FULL.description.options;
    if (!stated) throw new Error('the fixture has options');
    const ids = Array.from({ length: 12 }, (_, nth) => `o${nth}`);
    const estimate: Estimate = {
      ...FULL,
      description: { ...FULL.description, route, options: ids.map((id) => ({ ...stated, id })) },
      options: ids.map((id) => ({
        ...optionOver(24),
        id,
        label: `A way of feeding the car with a long name, number ${id}`,
      })),
      comparison: { cheapest: null, rows: [] },
      bids: [],
    };
    const pdf = await readPdf(await print(estimate, { optionId: 'o7' }));
    expect(pdf.pages).toHaveLength(1);
    const words = wordsOf(pdf);
    expect(words).toContain('number o7');
    expect(words).toContain('8 more options stand in the comparison.');
  });

  it('never prints a price that is missing as a sum', async () => {
    const options = FULL.options.map((option) => ({ ...option, complete: false }));
    const words = wordsOf(await readPdf(await print({ ...FULL, options })));
    expect(words).toContain('Prices are missing: it will cost more.');
    expect(words).toMatch(/over \$\d/);
    expect(words).not.toContain('$7,000 to');
  });
});
