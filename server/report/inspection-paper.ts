import { factInWords, TELLERS } from '../drawing/fact-words.ts';
import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import type { Description } from '../estimate/description.ts';
import { type PaperInput, plainSheet } from './paper.ts';
import type { Sheet } from './sheet.ts';
import { STYLES } from './sheet.ts';
import { siteFacts } from './site-facts.ts';
import { type Column, drawTable, type Row, tableHeightPt } from './table.ts';
import { counted, sentence, wholeDollars } from './wording.ts';

type Unknown = NonNullable<EstimateOption['unknowns']>[number];

const COLUMNS: readonly Column[] = [
  { head: '', widthPt: 12, set: 'tick' },
  { head: 'To find out', widthPt: 118 },
  { head: 'How', share: 1 },
  { head: 'Narrows price by', widthPt: 44, align: 'right' },
  { head: 'Found', widthPt: 92, set: 'to-fill' },
];
/** Between the table and what is said of the rest, and above the cautions. */
const REST_GAP_PT = 3;
const GAP_PT = 8;
const MANNERS =
  'Look, read, count, measure and ask. A door of a panel may be opened; its cover stays on, and nothing is touched inside.';

/** One page for the buyer: what this description does not know, as a list to tick off during the inspection. */
export async function inspectionPaper(input: PaperInput): Promise<Buffer> {
  const { estimate } = input;
  const sheet = plainSheet(input, { subject: 'To look at during the inspection of the house' });
  sheet.paragraph(`${siteFacts(estimate.description).join(' ')} ${MANNERS}`);
  sheet.y += 6;
  const facts = openFacts(estimate);
  if (facts.length === 0) {
    sheet.paragraph('All that this description asks for is stated: nothing is left to be found out here.');
  }
  const noticesPt = noticesHeightPt(sheet, estimate);
  const shown = fitting(sheet, estimate, { facts, noticesPt });
  const left = facts.length - shown.length;
  if (shown.length > 0) drawTable(sheet, { columns: COLUMNS, rows: rowsOf(shown, estimate) });
  if (left > 0) {
    sheet.y += REST_GAP_PT;
    sheet.paragraph(`${counted(left, 'more fact stands', 'more facts stand')} in the estimate: this page is full.`);
  }
  sheet.y = Math.max(sheet.y, sheet.bottomY - noticesPt);
  sheet.list(estimate.notices, { style: STYLES.small });
  return sheet.finish();
}

/** What any of the options does not know, once each with the most that it swings; most money first. */
function openFacts({ options }: Estimate): Unknown[] {
  const byPath = new Map<string, Unknown>();
  for (const unknown of options.flatMap(({ unknowns = [] }) => unknowns)) {
    const found = byPath.get(unknown.path);
    if (!found || found.swingCents < unknown.swingCents) byPath.set(unknown.path, unknown);
  }
  return [...byPath.values()].sort((a, b) => b.swingCents - a.swingCents);
}

/** The facts in groups by who can tell them, the groups in order of their money. */
function rowsOf(facts: readonly Unknown[], { description }: Estimate): Row[] {
  const tellers = [...new Set(facts.map(({ whoCanTell }) => whoCanTell))];
  return tellers.flatMap((teller): Row[] => [
    { kind: 'group', cells: [`${TELLERS[teller]} can tell`, ''] },
    ...facts
      .filter(({ whoCanTell }) => whoCanTell === teller)
      .map(
        ({ path, swingCents, howToFindOut }): Row => ({
          cells: [
            '',
            `${factInWords(path, description)}${whereItBegins(path, description)}`,
            sentence(howToFindOut),
            swingCents === 0 ? '' : wholeDollars(swingCents),
            '',
          ],
        }),
      ),
  ]);
}

/** The first leg has no drawing beside it here: where it begins must be said. */
function whereItBegins(path: string, { site }: Description): string {
  if (!/^(?:options\.\d+\.)?route\.0\./.test(path)) return '';
  return `, from the ${site.start ? 'subpanel' : 'main panel'}`;
}

/** All facts where they fit beside the cautions on one page, else the weightiest, and what fits between of the others. */
function fitting(
  sheet: Sheet,
  estimate: Estimate,
  { facts, noticesPt }: { facts: readonly Unknown[]; noticesPt: number },
): Unknown[] {
  const roomPt = sheet.bottomY - sheet.y - noticesPt - GAP_PT;
  const fits = (shown: readonly Unknown[], withinPt: number) =>
    tableHeightPt(sheet, { columns: COLUMNS, rows: rowsOf(shown, estimate) }) <= withinPt;
  if (facts.length === 0 || fits(facts, roomPt)) return [...facts];
  const besideRestPt = roomPt - sheet.lineHeightPt(STYLES.text) - REST_GAP_PT;
  const shown: Unknown[] = [];
  for (const fact of facts) if (fits([...shown, fact], besideRestPt)) shown.push(fact);
  return shown;
}

function noticesHeightPt(sheet: Sheet, { notices }: Estimate): number {
  const lines = notices.map((notice) => sheet.wrap(notice, sheet.widthPt - 12, STYLES.small).length);
  return lines.reduce((sum, count) => sum + count * sheet.lineHeightPt(STYLES.small) + 1.5, 0);
}
