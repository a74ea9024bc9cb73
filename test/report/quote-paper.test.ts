import { describe, expect, it } from 'vitest';
import type { EstimateOption, Finding, Line } from '../../server/estimate/answer.ts';
import { safetyNotices } from '../../server/estimate/notices.ts';
import { QuoteInput } from '../../server/estimate/quote.ts';
import { sellingRows } from '../../server/report/itemized.ts';
import { notPromised } from '../../server/report/not-included.ts';
import { type QuoteOnPaper, quotePdf } from '../../server/report/quote-paper.ts';
import { exactDollars } from '../../server/report/wording.ts';
import { workIncluded } from '../../server/report/work-included.ts';
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

describe('what a quote does not promise', () => {
  const [option] = ESTIMATE.options;
  const [stated] = ESTIMATE.description.options;
  if (!option || !stated) throw new Error('the fixture has an option');
  const [leg] = ESTIMATE.description.route;
  if (!leg) throw new Error('the fixture has a leg');
  const digging: typeof stated = { ...stated, route: [{ ...leg, kind: 'gravel-trench' }] };
  const job = { description: ESTIMATE.description, stated: digging, option };

  it('is rock, unless an allowance for it is a part of the price; other ground stays out', () => {
    const ground = (text: string) =>
      notPromised(job, { allowances: [{ text }] }).filter((said) => said.includes('round'));
    expect(ground('a charger of your choice')).toContain(
      'Rock, buried rubble, groundwater and other ground than stated.',
    );
    expect(ground('Rock in the trench').join(' ')).not.toContain('Rock, buried');
    expect(ground('Rock in the trench').join(' ')).toContain('Buried rubble, groundwater');
    expect(ground('A rocker switch').join(' ')).toContain('Rock, buried');
  });
});

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
        'Allowances within the price For Amount, $ A charger of your choice 450.00',
        'The invented electricians license X-1234',
        'Assumed: the attic is free of stored goods',
        'Warranty on the work: 24 months',
        'An invented household: signature and date',
        'Start of the work: the second half of March.',
      ])
        expect(words).toContain(said);
      for (const notice of safetyNotices(ESTIMATE.description)) expect(words).toContain(notice);
    }
  });

  it('says what falls due when, a quarter each and the rest', async () => {
    const words = await wordsOf(await quotePdf(quote(), { pageSize: 'letter' }));
    const totalCents = (ESTIMATE.options[0]?.totals.totalCents ?? 0) + 45_000; // with the allowance
    const quarter = Math.floor((totalCents + 2) / 4); // a quarter, rounded half up
    expect(words).toContain(`When it is accepted (25 %) ${exactDollars(quarter)}`);
    expect(words).toContain(`After the trench (25 %) ${exactDollars(quarter)}`);
    expect(words).toContain(`When the work is done ${exactDollars(totalCents - 2 * quarter)}`);
    expect(words).toContain(`$${exactDollars(totalCents)} for all that is described here`);
    const alternate = ESTIMATE.options[1]?.totals.totalCents ?? 0;
    expect(words).toContain(`more ${exactDollars(alternate + 45_000)}`); // it holds the allowance too
    const [first, second] = ESTIMATE.options;
    expect(words).toContain(`Tick the one that you take Price, $ ${first?.label} ${exactDollars(totalCents)}`);
    expect(words).toContain(`${second?.label} ${exactDollars(alternate + 45_000)}`);
  });

  it('keeps prices of single items to itself where only the sum is to be shown', async () => {
    const [items, sum] = await Promise.all(
      ['items', 'sum'].map(async (show) => wordsOf(await quotePdf(quote({ show }), { pageSize: 'letter' }))),
    );
    expect(items).toContain('Materials and labor');
    expect(sum).not.toContain('Materials and labor');
    expect(sum).not.toContain('Allowance: ');
  });

  it('shows what each item sells for, and not how the price was made', async () => {
    const [option] = ESTIMATE.options;
    const priceCents = (option?.totals.totalCents ?? 0) + 45_000;
    const words = await wordsOf(await quotePdf(quote(), { pageSize: 'letter' }));
    const items = words.slice(words.indexOf('Materials and labor'), words.indexOf('Checks'));
    expect(items).toContain('Allowance: a charger of your choice 450.00');
    expect(items).toContain(`Total ${exactDollars(priceCents)}`);
    for (const { class: kind, description } of option?.lines ?? []) {
      if (kind === 'labor')
        expect(items).not.toContain(description); // a crew's words: its sum stands in one row
      else expect(items).toContain(description);
    }
    expect(items).toMatch(/Labor [\d,]+\.\d\d/);
    expect(items).not.toMatch(/Unit price|Cost of the work|Markup|Overhead|Contingency|Profit|left|\d h\b/);
  });

  it('says that a price is old, or may vary, to nobody who is to sign', async () => {
    const [first, ...others] = ESTIMATE.options;
    if (!first) throw new Error('no option');
    const stale = { ...first, lines: first.lines.map((line) => ({ ...line, stale: true })) };
    const priceNotice = 'Prices are what shops and trades usually ask.';
    const findings = [
      ['opened-finish', 'Another way around it, or cable, may cost less.'],
      ['cost-without-overhead', 'No overhead and no profit is in the total.'],
      ['qualified-person', 'A licensed electrician must connect it.'],
    ].map(([rule = '', message = '']): Finding => ({ rule, severity: 'caution', message, numbers: {}, leg: 0 }));
    const estimate = {
      ...ESTIMATE,
      notices: [...ESTIMATE.notices, priceNotice],
      options: [{ ...stale, findings }, ...others],
    };
    const words = await wordsOf(await quotePdf({ ...quote(), estimate }, { pageSize: 'letter' }));
    for (const kept of ['A licensed electrician must', 'The finish is opened along this leg', 'Switch the power off'])
      expect(words).toContain(kept);
    expect(words).not.toMatch(/may cost less|No overhead|usually ask|\*/);
  });

  it('says in words what is built, and closes what it digs', async () => {
    const words = await wordsOf(await quotePdf(quote(), { pageSize: 'letter' }));
    const work = words.slice(words.indexOf('The work'), words.indexOf('Section along the route'));
    const [run] = ESTIMATE.options[0]?.runs ?? [];
    for (const said of [
      `of ${run?.ocpdA} A`,
      `from the ${run?.from} to the ${run?.to}`,
      'Along the route: joists 22 ft',
      'lawn 36 ft (31 to 44)',
      'Ditches are dug, filled and compacted, and the surface is made good.',
      'wired directly, on the wall: supplied, mounted and set up.',
      'The electrical permit',
    ])
      expect(work).toContain(said);
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

describe('what is built for the price', () => {
  const [option] = ESTIMATE.options;
  const [stated] = ESTIMATE.description.options;
  const [charger] = stated?.chargers ?? [];
  if (!option || !stated || !charger) throw new Error('The example has no option with a charger.');
  const { description } = ESTIMATE;
  const said = (changes: Partial<typeof stated>) =>
    workIncluded({ description, option, stated: { ...stated, ...changes } }).join(' ');

  it.each([
    ['buy', 'supplied, mounted and set up'],
    ['owned', 'yours, mounted and set up'],
    ['none', 'not supplied: its connection is made ready'],
  ] as const)('says of a charger that is "%s" that it is %s', (equipment, words) => {
    expect(said({ chargers: [{ ...charger, equipment }] })).toContain(`: ${words}.`);
  });

  it('promises no wire and no charger where only raceway is built, and says what the second conduit is for', () => {
    const words = said({ roughInOnly: true, spareConduit: { toA: 100 } });
    expect(words).toContain('for wire that is pulled later');
    expect(words).toContain('A second, empty conduit along the route for later, capped.');
    expect(words).not.toMatch(/Charger,|A circuit of|A feeder of/);
  });

  it('names the surface that is not made good', () => {
    const route = description.route.map((leg) => (leg.kind === 'concrete-cut' ? { ...leg, restore: false } : leg));
    expect(said({ route })).toContain('the surface is made good but for concrete.');
  });

  it('keeps an outlet that is there, and says so', () => {
    expect(said({ feed: 'existing-receptacle' })).toContain('The outlet that is there is kept and used.');
  });
});

describe('the selling prices of the lines', () => {
  const [first] = ESTIMATE.options;
  const [line] = first?.lines ?? [];
  const option = (amounts: number[], totals: Partial<EstimateOption['totals']>): EstimateOption => {
    if (!first || !line) throw new Error('no option');
    const lines = amounts.map((amountCents): Line => ({ ...line, class: 'material', scope: 'wire', amountCents }));
    return { ...first, lines, totals: { ...first.totals, ...totals } };
  };
  const amounts = (of: EstimateOption) => sellingRows(of).map(({ cells }) => cells.at(-1));

  /** Cost 9.00, price before discount 10.01: 3.00 / 9.00 of it are 3.33 and two thirds; two cents are left for the first two. */
  it('share the price to the cent, the discount and the tax apart', () => {
    const totals = { costCents: 900, discountCents: 50, taxCents: 61, totalCents: 1_012 };
    expect(amounts(option([300, 300, 300], totals))).toEqual([
      '10.01',
      '3.34',
      '3.34',
      '3.33',
      '10.01',
      '−0.50',
      '0.61',
    ]);
  });

  /** 1,000 / 7 cents for each 1.00 of cost: 428.57, 142.86, 285.71, 142.86; floors make 997: the lesser rest, .57, goes without. */
  it('give the cents that are left to the largest remainders', () => {
    const totals = { costCents: 700, discountCents: 0, taxCents: 0, totalCents: 1_000 };
    expect(amounts(option([300, 100, 200, 100], totals))).toEqual(['10.00', '4.28', '1.43', '2.86', '1.43', '10.00']);
  });

  it('are nothing where nothing is done', () => {
    const totals = { costCents: 0, discountCents: 0, taxCents: 0, totalCents: 0 };
    expect(amounts(option([0], totals))).toEqual(['0.00', '0.00', '0.00']);
  });
});
