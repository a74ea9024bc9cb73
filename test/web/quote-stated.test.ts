import { describe, expect, it } from 'vitest';
import { QuoteInput } from '../../server/estimate/quote.ts';
import { BLANK_QUOTE, lackOfIssuer, quoteBody } from '../../web/quotes/quote-stated.ts';

const customer = 'An invented household';

describe('the form of a quote', () => {
  it('leaves out what was left empty', () => {
    expect(quoteBody({ ...BLANK_QUOTE, customer }, 'a')).toEqual({
      optionId: 'a',
      customer: { name: customer },
      show: 'items',
      validDays: 15,
    });
  });

  it('sends all that a quote may say here, as the server reads it', () => {
    const body = quoteBody(
      {
        customer,
        customerAddress: '1 Invented Lane ',
        validDays: '30',
        show: 'sum',
        deposit: '10 %',
        exclusions: 'Painting\n\n Moving of furniture \n',
        notes: 'After noon only.',
      },
      'a',
    );
    expect(QuoteInput.parse(body)).toMatchObject({
      customer: { name: customer, address: '1 Invented Lane' },
      validDays: 30,
      show: 'sum',
      deposit: { bp: 1_000 },
      exclusions: ['Painting', 'Moving of furniture'],
      notes: 'After noon only.',
    });
  });

  it.each([
    ['12.5%', { bp: 1_250 }],
    ['$1,500', { cents: 150_000 }],
    ['499.99', { cents: 49_999 }],
    ['half', { cents: 'half' }], // refused there, and kept as typed
    ['half of it %', { bp: 'half of it %' }],
  ])('reads a deposit of %s', (deposit, read) => {
    expect(quoteBody({ ...BLANK_QUOTE, customer, deposit }, 'a')).toMatchObject({ deposit: read });
  });

  it('warns of what the settings do not say of who offers it', () => {
    expect(lackOfIssuer({})).toMatch(/^The settings name no business and no license number:/);
    expect(lackOfIssuer({ businessName: 'An invented firm' })).toMatch(/^The settings name no license number:/);
    expect(lackOfIssuer({ businessName: 'An invented firm', licenceNumber: '0' })).toBeUndefined();
  });
});
