import { moneySchedules, optionsSchedules } from './options-schedule.ts';
import { type PaperInput, sheetFor } from './paper.ts';
import { bids, curves, nowAgainstLater } from './passages/compared.ts';
import { drawPassages } from './passages/draw-passage.ts';
import { STYLES } from './sheet.ts';
import { drawIssuer, drawTitle } from './sheet-head.ts';
import { siteFacts } from './site-facts.ts';
import { drawTable } from './table.ts';

/** The options in more detail, lying, on as few pages as they need. */
export async function comparisonPaper(input: PaperInput): Promise<Buffer> {
  const { estimate, issuer } = input;
  const subject = 'The options side by side';
  const sheet = sheetFor(input, { subject, landscape: true });
  drawIssuer(sheet, issuer);
  drawTitle(sheet, { title: estimate.description.title, subject, widthPt: sheet.widthPt });
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
  drawPassages(sheet, [...curves(estimate, sheet.widthPt), ...nowAgainstLater(estimate), ...bids(estimate)]);
  sheet.paragraph(estimate.notices.join(' '), { style: STYLES.small });
  return sheet.finish();
}
