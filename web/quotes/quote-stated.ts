import type { Settings } from '../api.ts';
import type { Json } from '../json.ts';
import { read } from '../parts/field.ts';

/** What the form of a quote holds, as it was typed. */
export interface QuoteStated {
  customer: string;
  customerAddress: string;
  validDays: string;
  show: 'items' | 'sum';
  /** `10 %` is a share of the total, `$500` or `500` a sum. */
  deposit: string;
  /** One a line. */
  exclusions: string;
  notes: string;
}

/** A form that was not filled in yet. */
export const BLANK_QUOTE: QuoteStated = {
  customer: '',
  customerAddress: '',
  validDays: '15',
  show: 'items',
  deposit: '',
  exclusions: '',
  notes: '',
};

/** The request that issues it. What was left empty is left out; what is no number goes as it is, to be refused there. */
export function quoteBody(stated: QuoteStated, optionId: string): Json {
  const { customer, customerAddress, validDays, show, deposit, exclusions, notes } = stated;
  const days = read(validDays, { scale: 'plain', emptied: 'unstated' });
  const excluded = exclusions.split('\n').flatMap((line) => line.trim() || []);
  return {
    optionId,
    customer: { name: customer, ...(customerAddress.trim() !== '' && { address: customerAddress.trim() }) },
    show,
    ...(days !== undefined && { validDays: days }),
    ...(deposit.trim() !== '' && { deposit: depositOf(deposit.trim()) }),
    ...(excluded.length > 0 && { exclusions: excluded }),
    ...(notes.trim() !== '' && { notes: notes.trim() }),
  };
}

function depositOf(typed: string): Json {
  if (typed.endsWith('%')) return { bp: read(typed, { scale: 'percent', emptied: 'missing' }) ?? typed };
  return { cents: read(typed, { scale: 'dollars', emptied: 'missing' }) ?? typed };
}

/** What a quote would be printed without, for the settings do not say it; undefined where they do. */
export function lackOfIssuer({ businessName, licenceNumber }: Pick<Settings, 'businessName' | 'licenceNumber'>) {
  const lacks = [...(businessName ? [] : ['no business']), ...(licenceNumber ? [] : ['no license number'])];
  if (lacks.length === 0) return undefined;
  return `The settings name ${lacks.join(' and ')}: the quote will be issued without, and stays so.`;
}
