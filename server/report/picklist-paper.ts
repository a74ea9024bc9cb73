import type { EstimateOption, Line } from '../estimate/answer.ts';
import { packageInWords, scopeGroups } from './itemized.ts';
import { drawNotices, type PaperInput, plainSheet } from './paper.ts';
import type { Sheet } from './sheet.ts';
import { type Column, drawTable, type Row } from './table.ts';
import { capital, legNumbers, number, SCOPE_WORDS } from './wording.ts';

const COLUMNS: readonly Column[] = [
  { head: '', widthPt: 12, set: 'tick' },
  { head: 'Item', share: 1 },
  { head: 'Take', widthPt: 40, align: 'right' },
  { head: '', widthPt: 52, set: 'small' },
  { head: 'Package', widthPt: 100 },
  { head: 'Legs', widthPt: 44 },
];

/** For the shop: what to take, in the packages that are sold; then what to rent. Without prices. */
export async function picklistPaper(input: PaperInput): Promise<Buffer> {
  const { estimate, option } = input;
  const sheet = plainSheet(input, { subject: `Shopping list: ${option.label}` });
  sheet.paragraph(
    'Whole packages as the price book sells them; what is left over of them is said. Lengths carry waste and the slack at both ends.',
  );
  if (!option.buildable) {
    sheet.paragraph('This option cannot be built as stated: buy nothing for it before that is mended.');
  }
  drawPart(sheet, { title: 'To buy', option, lineClass: 'material' });
  drawPart(sheet, { title: 'To rent, or to have brought', option, lineClass: 'equipment' });
  drawNotices(sheet, estimate);
  return sheet.finish();
}

interface Part {
  title: string;
  option: EstimateOption;
  lineClass: Line['class'];
}

function drawPart(sheet: Sheet, { title, option, lineClass }: Part): void {
  const lines = option.lines.filter((line) => line.class === lineClass && line.scope !== 'travel');
  if (lines.length === 0) return;
  const rows = scopeGroups({ ...option, lines }).flatMap(({ scope, lines: here }): Row[] => [
    { kind: 'group', cells: [SCOPE_WORDS[scope], ''] },
    ...here.map(rowOf),
  ]);
  sheet.heading(title, { keepPt: 60 });
  drawTable(sheet, { columns: COLUMNS, rows });
}

function rowOf(line: Line): Row {
  const { description, quantity, unit, legs, priced } = line;
  const missing = priced ? '' : ' (not in the price book)';
  return {
    cells: ['', `${capital(description)}${missing}`, number(quantity, 2), unit, packageInWords(line), legNumbers(legs)],
  };
}
