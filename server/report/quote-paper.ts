import type { Estimate, EstimateOption, Finding } from '../estimate/answer.ts';
import { safetyNotices } from '../estimate/notices.ts';
import { paymentsOf, type QuoteInput, quotedCents } from '../estimate/quote.ts';
import { drawFindings } from './checks.ts';
import { drawRouteSection } from './estimate-paper.ts';
import { SELLING_COLUMNS, sellingRows } from './itemized.ts';
import { notPromised } from './not-included.ts';
import { drawNotices, type PaperInput, sheetFor } from './paper.ts';
import type { PageSize, Sheet } from './sheet.ts';
import { STYLES } from './sheet.ts';
import { drawIssuer, drawTitle, type Issuer } from './sheet-head.ts';
import { type Column, drawTable, type Row, tableHeightPt } from './table.ts';
import { capital, counted, dayInWords, exactDollars, moreOrLess, number } from './wording.ts';
import { runsInWords, workIncluded } from './work-included.ts';

/** A quote as it was frozen: the quoted option is the first of its estimate, alternates follow. */
export interface QuoteOnPaper {
  /** Such as `2026-0001`. */
  number: string;
  issuedOn: string;
  validUntil: string;
  /** The number of the quote that it takes the place of. */
  revises?: string | undefined;
  estimate: Estimate;
  stated: QuoteInput;
  issuer: Issuer;
}

const SIGN_PT = 46;
/** Room for the sentence above the lines to sign on. */
const ACCEPTANCE_PT = 18;
/** Findings for whoever plans, prices and builds: how the money was reckoned, what was typed, how it is put together. */
const PLANNERS_RULES = new Set([
  'coupler-height',
  'dissimilar-metals',
  'pvc-damage',
  'pvc-expansion',
  'rmc-soil',
  'use-2-markings',
  'bore-instead',
  'billed-rate-counts-twice',
  'chance-left-out',
  'chance-name',
  'cost-without-overhead',
  'largest-setting',
  'standard-ratings',
  'unknown-rate',
  'unused-field',
]);
/** Where the planner is advised in the same breath, what the customer must know of it. */
const FOR_THE_CUSTOMER: Readonly<Record<string, string>> = {
  'opened-finish': 'The finish is opened along this leg and patched.',
  'garage-circuit': 'As quoted, the receptacles of the garage have no 20 A circuit of their own.',
  'garage-circuit-added':
    'A circuit for the receptacles of the garage is in the price: a garage must have one once it has power.',
};

/**
 * A quote as a tagged PDF: who offers what to whom at which price until when, what is in it and what is not, when it is
 * paid, and where it is signed; what it is made of and the checks follow. The same quote gives the same bytes: its date of creation is the day of its prices.
 */
export async function quotePdf(quote: QuoteOnPaper, { pageSize }: { pageSize: PageSize }): Promise<Buffer> {
  const input = inputOf(quote, pageSize);
  const { estimate, option, stated } = input;
  const { description } = estimate;
  const sheet = sheetFor(input, { subject: `Quote ${quote.number}: ${option.label}` });
  drawParties(sheet, quote, input);
  drawPrice(sheet, quote, option);
  sheet.heading('The work');
  sheet.list(workIncluded({ description, stated, option }));
  drawRouteSection(sheet, input, { isWithoutMoney: true });
  drawAlternates(sheet, quote);
  drawTerms(sheet, quote);
  sheet.heading('Not included');
  sheet.list([
    ...quote.stated.exclusions,
    ...notPromised({ description, stated, option }, { allowances: quote.stated.allowances }),
  ]);
  drawNotices(sheet, { notices: safetyNotices(description) });
  drawSignatures(sheet, quote);
  if (quote.stated.show === 'items') drawItems(sheet, quote, option);
  sheet.heading('Checks');
  drawFindings(sheet, { findings: customersFindings(option) });
  return sheet.finish();
}

function customersFindings({ findings }: EstimateOption): Finding[] {
  return findings
    .filter(({ rule }) => !PLANNERS_RULES.has(rule))
    .map((finding) => ({ ...finding, message: FOR_THE_CUSTOMER[finding.rule] ?? finding.message }));
}

/** The quoted option in its answer. @throws {Error} for an estimate without options */
function inputOf({ estimate, issuer }: QuoteOnPaper, pageSize: PageSize): PaperInput {
  const [option] = estimate.options;
  const [stated] = estimate.description.options;
  if (!option || !stated) throw new Error('The quote was frozen without an option.');
  return { estimate, option, stated, pageSize, issuer };
}

function drawParties(sheet: Sheet, quote: QuoteOnPaper, { estimate, option, issuer }: PaperInput): void {
  const { customer, siteAddress, startWindow } = quote.stated;
  drawIssuer(sheet, issuer);
  drawTitle(sheet, { title: `Quote ${quote.number}`, subject: option.label, widthPt: sheet.widthPt });
  sheet.y += 4;
  const reached = [customer.address, customer.email, customer.phone].filter((part) => part !== undefined);
  const sentences = [
    `For ${[customer.name, ...reached].join(', ')}.`,
    `${estimate.description.title}${siteAddress === undefined ? '' : `, at ${siteAddress}`}.`,
    `Issued ${dayInWords(quote.issuedOn)}, valid through ${dayInWords(quote.validUntil)}.`,
    ...(quote.revises === undefined ? [] : [`It takes the place of quote ${quote.revises}.`]),
    ...(startWindow === undefined ? [] : [`Start of the work: ${startWindow}.`]),
  ];
  for (const sentence of sentences) sheet.paragraph(sentence);
}

