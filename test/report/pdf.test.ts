import { beforeAll, describe, expect, it } from 'vitest';
import type { Estimate } from '../../server/estimate/answer.ts';
import { estimatePdf } from '../../server/report/pdf.ts';
import { exactDollars } from '../../server/report/wording.ts';
import { ESTIMATE, PANEL_90 } from './fixture.ts';
import { allOf, qpdfCheck, type ReadPdf, readPdf } from './reading.ts';

const print = (over: Partial<Parameters<typeof estimatePdf>[0]> = {}) =>
  estimatePdf({ estimate: ESTIMATE, optionId: 'panel-90', ...over });
const wordsOf = (pdf: ReadPdf) => pdf.pages.map(({ text }) => text).join(' ');

describe('the estimate on paper', () => {
  let bytes: Buffer;
  let pdf: ReadPdf;
  beforeAll(async () => {
    bytes = await print();
    pdf = await readPdf(bytes);
  });

  it('is sound by the word of another program', async () => {
    expect(await qpdfCheck(bytes)).toBe(0);
    expect(await qpdfCheck(Buffer.from(bytes.subarray(0, bytes.length / 2)))).not.toBe(0);
  });

  it('is the same, byte for byte, each time', async () => {
    expect((await print()).equals(bytes)).toBe(true);
  });

  it('is dated by the estimate, not by a clock', () => {
    expect(pdf.info.CreationDate).toBe('D:20260414000000Z');
    expect(wordsOf(pdf)).toContain('April 14, 2026');
  });

  it('itemizes every line of the chosen option, and adds up to its total', () => {
    const words = wordsOf(pdf);
    for (const { description, amountCents } of PANEL_90.lines) {
      expect(words).toContain(description);
      expect(words).toContain(exactDollars(amountCents));
    }
    // By the fixture: its lines cost 6,203.93, and its terms make 8,315.15 of that.
    expect(words).toContain('Cost of the work 6,203.93');
    expect(words).toContain('Total 8,315.15');
  });

  it('sets the options side by side, with what stops one of them', () => {
    const words = wordsOf(pdf);
    expect(words).toContain('One circuit, 32 A One circuit, 48 A Panel in the workshop, 90 A (itemized)');
    expect(words).toContain('Cannot be built as stated. NM-B 6 AWG carries 55 A');
  });

  it('says what is found, what is not included, and what it is not', () => {
    const words = wordsOf(pdf);
    expect(words).toContain('Caution Leg 3: The ditch crosses a gas line.');
    expect(words).toContain('Checked and in order: cover depth, legs 3, 6 (300.5(A))');
    expect(words).toContain('Repair of private lines that nobody marked.');
    for (const notice of ESTIMATE.notices) expect(words).toContain(notice);
  });

  it('carries title, date, revision, page and notice on every page', () => {
    pdf.pages.forEach(({ text }, nth) => {
      expect(text).toContain('Workshop behind the Quince Court house Estimate: Panel in the workshop, 90 A');
      expect(text).toContain(`Page ${nth + 1} of ${pdf.pages.length} Not a permit`);
      expect(text).toContain('revision 14');
    });
  });

  it('names who hands it over, where that was stated, on both papers', async () => {
    const issuer = { businessName: 'Alder Lane Electric', address: '14 Alder Lane', licenceNumber: 'EC-0147' };
    for (const paper of ['estimate', 'comparison'] as const) {
      const [first] = (await readPdf(await print({ issuer, paper }))).pages;
      expect(first?.text).toContain('Alder Lane Electric 14 Alder Lane, license EC-0147');
    }
    expect(wordsOf(pdf)).not.toContain('license EC');
  });

  it('repeats the heads of a table that goes on', () => {
    const pages = pdf.pages.filter(({ text }) => /Item Legs Quantity Package Unit price Amount, \$/.test(text));
    expect(pages.length).toBeGreaterThan(1);
    expect(allOf(pdf.elements, 'TH').filter(({ role }) => role === 'TH').length).toBeGreaterThan(40);
  });

  /*
   * ISO 14289-1 (PDF/UA-1), as far as a machine can see it here: 7.1 marked, with a title that is shown and a document
   * element; 7.2 a language; 7.3 figures with a text alternative; 7.4 headings from the first level on; 7.5 tables of
   * rows with head cells.
   */
  it('can be read aloud', () => {
    expect(pdf.marked).toBe(true);
    expect(pdf.lang).toBe('en-US');
    expect(pdf.info.Title).toBe('Workshop behind the Quince Court house');
    expect(pdf.elements.every(({ role }) => role === 'Document')).toBe(true);
    expect(allOf(pdf.elements, 'H1')).toHaveLength(1);
    const figures = allOf(pdf.elements, 'Figure');
    // The section, how often the total lies where, and what moves it most.
    expect(figures).toHaveLength(3);
    for (const { alt } of figures) expect(alt).toMatch(/^[A-Z].{40,}\.$/);
    expect(figures[0]?.alt).toMatch(/^Section along the route .* in 6 legs/);
    const rows = allOf(pdf.elements, 'TR');
    expect(rows.length).toBeGreaterThan(PANEL_90.lines.length);
    for (const { children } of rows) expect(children.every(({ role }) => role === 'TH' || role === 'TD')).toBe(true);
    expect(bytes.includes('pdfuaid:part')).toBe(true);
    expect(bytes.includes('/DisplayDocTitle true')).toBe(true);
  });

  it('embeds its fonts', () => {
    expect(bytes.includes('/FontFile')).toBe(true);
    expect(bytes.includes('/Helvetica')).toBe(false);
  });
});

