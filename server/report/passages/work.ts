import type { EstimateOption } from '../../estimate/answer.ts';
import { scheduleTable, VISITS } from '../run-tables.ts';
import { amountInWords, capital, counted, legNumbers, number, workInWords } from '../wording.ts';
import type { Passage } from './passage.ts';

/** Tasks with their hours: quantity × hours a unit × factor. What each is called stands in the line of its work. */
export function tasks(option: EstimateOption): Passage[] {
  const { labor, lines } = option;
  if (labor.tasks.length === 0) return [];
  const named = new Map(lines.map(({ key, description }) => [key, description]));
  return [
    {
      title: 'Work by task',
      sentences: [`${capital(workInWords(option))}. Hours are of one person: quantity × hours a unit × factor.`],
      columns: [
        { head: 'Task', share: 0.9 },
        { head: 'Legs', widthPt: 30 },
        { head: 'Quantity', widthPt: 64, align: 'right' },
        { head: 'h a unit', widthPt: 34, align: 'right' },
        { head: 'Factor', widthPt: 34, align: 'right' },
        { head: 'Hours', widthPt: 34, align: 'right' },
        { head: 'Why', share: 1.2, set: 'small' },
      ],
      rows: [
        ...labor.tasks.map(({ key, quantity, unit, hoursPerUnit, factor, hours, legs, because }) => ({
          cells: [
            capital(named.get(key) ?? key),
            legNumbers(legs),
            amountInWords({ quantity, unit }, 2),
            number(hoursPerUnit, 4),
            number(factor, 3),
            number(hours, 2),
            because.join('; '),
          ],
        })),
        { kind: 'sum' as const, cells: ['All of it', '', '', '', '', number(labor.hours, 2), ''] },
      ],
    },
  ];
}

function visitsInWords({ labor: { visits } }: EstimateOption): string[] {
  if (visits.length === 0) return [];
  const each = visits.map(
    ({ why, days, because }) => `${VISITS[why]}, ${counted(days, 'day')} (${because.join('; ')})`,
  );
  return [`Who comes: ${each.join('; ')}.`];
}

/** Steps in their order with the days of work and of waiting, and who comes by when. */
export function daysAndVisits(option: EstimateOption): Passage[] {
  if (option.schedule.length === 0 && option.labor.visits.length === 0) return [];
  return [{ title: 'Days and visits', sentences: visitsInWords(option), ...scheduleTable(option) }];
}
