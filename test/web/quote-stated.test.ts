import { describe, expect, it } from 'vitest';
import { QuoteInput } from '../../server/estimate/quote.ts';
import {
  BLANK_QUOTE,
  fieldOfPath,
  isWithoutShare,
  lackOfIssuer,
  type QuoteStated,
  quoteBody,
  revisionOfQuote,
  SHOWN_PATHS,
  usualTermsOf,
} from '../../web/quotes/quote-stated.ts';

const customer = 'An invented household';
/** A form with all that can be typed. */
const FULL: QuoteStated = {
  customer,
  customerAddress: '1 Invented Lane ',
  email: 'someone@example.org',
  phone: '555 0100',
  siteAddress: '2 Invented Lane',
  alternates: ['b'],
  allowances: [{ text: 'a charger', dollars: '450.5' }],
  exclusions: 'Painting\n\n Moving of furniture \n',
  assumptions: 'the attic is free',
  deposit: '10 %',
  progress: [{ when: 'After the trench', percent: '25.5' }],
  validDays: '30',
  warrantyMonths: '0',
  startWindow: 'in April',
  notes: 'After noon only.',
  show: 'sum',
  revisionOf: 'q',
};
/** The same without blanks around. */
const TRIMMED = { customerAddress: '1 Invented Lane', exclusions: 'Painting\nMoving of furniture' };

describe('the form of a quote', () => {
  it('leaves out what was left empty', () => {
    const blankRows = { allowances: [{ text: ' ', dollars: '' }], progress: [{ when: '', percent: '' }] };
    expect(quoteBody({ ...BLANK_QUOTE, ...blankRows, customer }, { optionId: 'a' })).toEqual({
      optionId: 'a',
      customer: { name: customer },
      show: 'items',
      validDays: 15,
      warrantyMonths: 12,
    });
  });

  it('states every field that a quote has, as the server reads it', () => {
    const body = quoteBody(FULL, { optionId: 'a', bookRevision: 7 });
    const read = QuoteInput.parse(body);
    expect(read).toEqual({
      optionId: 'a',
      alternates: ['b'],
      customer: { name: customer, address: '1 Invented Lane', email: 'someone@example.org', phone: '555 0100' },
      siteAddress: '2 Invented Lane',
      validDays: 30,
      warrantyMonths: 0,
      show: 'sum',
      deposit: { bp: 1_000 },
      progress: [{ when: 'After the trench', bp: 2_550 }],
      allowances: [{ text: 'a charger', cents: 45_050 }],
      exclusions: ['Painting', 'Moving of furniture'],
      assumptions: ['the attic is free'],
      notes: 'After noon only.',
      startWindow: 'in April',
      revisionOf: 'q',
      bookRevision: 7,
    });
    expect(Object.keys(read).sort()).toEqual(Object.keys(QuoteInput.shape).sort());
    expect(Object.keys(read.customer).sort()).toEqual(Object.keys(QuoteInput.shape.customer.shape).sort());
  });

  it('shows what is refused of each field beside a field of its own', () => {
    const fields = Object.keys(QuoteInput.shape).filter((field) => field !== 'bookRevision'); // typed by nobody
    expect([...SHOWN_PATHS].sort()).toEqual(fields.sort());
  });

  it('begins a revision with what the quote stated, as it would have been typed', () => {
    const stated = QuoteInput.parse(quoteBody(FULL, { optionId: 'a' }));
    expect(revisionOfQuote({ id: 'q', stated })).toEqual({ ...FULL, ...TRIMMED });
    const sum = QuoteInput.parse(quoteBody({ ...BLANK_QUOTE, customer, deposit: '$1,500' }, { optionId: 'a' }));
    expect(revisionOfQuote({ id: 'r', stated: sum })).toMatchObject({ deposit: '1500', progress: [], show: 'items' });
  });

  it('sends what is no number as it was typed, to be refused at its field', () => {
    const typed = { ...FULL, allowances: [{ text: 'a charger', dollars: 'some' }], validDays: 'two weeks' };
    const { error } = QuoteInput.safeParse(quoteBody(typed, { optionId: 'a' }));
    expect(error?.issues.map(({ path }) => path.join('.'))).toEqual(['validDays', 'allowances.0.cents']);
  });

  it('keeps for the next quote what is of the business, and nothing of the customer or the job', () => {
    const { exclusions, assumptions, deposit, progress, validDays, warrantyMonths, show } = FULL;
    const usual = { exclusions, assumptions, deposit, progress, validDays, warrantyMonths, show };
    expect(usualTermsOf(FULL)).toEqual(usual);
  });

  it.each([
    ['12.5%', { bp: 1_250 }],
    ['$1,500', { cents: 150_000 }],
    ['499.99', { cents: 49_999 }],
    ['half', { cents: 'half' }], // refused there, and kept as typed
    ['half of it %', { bp: 'half of it %' }],
  ])('reads a deposit of %s', (deposit, read) => {
    expect(quoteBody({ ...BLANK_QUOTE, customer, deposit }, { optionId: 'a' })).toMatchObject({ deposit: read });
  });

  it('warns of what the settings do not say of who offers it', () => {
    expect(lackOfIssuer({})).toMatch(/^The settings name no business and no license number:/);
    expect(lackOfIssuer({ businessName: 'An invented firm' })).toMatch(/^The settings name no license number:/);
    expect(lackOfIssuer({ businessName: 'An invented firm', licenceNumber: '0' })).toBeUndefined();
  });

  it('finds what was typed at the path of a refusal', () => {
    expect(['customer.name', 'customer.email', 'progress.0.bp', 'validDays', 'optionId'].map(fieldOfPath)).toEqual([
      'customer',
      'email',
      'progress',
      'validDays',
      undefined,
    ]);
  });

  it('tells a payment without its share before it is sent', () => {
    expect(isWithoutShare({ when: 'After the trench', percent: ' ' })).toBe(true);
    expect(isWithoutShare({ when: 'After the trench', percent: '25' })).toBe(false);
    expect(isWithoutShare({ when: '', percent: '' })).toBe(false);
  });
});
