import { drawFindings } from './checks.ts';
import { drawRouteSection } from './estimate-paper.ts';
import { drawNotices, type PaperInput, plainSheet } from './paper.ts';
import { drawPassages } from './passages/draw-passage.ts';
import { devices, grounding, terminations } from './passages/plan-proof.ts';
import { serviceCheck } from './passages/service-check.ts';
import { runTable, wireTable } from './run-tables.ts';
import { siteFacts } from './site-facts.ts';
import { drawTable } from './table.ts';

/**
 * What an application for a permit is written from: the site, the load of the service, each run with its device and
 * conductors, electrodes, and what was checked by which article. Without money. The office has forms of its own.
 */
export async function permitPaper(input: PaperInput): Promise<Buffer> {
  const { estimate, option } = input;
  const { description } = estimate;
  const sheet = plainSheet(input, { subject: `For the permit: ${option.label}` });
  sheet.paragraph(
    `${siteFacts(description).join(' ')} The plan was made by a program from what was stated: whoever applies checks it and answers for it.`,
  );
  drawRouteSection(sheet, input, { isWithoutMoney: true });
  const [load] = serviceCheck(option, description);
  drawPassages(sheet, load ? [load] : []);
  if (option.runs.length > 0) {
    sheet.heading('Runs', { keepPt: 60 });
    drawTable(sheet, { ...runTable(option), rowHeads: true });
  }
  drawPassages(sheet, devices(option));
  if (option.runs.some(({ wire }) => wire.length > 0)) {
    sheet.heading('Wire list', { keepPt: 60 });
    drawTable(sheet, { ...wireTable(option), rowHeads: true });
  }
  drawPassages(sheet, [...terminations(option), ...grounding(option)]);
  sheet.heading('Checks');
  drawFindings(sheet, { ...option, findings: option.findings.filter(({ rule }) => rule !== 'later') });
  drawNotices(sheet, estimate);
  return sheet.finish();
}
