import type { EstimateOption } from '../../estimate/answer.ts';
import type { Leg } from '../../estimate/description/leg.ts';
import { legCosts } from '../../estimate/leg-costs.ts';
import { capital, exactDollars, feet, knownMoney, LEG_WORDS, unitPrice } from '../wording.ts';
import type { Passage } from './passage.ts';

/** The skyline in figures: what each leg costs, and by the foot. */
export function costByLeg(option: EstimateOption, route: readonly Leg[]): Passage[] {
  const costs = legCosts(option, route);
  if (costs.legs.length === 0) return [];
  const whole = { amountCents: costs.wholeJobCents, complete: costs.wholeJobComplete };
  const sum = exactDollars(option.totals.costCents);
  return [
    {
      title: 'What each leg costs',
      sentences: ['Before markup, overhead, profit and tax; a line of several legs is shared by their lengths.'],
      columns: [
        { head: 'Leg', share: 1 },
        { head: 'Length', widthPt: 54, align: 'right' },
        { head: 'Cost, $', widthPt: 70, align: 'right' },
        { head: 'A foot, $', widthPt: 60, align: 'right' },
      ],
      rows: [
        ...costs.legs.map(({ leg, lengthFt, amountCents, complete }) => {
          const stated = route[leg];
          const known = amountOf({ amountCents, complete });
          return {
            cells: [
              `${leg + 1}  ${capital(stated ? LEG_WORDS[stated.kind] : '')}`,
              feet(lengthFt),
              known,
              complete ? unitPrice(Math.round(amountCents / lengthFt)) : '',
            ],
          };
        }),
        { cells: ['Both ends and the whole job', '', amountOf(whole), ''] },
        {
          kind: 'sum' as const,
          cells: [option.complete ? 'Cost of the work' : 'Cost of the work, without what has no price', '', sum, ''],
        },
      ],
    },
  ];
}

function amountOf(known: { amountCents: number; complete: boolean }): string {
  return known.complete ? exactDollars(known.amountCents) : knownMoney(known);
}
