import type { Settings } from '../api.ts';
import { type Json, listAt, valueAt } from '../json.ts';
import { read, written } from '../parts/field.ts';

/** An allowance as it is typed: what for, and dollars. */
export interface AllowanceTyped {
  text: string;
  dollars: string;
}

/** A payment on the way as it is typed: when it falls due, and percent. */
export interface PaymentTyped {
  when: string;
  percent: string;
}

/** What the form of a quote holds, as it was typed. */
export interface QuoteStated {
  customer: string;
  customerAddress: string;
  email: string;
  phone: string;
  siteAddress: string;
  /** Ids of other options of the project. */
  alternates: readonly string[];
  allowances: readonly AllowanceTyped[];
  /** One a line, as the assumptions. */
  exclusions: string;
  assumptions: string;
  /** `10 %` is a share of the total, `$500` or `500` a sum. */
  deposit: string;
  progress: readonly PaymentTyped[];
  validDays: string;
  warrantyMonths: string;
  startWindow: string;
  notes: string;
  show: 'items' | 'sum';
  /** The id of the quote that it takes the place of; empty for none. */
  revisionOf: string;
}

/** Every path that a field of the form shows refusals of. */
export const SHOWN_PATHS = [
  'optionId',
  'customer',
  'siteAddress',
  'alternates',
  'allowances',
  'exclusions',
  'assumptions',
  'deposit',
  'progress',
  'validDays',
  'warrantyMonths',
  'startWindow',
  'notes',
  'show',
  'revisionOf',
] as const;

const CUSTOMER_FIELDS: Readonly<Record<string, keyof QuoteStated>> = {
  customer: 'customer',
  'customer.name': 'customer',
  'customer.address': 'customerAddress',
  'customer.email': 'email',
  'customer.phone': 'phone',
};

/** What was typed at a path of the request; undefined where it is none of the form's typed fields. */
export function fieldOfPath(path: string): keyof QuoteStated | undefined {
  const [first = ''] = path.split('.');
  return CUSTOMER_FIELDS[path] ?? (Object.keys(BLANK_QUOTE) as (keyof QuoteStated)[]).find((field) => field === first);
}

/** A form that was not filled in yet. */
export const BLANK_QUOTE: QuoteStated = {
  customer: '',
  customerAddress: '',
  email: '',
  phone: '',
  siteAddress: '',
  alternates: [],
  allowances: [],
  exclusions: '',
  assumptions: '',
  deposit: '',
  progress: [],
  validDays: '15',
  warrantyMonths: '12',
  startWindow: '',
  notes: '',
  show: 'items',
  revisionOf: '',
};

/** What is the same from quote to quote of one business; the rest is of one customer and one job. */
export type UsualTerms = Pick<
  QuoteStated,
  'exclusions' | 'assumptions' | 'deposit' | 'progress' | 'validDays' | 'warrantyMonths' | 'show'
>;

/** The terms of a quote that the next one begins with. */
export function usualTermsOf(stated: QuoteStated): UsualTerms {
  const { exclusions, assumptions, deposit, progress, validDays, warrantyMonths, show } = stated;
  return { exclusions, assumptions, deposit, progress: filled(progress), validDays, warrantyMonths, show };
}

/** Rows of which something was typed: the others are not sent, and do not count. */
export function filled<Row extends AllowanceTyped | PaymentTyped>(rows: readonly Row[]): Row[] {
  return rows.filter((row) => Object.values(row).some((typed: string) => typed.trim() !== ''));
}

/** Whether a payment says when it falls due and not how much: told before it is sent. */
export function isWithoutShare({ when, percent }: PaymentTyped): boolean {
  return when.trim() !== '' && percent.trim() === '';
}

const linesOf = (typed: string) => typed.split('\n').flatMap((line) => line.trim() || []);
/** A field that is sent where something was typed. */
const typedText = <Name extends string>(name: Name, typed: string) => (typed.trim() ? { [name]: typed.trim() } : {});
const typedLines = (name: string, typed: string) => (linesOf(typed).length > 0 ? { [name]: linesOf(typed) } : {});
/** A number, or what was typed in its place, which is refused at its path. */
function typedNumber(name: string, typed: string, scale: 'plain' | 'dollars' | 'percent' = 'plain') {
  const value = read(typed, { scale, emptied: 'unstated' });
  return value === undefined ? {} : { [name]: value };
}

