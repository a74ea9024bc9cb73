import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import { paymentsOf, type QuoteInput } from '../estimate/quote.ts';
import { drawFindings } from './checks.ts';
import { drawRouteSection } from './estimate-paper.ts';
import { ITEM_COLUMNS, itemRows, TOTAL_COLUMNS, totalRows } from './itemized.ts';
import { notIncluded } from './not-included.ts';
import { drawNotices, type PaperInput, sheetFor } from './paper.ts';
import type { PageSize, Sheet } from './sheet.ts';
import { STYLES } from './sheet.ts';
import { drawIssuer, drawTitle, type Issuer } from './sheet-head.ts';
import { drawTable } from './table.ts';
import { counted, dayInWords, exactDollars, moreOrLess, number } from './wording.ts';

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

/**
 * A quote as a tagged PDF: who offers what to whom at which price until when, what is in it and what is not, when it is
 * paid, and where it is signed; what it is made of and the checks follow. The same quote gives the same bytes: its date of creation is the day of its prices.
 */
export async function quotePdf(quote: QuoteOnPaper, { pageSize }: { pageSize: PageSize }): Promise<Buffer> {
  const input = inputOf(quote, pageSize);
  const { estimate, option, stated } = input;
  const sheet = sheetFor(input, { subject: `Quote ${quote.number}: ${option.label}` });
  drawParties(sheet, quote, input);
  drawPrice(sheet, quote, option);
  drawRouteSection(sheet, input, { isWithoutMoney: true });
  drawAlternates(sheet, estimate);
  drawTerms(sheet, quote);
  sheet.heading('Not included');
  sheet.list([...quote.stated.exclusions, ...notIncluded({ description: estimate.description, stated, option })]);
  drawNotices(sheet, estimate);
  drawSignatures(sheet, quote);
  if (quote.stated.show === 'items') drawItems(sheet, option);
  sheet.heading('Checks');
  drawFindings(sheet, option);
  return sheet.finish();
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

function drawPrice(sheet: Sheet, { stated }: QuoteOnPaper, { totals, labor }: EstimateOption): void {
  sheet.heading('Price and payment');
  sheet.paragraph(`$${exactDollars(totals.totalCents)}`, { style: STYLES.large });
  const tax = totals.taxCents > 0 ? `, with $${exactDollars(totals.taxCents)} of tax` : '';
  const days = labor.workingDays > 0 ? ` The work takes ${counted(labor.workingDays, 'working day')}.` : '';
  sheet.paragraph(`for all that is described here${tax}.${days}`);
  sheet.y += 4;
  const rows = paymentsOf(totals.totalCents, stated).map(({ when, bp, cents }) => ({
    cells: [bp === undefined ? when : `${when} (${number(bp / 100)} %)`, exactDollars(cents)],
  }));
  const columns = [
    { head: 'Falls due', share: 1 },
    { head: 'Amount, $', widthPt: 80, align: 'right' as const },
  ];
  drawTable(sheet, { columns, rows: [...rows, { kind: 'total', cells: ['Total', exactDollars(totals.totalCents)] }] });
}

function drawItems(sheet: Sheet, option: EstimateOption): void {
  sheet.heading('Materials and labor', { keepPt: 80 });
  drawTable(sheet, { columns: ITEM_COLUMNS, rows: itemRows(option), rowHeads: true });
  sheet.y += 6;
  drawTable(sheet, { columns: TOTAL_COLUMNS, rows: totalRows(option), rowHeads: true });
}

/** Other options that the customer may take instead, with what they differ by. */
function drawAlternates(sheet: Sheet, { options }: Estimate): void {
  const [quoted, ...alternates] = options;
  if (!quoted || alternates.length === 0) return;
  sheet.heading('Instead, if you prefer', { keepPt: 40 });
  const columns = [
    { head: 'Option', share: 1 },
    { head: '', widthPt: 110, align: 'right' as const },
    { head: 'Total, $', widthPt: 80, align: 'right' as const },
  ];
  const rows = alternates.map(({ label, totals }) => ({
    cells: [label, moreOrLess(totals.totalCents - quoted.totals.totalCents), exactDollars(totals.totalCents)],
  }));
  drawTable(sheet, { columns, rows, rowHeads: true });
}

function drawTerms(sheet: Sheet, { stated }: QuoteOnPaper): void {
  const { allowances, assumptions, warrantyMonths, notes } = stated;
  if (allowances.length > 0) {
    sheet.heading('Set aside within the price', { keepPt: 40 });
    const columns = [
      { head: 'For', share: 1 },
      { head: 'Amount, $', widthPt: 80, align: 'right' as const },
    ];
    const rows = allowances.map(({ text, cents }) => ({ cells: [text, exactDollars(cents)] }));
    drawTable(sheet, { columns, rows, rowHeads: true });
    sheet.paragraph('What it costs more or less than was set aside changes the price by as much.');
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

/** Two lines to sign on, kept together. */
function drawSignatures(sheet: Sheet, { stated, issuer, number: quoteNumber }: QuoteOnPaper): void {
  sheet.heading(`Accepted: quote ${quoteNumber}`, { keepPt: 2 * SIGN_PT });
  for (const who of [stated.customer.name, issuer.businessName ?? 'For the business that offers it']) {
    sheet.ensure(SIGN_PT);
    sheet.y += SIGN_PT - 18;
    sheet.rule(sheet.y);
    sheet.y += 2;
    sheet.paragraph(`${who}: signature and date`, { style: STYLES.small });
  }
}
