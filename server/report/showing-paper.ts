import type { Drawing } from '../drawing/drawing.ts';
import { emptyRacewaysOf } from '../drawing/empty-raceways.ts';
import { planViewDrawing } from '../drawing/plan-view.ts';
import { sectionDrawing } from '../drawing/section.ts';
import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import { routeOf } from '../estimate/description.ts';
import { type PaperInput, sheetFor } from './paper.ts';
import { drawRangeBar, RANGE_BAR_PT } from './range-bar.ts';
import { FAINT, type Sheet, STYLES, type Style } from './sheet.ts';
import { drawIssuer, drawTitle } from './sheet-head.ts';
import { elementOf } from './tags.ts';
import { counted, knownMoney, number, wholeDollars } from './wording.ts';

/** Options that have room beside each other in large figures. */
const MOST_OPTIONS = 4;
const GAP_PT = 16;
const MONEY: Style = { face: 'narrow-heavy', sizePt: 18 };
/** Read at arm's length by two who stand over the sheet. */
const WORDS: Style = { face: 'narrow', sizePt: 11 };

/**
 * One sheet to show somebody what the job is: the way from the panel to the car in section and from above, over the whole
 * breadth; under it what each way of feeding the car costs and gives. The cautions stand at its foot.
 */
export async function showingPaper(input: PaperInput): Promise<Buffer> {
  const { estimate, option, issuer } = input;
  const sheet = sheetFor(input, { subject: `What the job is: ${option.label}`, landscape: true });
  drawIssuer(sheet, issuer);
  drawTitle(sheet, { title: estimate.description.title, subject: option.label, widthPt: sheet.widthPt });
  sheet.y += 4;
  const shown = optionsToShow(estimate, option);
  const columns = shown.map((one) => columnOf(estimate, one, option));
  const notices = estimate.notices.join(' ');
  const more = estimate.options.length - shown.length;
  const left = more > 0 ? `${counted(more, 'more option', 'more options')} stand in the comparison.` : '';
  const footPt = heightOf(sheet, notices, STYLES.small) + (left ? heightOf(sheet, left, STYLES.small) + 2 : 0);
  const roomPt = sheet.bottomY - sheet.y - columnsHeightPt(sheet, columns) - footPt - 14;
  for (const drawing of drawingsWithin(input, sheet.widthPt, roomPt)) {
    sheet.drawing(drawing);
    sheet.y += 2;
  }
  drawColumns(sheet, columns);
  if (left) sheet.paragraph(left, { style: STYLES.small });
  sheet.y = Math.max(sheet.y + 4, sheet.bottomY - heightOf(sheet, notices, STYLES.small) - 2);
  sheet.paragraph(notices, { style: STYLES.small });
  return sheet.finish();
}

/** The option that is shown first, then those that cost least, as many as there is room for. */
function optionsToShow({ options }: Estimate, chosen: EstimateOption): EstimateOption[] {
  const others = options.filter(({ id }) => id !== chosen.id);
  const sound = others.filter(({ buildable, complete }) => buildable && complete);
  const ranked = [...sound, ...others.filter((one) => !sound.includes(one))];
  const kept = new Set([chosen, ...ranked.slice(0, MOST_OPTIONS - 1)]);
  return options.filter((one) => kept.has(one));
}

/** How much smaller drawings may become where a route is long or has many legs, and whether it is also shown from above. */
const FITTINGS = [
  { times: 1, fromAbove: true },
  { times: 1.15, fromAbove: true },
  { times: 1.3, fromAbove: true },
  { times: 1.3, fromAbove: false },
  { times: 1.6, fromAbove: false },
  { times: 2.2, fromAbove: false },
] as const;

/** Section and plan view as large as the sheet has room for; the section alone where both would be too small. */
function drawingsWithin(input: PaperInput, widthPt: number, roomPt: number): Drawing[] {
  let drawings: Drawing[] = [];
  for (const { times, fromAbove } of FITTINGS) {
    drawings = drawingsOf(input, { widthPt: widthPt * times, fromAbove });
    const heightPt = drawings.reduce((sum, drawing) => sum + drawing.heightPt / times + 2, 0);
    if (heightPt <= roomPt) break;
  }
  return drawings;
}

function drawingsOf(
  { estimate, option, stated }: PaperInput,
  { widthPt, fromAbove }: { widthPt: number; fromAbove: boolean },
): Drawing[] {
  const { description } = estimate;
  const route = routeOf(description, stated);
  const { building } = description.site;
  const section = sectionDrawing({
    title: `Section along the route: ${option.label}`,
    option,
    route,
    building,
    mount: stated.chargers[0]?.mount ?? 'wall',
    emptyRaceways: emptyRacewaysOf(stated),
    isWithoutMoney: true,
    widthPt,
  });
  const isSeen = fromAbove && route.length > 0 && option.runs.length > 0; // a way that is there is not opened
  return [
    section,
    ...(isSeen ? [planViewDrawing({ title: `The route of ${option.label}`, route, building, widthPt })] : []),
  ];
}

/** What is said of an option, in a few words. */
interface Column {
  option: EstimateOption;
  money: string;
  lines: string[];
}

