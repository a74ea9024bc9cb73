import type { EstimateOption } from '../../estimate/answer.ts';
import { capital, moreOrLess, number, sentence, wholeDollars } from '../wording.ts';
import type { Passage } from './passage.ts';

/** Where a little less or more charging, or another feeder, changes the price. */
export function steps({ steps: found = [] }: EstimateOption): Passage[] {
  if (found.length === 0) return [];
  return [
    {
      title: 'Where a little less or more changes the price',
      columns: [
        { head: 'Set to', widthPt: 88 },
        { head: 'The total', widthPt: 70, align: 'right' },
        { head: 'Why', share: 1 },
      ],
      rows: found.map(({ amps, of, differenceCents, because }) => ({
        cells: [`${capital(of)}, ${number(amps)} A`, moreOrLess(differenceCents), sentence(because)],
      })),
    },
  ];
}

/** What finishing, or using what is only laid now, costs later: not part of the total. */
export function later({ later: found }: EstimateOption): Passage[] {
  if (!found) return [];
  return [
    {
      title: `Later: ${wholeDollars(found.cents)}, not in the total`,
      sentences: [found.because],
    },
  ];
}
