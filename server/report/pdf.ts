import { sectionDrawing } from '../drawing/section.ts';
import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import type { DescriptionOption } from '../estimate/description.ts';
import { drawFindings } from './checks.ts';
import { ITEM_COLUMNS, itemRows, TOTAL_COLUMNS, totalRows, whatMovesIt } from './itemized.ts';
import { notIncluded } from './not-included.ts';
import { moneySchedules, optionsSchedules } from './options-schedule.ts';
import { runTable, scheduleTable, wireTable } from './run-tables.ts';
import { type PageSize, Sheet, STYLES } from './sheet.ts';
import { drawHead, drawIssuer, drawTitle, type Issuer } from './sheet-head.ts';
import { siteFacts } from './site-facts.ts';
import { drawTable, tableHeightPt } from './table.ts';
import { counted, dayInWords } from './wording.ts';

/** The papers that an estimate can be printed as. */
export const PAPERS = ['estimate', 'comparison'] as const;
export type Paper = (typeof PAPERS)[number];

/** Which option is itemized, on which paper. */
export interface PdfChoice {
  estimate: Estimate;
  /** Not stated: the cheapest that can be built, else the first. */
  optionId?: string;
  pageSize?: PageSize;
  paper?: Paper;
  /** Who hands it over; not stated: the paper names nobody. */
  issuer?: Issuer;
}

/** No option has the id that was asked for. */
export class UnknownOptionError extends Error {
  override name = 'UnknownOptionError';
}

/**
 * An estimate as a tagged PDF. The same estimate gives the same bytes: its date of creation is the estimate's own.
 * @throws {UnknownOptionError} with the ids that there are
 */
export async function estimatePdf({
  estimate,
  optionId,
  pageSize = 'letter',
  paper = 'estimate',
  issuer,
}: PdfChoice): Promise<Buffer> {
  const id = optionId ?? estimate.comparison.cheapest ?? estimate.options[0]?.id;
  const option = estimate.options.find((one) => one.id === id);
  const stated = estimate.description.options.find((one) => one.id === id);
  if (!option || !stated) {
    const ids = estimate.options.map((one) => one.id).join(', ');
    throw new UnknownOptionError(`option must be one of ${ids}, not ${JSON.stringify(id)}`);
  }
  return paper === 'comparison'
    ? comparisonPaper({ estimate, pageSize, issuer })
    : estimatePaper({ estimate, option, stated, pageSize, issuer });
}

const NOTICE =
  'Not a permit, not a design by a licensed person, not an approval. The local code and the authority having jurisdiction (AHJ) decide.';
/** Stands for the date where an estimate has none: it was then not made at the edge that fills it in. */
const NO_DAY = '1970-01-01';

