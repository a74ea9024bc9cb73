import type { Estimate } from '../estimate/answer.ts';
import type { Answered } from './passages/option-passages.ts';
import { type PageSize, Sheet, STYLES } from './sheet.ts';
import { drawIssuer, drawTitle, type Issuer } from './sheet-head.ts';
import { counted, dayInWords } from './wording.ts';

/** What a paper is made of: an option in its answer, the size of the page, and who hands it over. */
export interface PaperInput extends Answered {
  pageSize: PageSize;
  issuer: Issuer | undefined;
}

const NOTICE =
  'Not a permit, not a design by a licensed person, not an approval. The local code and the authority having jurisdiction (AHJ) decide.';
/** Stands for the date where an estimate has none: it was then not made at the edge that fills it in. */
const NO_DAY = '1970-01-01';

/** A sheet with its title block: the estimate's title, date and book, and what the paper is about. */
export function sheetFor(
  { estimate, pageSize }: Pick<PaperInput, 'estimate' | 'pageSize'>,
  { subject, landscape = false }: { subject: string; landscape?: boolean },
): Sheet {
  const { title, asOf } = estimate.description;
  const date = asOf === undefined ? 'not dated' : dayInWords(asOf);
  return new Sheet({
    pageSize,
    landscape,
    asOf: asOf ?? NO_DAY,
    titleBlock: { title, subject, date, bookRevision: estimate.bookRevision, notice: NOTICE },
  });
}

/** A sheet that begins with issuer, title and what the paper is, the whole breadth wide. */
export function plainSheet(input: PaperInput, { subject }: { subject: string }): Sheet {
  const sheet = sheetFor(input, { subject });
  drawIssuer(sheet, input.issuer);
  drawTitle(sheet, { title: input.estimate.description.title, subject, widthPt: sheet.widthPt });
  sheet.y += 4;
  return sheet;
}

/** The cautions that stand on every output, and what of the typed words could not be printed. */
export function drawNotices(sheet: Sheet, { notices }: Pick<Estimate, 'notices'>): void {
  sheet.heading('Before anything is done');
  sheet.list(notices);
  if (sheet.faces.missing === 0) return;
  sheet.y += 3;
  const signs = counted(sheet.faces.missing, 'character', 'characters');
  sheet.paragraph(`${signs} of what was typed could not be printed and stand as ?.`, { style: STYLES.small });
}
