import { factsNamed } from '../../server/drawing/fact-words.ts';
import { wholeDollars } from '../../server/drawing/wording.ts';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import type { Description } from '../../server/estimate/description.ts';
import { ReasonsList } from './reasons-list.tsx';

const FIGURES = [
  ['Likely', 'likelyCents'],
  ['Plan for', 'planForCents'],
  ['A month, likely', 'monthlyCents'],
  ['A month, to plan for', 'monthlyPlanForCents'],
  ['Interest in all', 'totalInterestCents'],
] as const;

/** What to carry into the purchase of the house, and what to ask of the seller. */
export function BudgetPart({ option, description }: { option: EstimateOption; description: Description }) {
  const { budget, unknowns = [] } = option;
  if (!budget) return null;
  const { askSeller, because = [] } = budget;
  const paths = unknowns.map(({ path }) => path);
  return (
    <section className="detail-part" id="budget">
      <h2>For the purchase</h2>
      <dl className="facts">
        {FIGURES.map(([name, of]) => (
          <div key={of}>
            <dt>{name}</dt>
            <dd>{wholeDollars(budget[of])}</dd>
          </div>
        ))}
        <div>
          <dt>Confidence</dt>
          <dd>{budget.confidence}</dd>
        </div>
      </dl>
      <ReasonsList because={because.map((words) => factsNamed(words, paths, description))} />
      {askSeller?.length > 0 && (
        <details className="more">
          <summary>To ask of the seller</summary>
          <ReasonsList because={askSeller} />
        </details>
      )}
    </section>
  );
}
