import { factsNamed } from '../../drawing/fact-words.ts';
import type { EstimateOption } from '../../estimate/answer.ts';
import type { Description } from '../../estimate/description.ts';
import { dayInWords, exactDollars, number, sentence, wholeDollars } from '../wording.ts';
import type { Passage } from './passage.ts';

/** What a buyer carries into the purchase of the house: the sums, what they are a month, how far to trust them. */
export function purchaseBudget(option: EstimateOption, description: Description): Passage[] {
  const { budget, unknowns = [] } = option;
  const { purchase } = description;
  if (!budget || !purchase) return [];
  const { annualRateBp, years } = purchase.loan;
  const closing = purchase.closing === undefined ? '' : ` Closing is on ${dayInWords(purchase.closing)}.`;
  return [
    {
      title: 'To carry into the purchase',
      sentences: [
        `In the loan at ${number(annualRateBp / 100, 3)} % a year over ${number(years)} years.${closing}`,
        `Confidence is ${budget.confidence}. ${budget.because.map((words) => sentence(named(words.replace(LEVEL, ''), unknowns, description))).join(' ')}`,
      ],
      columns: [
        { head: '', share: 1 },
        { head: 'At once', widthPt: 90, align: 'right' },
        { head: 'A month in the loan, $', widthPt: 110, align: 'right' },
      ],
      rows: [
        {
          cells: [
            'Likely: half of all cases cost less',
            wholeDollars(budget.likelyCents),
            exactDollars(budget.monthlyCents),
          ],
        },
        {
          cells: [
            'To plan for: nine of ten cost less',
            wholeDollars(budget.planForCents),
            exactDollars(budget.monthlyPlanForCents),
          ],
        },
      ],
      list: [`Interest on the likely sum comes to ${wholeDollars(budget.totalInterestCents)} over all years.`],
    },
    ...askSeller(budget.askSeller),
  ];
}

/** The level that a reason begins with is said before it already. */
const LEVEL = /^(?:low|medium|high): /i;
const ISO_DAY = /\b\d{4}-\d{2}-\d{2}\b/g;

/** Paths of the description give way to what they are called, days to words. */
function named(words: string, unknowns: readonly { path: string }[], description: Description): string {
  const paths = unknowns.map(({ path }) => path);
  return factsNamed(words.replace(ISO_DAY, dayInWords), paths, description);
}

function askSeller(questions: readonly string[] | undefined): Passage[] {
  return questions && questions.length > 0 ? [{ title: 'To ask of the seller', list: questions }] : [];
}
