import { feet, number, wholeDollars } from '../../server/drawing/wording.ts';
import type { EstimateOption, Run } from '../../server/estimate/answer.ts';
import type { Leg } from '../../server/estimate/description.ts';
import { RunFacts } from './run-facts.tsx';
import { RunLegs } from './run-legs.tsx';

interface PlanProps {
  option: EstimateOption;
  route: readonly Leg[];
  selectedLeg: number;
  onSelectLeg: (leg: number) => void;
}

/** How each run is built, why, and what else would have done. */
export function PlanPart({ option, route, selectedLeg, onSelectLeg }: PlanProps) {
  const { runs, totals, dropPercent } = option;
  const [first] = runs;
  return (
    <section className="plan-part detail-part" id="plan">
      <h2>Plan and reasons</h2>
      {runs.length === 0 && <p>Nothing is run: the car charges at what is there.</p>}
      {runs.map((run) => (
        <section key={run.name} className="run" aria-label={`Run ${run.name}`}>
          <h3>
            {run.name}
            <span className="aside">
              {' '}
              {run.role === 'feeder' ? 'feeder' : 'branch circuit'} from {run.from} to {run.to}, {lengthOf(run)}
            </span>
          </h3>
          <RunFacts run={run} />
          <RunLegs run={run} route={route} selectedLeg={selectedLeg} onSelectLeg={onSelectLeg} />
          <RunnersUp run={run} costCents={totals.costCents} />
        </section>
      ))}
      {first && (
        <p className="plan-close">
          {proofInWords(first.proof)} From the service to the farthest outlet {number(dropPercent)} % of the voltage is
          lost.
        </p>
      )}
    </section>
  );
}

function lengthOf({ lengthFt, lengthRangeFt }: Run): string {
  if (!lengthRangeFt || lengthRangeFt.low === lengthRangeFt.high) return feet(lengthFt);
  return `${feet(lengthFt)} (${number(lengthRangeFt.low, 1)} to ${number(lengthRangeFt.high, 1)})`;
}

/** How sure it is that no lawful plan costs less, in words. */
function proofInWords({ proven, gapCents }: Run['proof']): string {
  if (proven) return 'Proven the cheapest of all lawful plans.';
  return `Not proven the cheapest: it costs no more than ${wholeDollars(gapCents)} above the cheapest of all lawful plans.`;
}

function RunnersUp({ run, costCents }: { run: Run; costCents: number }) {
  if (run.runnersUp.length === 0) return null;
  return (
    <details className="more">
      <summary>What came next in cost</summary>
      <table className="runners-up">
        <thead>
          <tr>
            <th scope="col">Plan</th>
            <th scope="col" className="figure">
              Cost of the option
            </th>
          </tr>
        </thead>
        <tbody>
          <tr className="chosen">
            <th scope="row">the plan above</th>
            <td className="figure">{wholeDollars(costCents)}</td>
          </tr>
          {run.runnersUp.map(({ summary, amountCents }) => (
            <tr key={`${summary} ${amountCents}`}>
              <th scope="row">{summary}</th>
              <td className="figure">{wholeDollars(amountCents)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
