import { emptyRacewaysOf } from '../drawing/empty-raceways.ts';
import { sectionDrawing } from '../drawing/section.ts';
import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import { drawFindings } from './checks.ts';
import { ITEM_COLUMNS, itemRows, TOTAL_COLUMNS, totalRows, whatIsMissing } from './itemized.ts';
import { notIncluded } from './not-included.ts';
import { optionsSchedules } from './options-schedule.ts';
import { drawNotices, type PaperInput, sheetFor } from './paper.ts';
import { drawPassages } from './passages/draw-passage.ts';
import { type Answered, decisionPassages, planPassages, workPassages } from './passages/option-passages.ts';
import { runTable, wireTable } from './run-tables.ts';
import type { Sheet } from './sheet.ts';
import { drawHead } from './sheet-head.ts';
import { drawTable, tableHeightPt } from './table.ts';

/** One option in full, with the others beside it: what it costs, what it is built of, why, by whom and when. */
export async function estimatePaper(input: PaperInput): Promise<Buffer> {
  const { estimate, option, stated, issuer } = input;
  const sheet = sheetFor(input, { subject: `Estimate: ${option.label}` });
  drawHead(sheet, { estimate, option, issuer });
  drawRouteSection(sheet, input);
  drawOptions(sheet, estimate, option);
  sheet.heading('Checks');
  drawFindings(sheet, option);
  drawPassages(sheet, decisionPassages(input, sheet.widthPt));
  drawWork(sheet, option);
  drawElectrical(sheet, option);
  drawPassages(sheet, [...planPassages(input), ...workPassages(input)]);
  sheet.heading('Not included');
  sheet.list(notIncluded({ description: estimate.description, stated, option }));
  drawNotices(sheet, estimate);
  return sheet.finish();
}

/** The section along the route, with its heading. */
export function drawRouteSection(
  sheet: Sheet,
  { estimate, option, stated }: Answered,
  { isWithoutMoney = false } = {},
): void {
  const { description } = estimate;
  const drawing = sectionDrawing({
    title: `Section along the route: ${option.label}`,
    option,
    route: stated.route ?? description.route,
    building: description.site.building,
    mount: stated.chargers[0]?.mount ?? 'wall',
    emptyRaceways: emptyRacewaysOf(stated),
    isWithoutMoney,
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

/** The way to the total at the right, under the amounts; what is missing of it at the left. */
function drawSum(sheet: Sheet, option: EstimateOption): void {
  const middleX = sheet.leftX + sheet.widthPt * 0.5;
  const sums = { columns: TOTAL_COLUMNS, rows: totalRows(option), rowHeads: true, fromX: middleX + 12 };
  sheet.heading('What it adds up to', { keepPt: tableHeightPt(sheet, sums) + 10 });
  const topY = sheet.y;
  for (const sentence of whatIsMissing(option)) {
    sheet.paragraph(sentence, { widthPt: middleX - sheet.leftX - 12 });
    sheet.y += 3;
  }
  const leftBottomY = sheet.y;
  sheet.y = topY;
  drawTable(sheet, sums);
  sheet.y = Math.max(sheet.y, leftBottomY);
}

function drawElectrical(sheet: Sheet, option: EstimateOption): void {
  if (option.runs.length === 0) return;
  sheet.heading('Runs', { keepPt: 60 });
  drawTable(sheet, { ...runTable(option), rowHeads: true });
  sheet.heading('Wire list', { keepPt: 60 });
  drawTable(sheet, { ...wireTable(option), rowHeads: true });
}
