import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import { notIncluded } from './not-included.ts';
import { drawNotices, type PaperInput, sheetFor } from './paper.ts';
import { nowAgainstLater } from './passages/compared.ts';
import { drawPassages } from './passages/draw-passage.ts';
import { later } from './passages/near-by.ts';
import type { Passage } from './passages/passage.ts';
import { purchaseBudget } from './passages/purchase.ts';
import { serviceCheck } from './passages/service-check.ts';
import { uncertainty, unknowns } from './passages/uncertainty.ts';
import { drawHead } from './sheet-head.ts';
import type { Column } from './table.ts';
import { rangeInWords, wholeDollars } from './wording.ts';

/** So many facts are worth a buyer's while; all of them stand on the list for the inspection. */
const FACTS_THAT_MATTER = 3;

/** For the buyer of a house: what charging there will cost, how far to trust it, what to ask and to look at. */
export async function budgetPaper(input: PaperInput): Promise<Buffer> {
  const { estimate, option, stated, issuer } = input;
  const { description } = estimate;
  const sheet = sheetFor(input, { subject: `Budget for charging at this house: ${option.label}` });
  drawHead(sheet, { estimate, option, issuer });
  const worth = { ...option, unknowns: (option.unknowns ?? []).slice(0, FACTS_THAT_MATTER) };
  const found = purchaseBudget(option, description);
  drawPassages(sheet, [
    ...(found.length > 0 ? found : [withoutPurchase(input)]),
    ...unknowns(worth, description).map((passage) => ({
      ...passage,
      title: 'What matters most of all that nobody knows yet',
    })),
    ...ways(estimate),
    ...uncertainty(option, sheet.widthPt),
    ...serviceCheck(option, description),
    ...later(option),
    ...nowAgainstLater(estimate, option.id),
  ]);
  sheet.heading('Not included');
  sheet.list(notIncluded({ description, stated, option }));
  drawNotices(sheet, estimate);
  return sheet.finish();
}

function withoutPurchase({ estimate, option }: PaperInput): Passage {
  const words = !option.complete
    ? 'Prices are missing, so that no sum can be planned with.'
    : estimate.description.purchase
      ? 'The range was not computed, so that no sum a month is known.'
      : 'No purchase is described. With the rate and the years of the loan the sums a month stand here.';
  return { title: 'To carry into the purchase', sentences: [words] };
}

/** The other ways to feed the car, each with its range and, where a purchase is described, what it is a month. */
function ways({ options }: Estimate): Passage[] {
  if (options.length < 2) return [];
  const isBudgeted = options.some(({ budget }) => budget !== undefined);
  const range = (option: EstimateOption) =>
    `${option.buildable ? '' : 'Cannot be built as stated. '}${rangeInWords(option)}`;
  return [
    {
      title: 'The ways to charge here',
      columns: [{ head: 'Way', share: 1 }, { head: 'Range', share: 1.4 }, ...(isBudgeted ? BUDGET_COLUMNS : [])],
      rows: options.map((option) => ({
        cells: [option.label, range(option), ...(isBudgeted ? budgetCells(option) : [])],
      })),
    },
  ];
}

const BUDGET_COLUMNS: readonly Column[] = [
  { head: 'To plan for', widthPt: 60, align: 'right' },
  { head: 'A month', widthPt: 50, align: 'right' },
  { head: 'Confidence', widthPt: 54 },
];

function budgetCells({ budget }: EstimateOption): string[] {
  if (!budget) return ['', '', ''];
  return [wholeDollars(budget.planForCents), wholeDollars(budget.monthlyPlanForCents), budget.confidence];
}
