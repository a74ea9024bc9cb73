import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import { drawRangeBar, RANGE_BAR_PT } from './range-bar.ts';
import { INK, type Sheet, STYLES } from './sheet.ts';
import { serviceVerdict, siteFacts } from './site-facts.ts';
import { knownMoney, rangeInWords, wholeDollars } from './wording.ts';

/** Who hands a paper over, as the settings state it. */
export interface Issuer {
  businessName?: string | undefined;
  address?: string | undefined;
  licenceNumber?: string | undefined;
}

const MONEY_PT = 176;
const GAP_PT = 22;

/** The head of a paper about one option: what and where at the left, its money with its range at the right. */
export function drawHead(
  sheet: Sheet,
  { estimate, option, issuer }: { estimate: Estimate; option: EstimateOption; issuer: Issuer | undefined },
): void {
  drawIssuer(sheet, issuer);
  const wordsPt = sheet.widthPt - MONEY_PT - GAP_PT;
  const topY = sheet.y;
  drawTitle(sheet, { title: estimate.description.title, subject: option.label, widthPt: wordsPt });
  sheet.y += 4;
  const verdict = `The service ${serviceVerdict(option, estimate.description)}.`;
  const facts = [...siteFacts(estimate.description), verdict].join(' ');
  sheet.paragraph(facts, { widthPt: wordsPt });
  const leftBottomY = sheet.y;
  sheet.y = topY;
  drawMoney(sheet, option, { x: sheet.rightX - MONEY_PT, widthPt: MONEY_PT });
  const bottomY = Math.max(leftBottomY, sheet.y);
  sheet.artifact(() => {
    const x = sheet.rightX - MONEY_PT - GAP_PT / 2;
    sheet.doc
      .moveTo(x, topY + 2)
      .lineTo(x, bottomY)
      .lineWidth(0.5)
      .strokeColor(INK)
      .stroke();
  });
  sheet.y = bottomY;
}

/** Who hands the paper over, above its head: name, address, licence number, as far as they were stated. */
export function drawIssuer(sheet: Sheet, issuer: Issuer | undefined): void {
  const { businessName, address, licenceNumber } = issuer ?? {};
  const licence = licenceNumber === undefined ? undefined : `license ${licenceNumber}`;
  const words = [address, licence].filter((part) => part !== undefined);
  if (businessName !== undefined) sheet.paragraph(businessName, { style: STYLES['cell-heavy'] });
  if (words.length > 0) sheet.paragraph(words.join(', '), { style: STYLES.cell });
  if (businessName !== undefined || words.length > 0) sheet.y += 8;
}

/** The title in the large size and what it is about below it. */
export function drawTitle(
  sheet: Sheet,
  { title, subject, widthPt }: { title: string; subject: string; widthPt: number },
): void {
  const lines = sheet.wrap(title, widthPt, STYLES.large);
  const topY = sheet.y - 3;
  sheet.tagged('H1', () => {
    sheet.y = sheet.setLines(lines, { x: sheet.leftX, topY, style: STYLES.large });
  });
  sheet.y += 3;
  sheet.paragraph(subject, { style: STYLES.head, widthPt });
}

interface Headline {
  words: string;
  cents: number;
  ifNothingTurnsUpCents?: number;
}

/** The total, or the middle of its range where what nobody knows yet puts nine of ten cases above the total. */
function headlineOf({ complete, totals: { totalCents }, range }: EstimateOption): Headline {
  if (!complete) return { words: 'Likely total, incomplete', cents: totalCents };
  if (!range || range.likelyCents >= range.p10Cents) return { words: 'Likely total', cents: totalCents };
  return { words: 'Middle of the range', cents: range.p50Cents, ifNothingTurnsUpCents: totalCents };
}

function drawMoney(sheet: Sheet, option: EstimateOption, { x, widthPt }: { x: number; widthPt: number }): void {
  const { complete, totals, range } = option;
  const { words: what, cents, ifNothingTurnsUpCents } = headlineOf(option);
  sheet.paragraph(what, { style: STYLES.small, x, widthPt });
  sheet.y -= 2;
  sheet.paragraph(knownMoney({ amountCents: cents, complete }), { style: STYLES.large, x, widthPt });
  if (range && complete) {
    const barY = sheet.y + 2;
    sheet.artifact(() => drawRangeBar(sheet, { range, totalCents: totals.totalCents, x, y: barY, widthPt }));
    sheet.y += RANGE_BAR_PT;
  }
  const words = complete ? `${rangeInWords(option)}.` : 'Prices are missing: the work will cost more.';
  sheet.paragraph(words, { style: STYLES.cell, x, widthPt });
  if (ifNothingTurnsUpCents !== undefined) {
    const alone = `${wholeDollars(ifNothingTurnsUpCents)} if nothing turns up.`;
    sheet.paragraph(alone, { style: STYLES.cell, x, widthPt });
  }
  if (totals.incentiveCents > 0) {
    sheet.paragraph(`${wholeDollars(totals.netCents)} net after incentives.`, { style: STYLES.cell, x, widthPt });
  }
  if (!option.buildable) {
    sheet.paragraph('Cannot be built as stated: see what stops it, below.', {
      style: STYLES['cell-heavy'],
      x,
      widthPt,
    });
  }
}