function columnOf(estimate: Estimate, option: EstimateOption, drawn: EstimateOption): Column {
  const { range, complete, totals, buildable } = option;
  const overnight = estimate.comparison.rows.find((row) => row.option === option.id)?.overnight;
  const money =
    range && complete
      ? `${wholeDollars(range.p10Cents)} to ${wholeDollars(range.p90Cents)}`
      : knownMoney({ amountCents: totals.totalCents, complete });
  const together = option.charging?.together;
  return {
    option,
    money,
    lines: [
      ...(buildable ? [] : ['Cannot be built as stated.']),
      ...(complete ? [] : ['Prices are missing: it will cost more.']),
      ...(range && complete ? [`Half of the time below ${wholeDollars(range.p50Cents)}`] : []),
      together
        ? `${number(together.kW, 1)} kW: ${number(together.milesPerHour, 0)} miles of range an hour`
        : 'No charger yet',
      ...(overnight ? [`${number(overnight.miles, 0)} miles in a night of ${number(overnight.hours, 1)} h`] : []),
      ...(together?.coversDailyMiles === false ? ['Not enough for the miles of every day'] : []),
      `${counted(option.labor.workingDays, 'day')} of work`,
      ...(option.id === drawn.id && estimate.options.length > 1 ? ['This way is drawn above.'] : []),
    ],
  };
}

const columnWidthPt = (sheet: Sheet, count: number) => (sheet.widthPt - GAP_PT * (count - 1)) / count;

function heightOf(sheet: Sheet, words: string, style: Style, widthPt = sheet.widthPt): number {
  return sheet.wrap(words, widthPt, style).length * sheet.lineHeightPt(style);
}

function columnHeightPt(sheet: Sheet, { option, money, lines }: Column, widthPt: number): number {
  const words = lines.reduce((sum, text) => sum + heightOf(sheet, text, WORDS, widthPt), 0);
  return (
    heightOf(sheet, option.label, STYLES.head, widthPt) + heightOf(sheet, money, MONEY, widthPt) + RANGE_BAR_PT + words
  );
}

function columnsHeightPt(sheet: Sheet, columns: readonly Column[]): number {
  const widthPt = columnWidthPt(sheet, columns.length);
  return 12 + Math.max(0, ...columns.map((column) => columnHeightPt(sheet, column, widthPt)));
}

/** The options beside each other below a rule, each read from top to bottom. */
function drawColumns(sheet: Sheet, columns: readonly Column[]): void {
  const widthPt = columnWidthPt(sheet, columns.length);
  sheet.y += 4;
  sheet.rule(sheet.y, { weightPt: 1 });
  const topY = sheet.y + 4;
  const heightPt = columnsHeightPt(sheet, columns) - 12;
  const scale = scaleOf(columns);
  columns.forEach((column, at) => {
    const x = sheet.leftX + at * (widthPt + GAP_PT);
    if (at > 0) {
      const ruleX = x - GAP_PT / 2;
      sheet.artifact(() =>
        sheet.doc
          .moveTo(ruleX, topY)
          .lineTo(ruleX, topY + heightPt)
          .lineWidth(0.5)
          .strokeColor(FAINT)
          .stroke(),
      );
    }
    sheet.y = topY;
    drawColumn(sheet, column, { x, widthPt, scale });
  });
  sheet.y = topY + heightPt + 4;
}

interface MoneyScale {
  fromCents: number;
  toCents: number;
}

/** One scale for the bars of all columns, so that they can be compared by eye. */
function scaleOf(columns: readonly Column[]): MoneyScale {
  const all = columns.flatMap(({ option: { range, totals, complete } }) =>
    range && complete ? [range.p10Cents, range.p90Cents, totals.totalCents] : [],
  );
  return { fromCents: Math.min(...all), toCents: Math.max(...all) };
}

interface ColumnAt {
  x: number;
  widthPt: number;
  scale: MoneyScale;
}

function drawColumn(sheet: Sheet, { option, money, lines }: Column, { x, widthPt, scale }: ColumnAt): void {
  const parent = elementOf(sheet.doc, 'Sect');
  sheet.root.add(parent);
  const put = (words: string, style: Style) => sheet.paragraph(words, { style, x, widthPt, parent });
  put(option.label, STYLES.head);
  put(money, MONEY);
  drawBar(sheet, option, { x, widthPt, scale });
  sheet.y += RANGE_BAR_PT;
  for (const words of lines) put(words, WORDS);
  parent.end();
}

/** The bar of a range where its money lies on the scale of all; what the bar says stands in words above and below it. */
function drawBar(sheet: Sheet, { range, complete, totals }: EstimateOption, { x, widthPt, scale }: ColumnAt): void {
  if (!range || !complete) return;
  const ends = [range.p10Cents, range.p90Cents, totals.totalCents];
  const ptPerCent = (widthPt - BAR_ENDS_PT) / Math.max(1, scale.toCents - scale.fromCents);
  const [leastCents, mostCents] = [Math.min(...ends), Math.max(...ends)];
  const bar = {
    range,
    totalCents: totals.totalCents,
    x: x + (leastCents - scale.fromCents) * ptPerCent,
    y: sheet.y,
    widthPt: (mostCents - leastCents) * ptPerCent + BAR_ENDS_PT,
  };
  sheet.artifact(() => drawRangeBar(sheet, bar));
}

/** What a bar takes beside its ends, in points. */
const BAR_ENDS_PT = 6;
