import { describe, expect, it } from 'vitest';
import { QuoteInput } from '../../server/estimate/quote.ts';
import { type QuoteOnPaper, quotePdf } from '../../server/report/quote-paper.ts';
import { exactDollars } from '../../server/report/wording.ts';
import { ESTIMATE } from './fixture.ts';
import { qpdfCheck, readPdf } from './reading.ts';

/** An invented quote with all that can be stated of one. */
function quote(changes: Record<string, unknown> = {}): QuoteOnPaper {
  return {
    number: '2026-0007',
    issuedOn: '2026-03-04',
    validUntil: '2026-03-19',
    revises: '2026-0003',
    estimate: ESTIMATE,
    issuer: { businessName: 'The invented electricians', licenceNumber: 'X-1234' },
    stated: QuoteInput.parse({
      optionId: ESTIMATE.options[0]?.id,
      customer: { name: 'An invented household', phone: '555 0100' },
      siteAddress: '12 Invented Lane',
      exclusions: ['Moving the hedge.'],
      allowances: [{ text: 'a charger of your choice', cents: 45_000 }],
      assumptions: ['the attic is free of stored goods'],
      deposit: { bp: 2500 },
      progress: [{ when: 'After the trench', bp: 2500 }],
      warrantyMonths: 24,
      notes: 'Work on weekdays only.',
      startWindow: 'the second half of March',
      ...changes,
    }),
  };
}
const wordsOf = async (bytes: Buffer) => (await readPdf(bytes)).pages.map(({ text }) => text).join(' ');

describe('a quote on paper', () => {
  it('is sound on both sizes, and names number, days, parties and cautions', async () => {
    for (const pageSize of ['letter', 'a4'] as const) {
      const bytes = await quotePdf(quote(), { pageSize });
      expect(await qpdfCheck(bytes)).toBe(0);
      const pdf = await readPdf(bytes);
      for (const { text } of pdf.pages) {
        expect(text).toContain('Quote 2026-0007');
        expect(text).toContain('Not a permit');
        expect(text).not.toMatch(/undefined|NaN|\[object/);
      }
      const words = pdf.pages.map(({ text }) => text).join(' ');
      for (const said of [
        'For An invented household, 555 0100.',
        'Issued March 4, 2026, valid through March 19, 2026.',
        'It takes the place of quote 2026-0003.',
        'The invented electricians',
        'Moving the hedge.',
        'a charger of your choice',
        'Assumed: the attic is free of stored goods',
        'Warranty on the work: 24 months',
        'An invented household: signature and date',
        'Start of the work: the second half of March.',
      ])
        expect(words).toContain(said);
      for (const notice of ESTIMATE.notices) expect(words).toContain(notice);
    }
  });

  it('says what falls due when, a quarter each and the rest', async () => {
    const words = await wordsOf(await quotePdf(quote(), { pageSize: 'letter' }));
    const totalCents = ESTIMATE.options[0]?.totals.totalCents ?? 0;
    const quarter = Math.floor((totalCents + 2) / 4); // a quarter, rounded half up
    expect(words).toContain(`When it is accepted (25 %) ${exactDollars(quarter)}`);
    expect(words).toContain(`After the trench (25 %) ${exactDollars(quarter)}`);
    expect(words).toContain(`When the work is done ${exactDollars(totalCents - 2 * quarter)}`);
  });

  it('keeps prices of single items to itself where only the sum is to be shown', async () => {
    const [items, sum] = await Promise.all(
      ['items', 'sum'].map(async (show) => wordsOf(await quotePdf(quote({ show }), { pageSize: 'letter' }))),
    );
    expect(items).toContain('Materials and labor');
    expect(sum).not.toContain('Materials and labor');
    expect(sum).not.toContain('Unit price');
  });

  it('is signed after all that is promised and cautioned, before the single items', async () => {
    const words = await wordsOf(await quotePdf(quote(), { pageSize: 'letter' }));
    const places = ['Price and payment', 'Not included', 'Call 811', 'signature and date', 'Materials and labor'];
    const found = places.map((said) => words.indexOf(said));
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(found).not.toContain(-1);
  });

  it('gives the same bytes for the same quote', async () => {
    const [one, two] = await Promise.all([1, 2].map(() => quotePdf(quote(), { pageSize: 'a4' })));
    expect(one?.equals(two ?? Buffer.alloc(0))).toBe(true);
  });
});