function sheetFor(
  estimate: Estimate,
  { subject, pageSize, landscape }: { subject: string; pageSize: PageSize; landscape: boolean },
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

interface Itemized {
  estimate: Estimate;
  option: EstimateOption;
  stated: DescriptionOption;
  pageSize: PageSize;
  issuer: Issuer | undefined;
}

async function estimatePaper({ estimate, option, stated, pageSize, issuer }: Itemized): Promise<Buffer> {
  const sheet = sheetFor(estimate, { subject: `Estimate: ${option.label}`, pageSize, landscape: false });
  drawHead(sheet, { estimate, option, issuer });
  drawSection(sheet, { estimate, option, stated });
  drawOptions(sheet, estimate, option);
  drawWork(sheet, option);
  drawElectrical(sheet, option);
  sheet.heading('Checks');
  drawFindings(sheet, option);
  sheet.heading('Not included');
  sheet.list(notIncluded({ description: estimate.description, stated, option }));
  drawNotices(sheet, estimate);
  return sheet.finish();
}

function drawSection(sheet: Sheet, { estimate, option, stated }: Omit<Itemized, 'pageSize' | 'issuer'>): void {
  const { description } = estimate;
  const drawing = sectionDrawing({
    title: `Section along the route: ${option.label}`,
    option,
    route: stated.route ?? description.route,
    building: description.site.building,
    mount: stated.chargers[0]?.mount ?? 'wall',
    widthPt: sheet.widthPt,
  });
  sheet.heading('Section along the route', { keepPt: drawing.heightPt + 6 });
  sheet.drawing(drawing);
}

function drawOptions(sheet: Sheet, estimate: Estimate, option: EstimateOption): void {
  const { options } = estimate;
  sheet.heading(options.length > 1 ? 'The options side by side' : 'The option at a glance');
  for (const schedule of optionsSchedules(estimate, { itemized: option.id })) {
    drawTable(sheet, { ...schedule, rowHeads: true });
    sheet.y += 6;
  }
}

function drawWork(sheet: Sheet, option: EstimateOption): void {
  sheet.heading(`Materials and labor: ${option.label}`, { keepPt: 80 });
  drawTable(sheet, { columns: ITEM_COLUMNS, rows: itemRows(option), rowHeads: true });
  drawSum(sheet, option);
}

/** The way to the total at the right, under the amounts; what moves it at the left. */
function drawSum(sheet: Sheet, option: EstimateOption): void {
  const middleX = sheet.leftX + sheet.widthPt * 0.5;
  const sums = { columns: TOTAL_COLUMNS, rows: totalRows(option), rowHeads: true, fromX: middleX + 12 };
  sheet.heading('What it adds up to, and what moves it', { keepPt: tableHeightPt(sheet, sums) + 10 });
  const topY = sheet.y;
  for (const sentence of whatMovesIt(option)) {
    sheet.paragraph(sentence, { widthPt: middleX - sheet.leftX - 12 });
    sheet.y += 3;
  }
  const leftBottomY = sheet.y;
  sheet.y = topY;
  drawTable(sheet, sums);
  sheet.y = Math.max(sheet.y, leftBottomY);
}

function drawElectrical(sheet: Sheet, option: EstimateOption): void {
  if (option.runs.length > 0) {
    sheet.heading('Runs', { keepPt: 60 });
    drawTable(sheet, { ...runTable(option), rowHeads: true });
    sheet.heading('Wire list', { keepPt: 60 });
    drawTable(sheet, { ...wireTable(option), rowHeads: true });
  }
  if (option.schedule.length === 0 && option.labor.visits.length === 0) return;
  sheet.heading('Days and visits', { keepPt: 60 });
  drawTable(sheet, { ...scheduleTable(option), rowHeads: true });
}

function drawNotices(sheet: Sheet, { notices }: Estimate): void {
  sheet.heading('Before anything is done');
  sheet.list(notices);
  if (sheet.faces.missing === 0) return;
  sheet.y += 3;
  const signs = counted(sheet.faces.missing, 'character', 'characters');
  sheet.paragraph(`${signs} of what was typed could not be printed and stand as ?.`, { style: STYLES.small });
}

/** The options in more detail, lying, on as few pages as they need. */
async function comparisonPaper({ estimate, pageSize, issuer }: Omit<Itemized, 'option' | 'stated'>): Promise<Buffer> {
  const sheet = sheetFor(estimate, { subject: 'The options side by side', pageSize, landscape: true });
  drawIssuer(sheet, issuer);
  drawTitle(sheet, { title: estimate.description.title, subject: 'The options side by side', widthPt: sheet.widthPt });
  sheet.y += 2;
  sheet.paragraph(siteFacts(estimate.description).join(' '));
  sheet.y += 8;
  const most = { mostSideBySide: 6 };
  for (const schedule of [
    ...optionsSchedules(estimate, { detailed: true, ...most }),
    ...moneySchedules(estimate, most),
  ]) {
    drawTable(sheet, { ...schedule, rowHeads: true });
    sheet.y += 8;
  }
  return sheet.finish();
}