function drawPrice(sheet: Sheet, { stated }: QuoteOnPaper, option: EstimateOption): void {
  const { totals, labor } = option;
  const priceCents = quotedCents(option, stated);
  sheet.heading('Price and payment');
  sheet.paragraph(`$${exactDollars(priceCents)}`, { style: STYLES.large });
  const tax = totals.taxCents > 0 ? `, with $${exactDollars(totals.taxCents)} of tax` : '';
  const days = labor.workingDays > 0 ? ` The work takes ${counted(labor.workingDays, 'working day')}.` : '';
  sheet.paragraph(`for all that is described here${tax}.${days}`);
  sheet.y += 4;
  const rows = paymentsOf(priceCents, stated).map(({ when, bp, cents }) => ({
    cells: [bp === undefined ? when : `${when} (${number(bp / 100)} %)`, exactDollars(cents)],
  }));
  const columns = [
    { head: 'Falls due', share: 1 },
    { head: 'Amount, $', widthPt: 80, align: 'right' as const },
  ];
  drawTable(sheet, { columns, rows: [...rows, { kind: 'total', cells: ['Total', exactDollars(priceCents)] }] });
}

/** Lines and allowances, which add up to the price. */
function drawItems(sheet: Sheet, { stated }: QuoteOnPaper, option: EstimateOption): void {
  sheet.heading('Materials and labor', { keepPt: 80 });
  const row = (words: string, cents: number) => ({ cells: [words, '', '', exactDollars(cents)] });
  const rows: Row[] = [
    ...sellingRows(option),
    ...stated.allowances.map(({ text, cents }) => row(`Allowance: ${text}`, cents)),
    { ...row('Total', quotedCents(option, stated)), kind: 'total' },
  ];
  drawTable(sheet, { columns: SELLING_COLUMNS, rows, rowHeads: true });
}

/** Other options that the customer may take instead, with what they differ by and the same allowances. */
function drawAlternates(sheet: Sheet, { estimate, stated }: QuoteOnPaper): void {
  const [quoted, ...alternates] = estimate.options;
  if (!quoted || alternates.length === 0) return;
  sheet.heading('Instead, if you prefer', { keepPt: 40 + alternates.length * 30 });
  const columns = [
    { head: 'Option', share: 1 },
    { head: '', widthPt: 110, align: 'right' as const },
    { head: 'Total, $', widthPt: 80, align: 'right' as const },
  ];
  const rows = alternates.map((option) => ({
    cells: [
      option.label,
      moreOrLess(option.totals.totalCents - quoted.totals.totalCents),
      exactDollars(quotedCents(option, stated)),
    ],
  }));
  drawTable(sheet, { columns, rows, rowHeads: true });
  sheet.y += 4;
  sheet.list(alternates.map(runsInWords));
}

function drawTerms(sheet: Sheet, { stated }: QuoteOnPaper): void {
  const { allowances, assumptions, warrantyMonths, notes } = stated;
  if (allowances.length > 0) {
    sheet.heading('Allowances within the price', { keepPt: 40 });
    const columns = [
      { head: 'For', share: 1 },
      { head: 'Amount, $', widthPt: 80, align: 'right' as const },
    ];
    const rows = allowances.map(({ text, cents }) => ({ cells: [capital(text), exactDollars(cents)] }));
    drawTable(sheet, { columns, rows, rowHeads: true });
    sheet.y += 4;
    sheet.paragraph(
      'Each is a part of the price, tax included. What it costs more or less changes the price by as much.',
    );
  }
  sheet.heading('Terms');
  sheet.list([
    ...assumptions.map((assumption) => `Assumed: ${assumption}`),
    warrantyMonths === 0
      ? 'No warranty is given beyond what the law asks for.'
      : `Warranty on the work: ${counted(warrantyMonths, 'month')} from the day that it is done.`,
    'What is found other than described here is shown and priced before it is done.',
    ...(notes === undefined ? [] : [notes]),
  ]);
}

/** What is signed, which of the options where there are others, and two lines to sign on, kept together. */
function drawSignatures(sheet: Sheet, quote: QuoteOnPaper): void {
  const { stated, issuer, number: quoteNumber, estimate } = quote;
  const choice = estimate.options.length > 1 ? choiceTable(quote) : undefined;
  const choicePt = choice ? tableHeightPt(sheet, choice) + 6 : 0;
  sheet.heading(`Acceptance of quote ${quoteNumber}`, { keepPt: 2 * SIGN_PT + choicePt + ACCEPTANCE_PT });
  sheet.paragraph('The work, the price and the terms above are accepted, and the work may be begun.');
  if (choice) {
    sheet.y += 4;
    drawTable(sheet, choice);
  }
  for (const who of [stated.customer.name, issuer.businessName ?? 'For the business that offers it']) {
    sheet.ensure(SIGN_PT);
    sheet.y += SIGN_PT - 18;
    sheet.rule(sheet.y);
    sheet.y += 2;
    sheet.paragraph(`${who}: signature and date`, { style: STYLES.small });
  }
}

/** The option that is taken is ticked by who signs. */
function choiceTable({ estimate, stated }: QuoteOnPaper) {
  const columns: readonly Column[] = [
    { head: '', widthPt: 12, set: 'tick' },
    { head: 'Tick the one that you take', share: 1 },
    { head: 'Price, $', widthPt: 80, align: 'right' },
  ];
  const rows = estimate.options.map((option) => ({
    cells: ['', option.label, exactDollars(quotedCents(option, stated))],
  }));
  return { columns, rows };
}