describe('papers', () => {
  // ISO 216: A4 is 210 × 297 mm; Letter is 8-1/2 × 11 in; a point is 1/72 in.
  it.each([
    ['letter', 612, 792],
    ['a4', (210 / 25.4) * 72, (297 / 25.4) * 72],
  ] as const)('have the size %s', async (pageSize, widthPt, heightPt) => {
    const { pages } = await readPdf(await print({ pageSize }));
    for (const page of pages) {
      // Hundredths of a point: what is printed of the size.
      expect(Math.abs(page.widthPt - widthPt)).toBeLessThan(0.01);
      expect(Math.abs(page.heightPt - heightPt)).toBeLessThan(0.01);
    }
  });

  it('compare three options on one lying page', async () => {
    const bytes = await print({ paper: 'comparison' });
    const pdf = await readPdf(bytes);
    expect(pdf.pages).toHaveLength(1);
    expect(pdf.pages[0]?.widthPt).toBe(792);
    expect(await qpdfCheck(bytes)).toBe(0);
    for (const { totals } of ESTIMATE.options)
      expect(wordsOf(pdf)).toContain(`$${Math.round(totals.totalCents / 100).toLocaleString('en-US')}`);
  });

  it('compare twelve options without losing one', async () => {
    const options = Array.from({ length: 12 }, (_, nth) => ({ ...PANEL_90, id: `o${nth}`, label: `Way ${nth + 1}` }));
    const description = {
      ...ESTIMATE.description,
      options: options.map(({ id, label }) => ({ ...ESTIMATE.description.options[2], id, label })),
    } as Estimate['description'];
    const estimate = { ...ESTIMATE, description, options, comparison: { cheapest: 'o0', rows: [] } };
    for (const paper of ['estimate', 'comparison'] as const) {
      const words = wordsOf(await readPdf(await estimatePdf({ estimate, paper })));
      for (const { label } of options) expect(words).toContain(label);
    }
  });

  it('take the cheapest that can be built where no option is named', async () => {
    const pdf = await readPdf(await estimatePdf({ estimate: ESTIMATE }));
    expect(wordsOf(pdf)).toContain('One circuit, 32 A (itemized)');
  });

  it('name the options there are when another is asked for', async () => {
    await expect(print({ optionId: 'tunnel' })).rejects.toThrow(
      'option must be one of circuit-32, circuit-48, panel-90, not "tunnel"',
    );
  });

  it('never print a missing price as zero', async () => {
    const lines = PANEL_90.lines.map((line, nth) =>
      nth === 1 ? { ...line, priced: false, unitPriceCents: 0, amountCents: 0 } : line,
    );
    const option = { ...PANEL_90, complete: false, lines };
    const estimate = { ...ESTIMATE, complete: false, options: [option] };
    const words = wordsOf(await readPdf(await print({ estimate })));
    expect(words).toContain('Breaker, 60 A, two poles 1 each no price no price');
    expect(words).toContain('1 item has no price: the sums are less than the work will cost.');
    expect(words).toContain('Total, incomplete: prices are missing');
    expect(words).toContain('over $8,315: prices are missing');
    expect(words).toContain('Prices are missing: the work will cost more.');
    expect(words).toContain('over $8,315; at least $1,970 more');
  });

  it('say what of a title they could not print, and break what is too long', async () => {
    const title = `Łódź 車庫 ${'W'.repeat(120)}`;
    const estimate = { ...ESTIMATE, description: { ...ESTIMATE.description, title } };
    const bytes = await print({ estimate });
    const words = wordsOf(await readPdf(bytes));
    // The reader puts a blank where one font follows another.
    expect(words.replaceAll(' ', '')).toContain('Łódź??');
    expect(words).toMatch(/characters of what was typed could not be printed and stand as \?/);
    expect(await qpdfCheck(bytes)).toBe(0);
  });

  it('print an option that runs nothing new', async () => {
    const option = { ...PANEL_90, runs: [], lines: PANEL_90.lines.slice(-2).map((line) => ({ ...line, legs: [] })) };
    const description = { ...ESTIMATE.description, route: [] };
    const words = wordsOf(await readPdf(await print({ estimate: { ...ESTIMATE, description, options: [option] } })));
    expect(words).toContain('Nothing new is run: the outlet that is there is used.');
    expect(words).not.toContain('Wire list');
  });
});