/** Which option is quoted, and the revision of the price book whose total was seen. */
export interface QuoteOf {
  optionId: string;
  bookRevision?: number | undefined;
}

/** The request that issues it. What was left empty is left out; what is no number goes as it is, to be refused there. */
export function quoteBody(stated: QuoteStated, { optionId, bookRevision }: QuoteOf): Json {
  const allowances = filled(stated.allowances);
  const progress = filled(stated.progress);
  const alternates = stated.alternates.filter((id) => id !== optionId);
  return {
    optionId,
    customer: {
      name: stated.customer,
      ...typedText('address', stated.customerAddress),
      ...typedText('email', stated.email),
      ...typedText('phone', stated.phone),
    },
    show: stated.show,
    ...(alternates.length > 0 && { alternates }),
    ...(allowances.length > 0 && {
      allowances: allowances.map(({ text, dollars }) => ({
        ...typedText('text', text),
        ...typedNumber('cents', dollars, 'dollars'),
      })),
    }),
    ...typedLines('exclusions', stated.exclusions),
    ...typedLines('assumptions', stated.assumptions),
    ...(stated.deposit.trim() !== '' && { deposit: depositOf(stated.deposit.trim()) }),
    ...(progress.length > 0 && {
      progress: progress.map(({ when, percent }) => ({
        ...typedText('when', when),
        ...typedNumber('bp', percent, 'percent'),
      })),
    }),
    ...typedNumber('validDays', stated.validDays),
    ...typedNumber('warrantyMonths', stated.warrantyMonths),
    ...typedText('startWindow', stated.startWindow),
    ...typedText('notes', stated.notes),
    ...typedText('siteAddress', stated.siteAddress),
    ...typedText('revisionOf', stated.revisionOf),
    ...(bookRevision !== undefined && { bookRevision }),
  };
}

function depositOf(typed: string): Json {
  if (typed.endsWith('%')) return { bp: read(typed, { scale: 'percent', emptied: 'missing' }) ?? typed };
  return { cents: read(typed, { scale: 'dollars', emptied: 'missing' }) ?? typed };
}

/** The form of a quote that was issued, to issue it anew: what was stated of it, as one would have typed it. */
export function revisionOfQuote({ id, stated }: { id: string; stated: object }): QuoteStated {
  const text = (path: string) => written(valueAt(stated, path), 'plain');
  const lines = (path: string) => listAt(stated, path).join('\n');
  const bp = valueAt(stated, 'deposit.bp');
  const cents = valueAt(stated, 'deposit.cents');
  return {
    customer: text('customer.name'),
    customerAddress: text('customer.address'),
    email: text('customer.email'),
    phone: text('customer.phone'),
    siteAddress: text('siteAddress'),
    alternates: listAt(stated, 'alternates').map(String),
    allowances: listAt(stated, 'allowances').map((row) => ({
      text: written(valueAt(row, 'text'), 'plain'),
      dollars: written(valueAt(row, 'cents'), 'dollars'),
    })),
    exclusions: lines('exclusions'),
    assumptions: lines('assumptions'),
    deposit: bp === undefined ? written(cents, 'dollars') : `${written(bp, 'percent')} %`,
    progress: listAt(stated, 'progress').map((row) => ({
      when: written(valueAt(row, 'when'), 'plain'),
      percent: written(valueAt(row, 'bp'), 'percent'),
    })),
    validDays: text('validDays'),
    warrantyMonths: text('warrantyMonths'),
    startWindow: text('startWindow'),
    notes: text('notes'),
    show: valueAt(stated, 'show') === 'sum' ? 'sum' : 'items',
    revisionOf: id,
  };
}

/** What a quote would be printed without, for the settings do not say it; undefined where they do. */
export function lackOfIssuer({ businessName, licenceNumber }: Pick<Settings, 'businessName' | 'licenceNumber'>) {
  const lacks = [...(businessName ? [] : ['no business']), ...(licenceNumber ? [] : ['no license number'])];
  if (lacks.length === 0) return undefined;
  return `The settings name ${lacks.join(' and ')}: the quote will be issued without, and stays so.`;
}
