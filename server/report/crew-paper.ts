import { crewDays, headsOf } from './crew-days.ts';
import { drawRouteSection } from './estimate-paper.ts';
import { drawNotices, type PaperInput, plainSheet } from './paper.ts';
import { drawPassages } from './passages/draw-passage.ts';
import { terminations } from './passages/plan-proof.ts';
import { daysAndVisits } from './passages/work.ts';
import { wireTable } from './run-tables.ts';
import type { Sheet } from './sheet.ts';
import { type Column, drawTable, type Row } from './table.ts';
import { capital, counted, legNumbers, number, taskInPlace } from './wording.ts';

const COLUMNS: readonly Column[] = [
  { head: '', widthPt: 12, set: 'tick' },
  { head: 'Task', share: 1 },
  { head: 'Legs', widthPt: 44 },
  { head: 'Quantity', widthPt: 70, align: 'right' },
  { head: 'Hours', widthPt: 44, align: 'right' },
];

/** For the crew: the work by day, what is cut, what is landed where, who comes to look. */
export async function crewPaper(input: PaperInput): Promise<Buffer> {
  const { estimate, option } = input;
  const sheet = plainSheet(input, { subject: `Work of the crew: ${option.label}` });
  drawRouteSection(sheet, input, { isWithoutMoney: true });
  drawDays(sheet, input);
  drawPassages(sheet, daysAndVisits(option));
  if (option.runs.some(({ wire }) => wire.length > 0)) {
    sheet.heading('To cut', { keepPt: 60 });
    drawTable(sheet, { ...wireTable(option), rowHeads: true });
  }
  drawPassages(sheet, terminations(option));
  drawNotices(sheet, estimate);
  return sheet.finish();
}

function drawDays(sheet: Sheet, { estimate, option }: PaperInput): void {
  const { terms } = estimate.description;
  const days = crewDays(option, terms);
  if (days.length === 0) return;
  sheet.heading('Work by day', { keepPt: 70 });
  sheet.paragraph(
    `${counted(headsOf(terms), 'person', 'people')}, ${number(terms.hoursPerDay, 1)} h a day. A proposal, in the order of the work: inspections and hardening concrete may part the days.`,
  );
  sheet.y += 3;
  const rows = days.flatMap((tasks, nth): Row[] => [
    {
      kind: 'group',
      cells: [
        `Day ${nth + 1}`,
        number(
          tasks.reduce((sum, { hours }) => sum + hours, 0),
          1,
        ),
      ],
    },
    ...tasks.map(
      ({ words, legs, quantity, inPlace, unit, hours, goesOn }): Row => ({
        cells: [
          '',
          `${capital(words)}${goesOn ? ', goes on' : ''}`,
          legNumbers(legs),
          goesOn ? '' : taskInPlace({ quantity, inPlace, unit }),
          number(hours, 1),
        ],
      }),
    ),
  ]);
  drawTable(sheet, { columns: COLUMNS, rows });
}
