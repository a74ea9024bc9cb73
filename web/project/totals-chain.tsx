import { exactDollars } from '../../server/drawing/wording.ts';
import type { Totals } from '../../server/estimate/answer.ts';

type Step = { name: string; of: keyof Totals; weight?: 'sum' | 'optional'; sign?: '−' };

/** From the classes of the lines to what is paid, in the order of the formula. */
const STEPS: readonly Step[] = [
  { name: 'Material', of: 'materialCents' },
  { name: 'Labor', of: 'laborCents' },
  { name: 'Equipment', of: 'equipmentCents' },
  { name: 'Fees', of: 'feeCents' },
  { name: 'Cost', of: 'costCents', weight: 'sum' },
  { name: 'Markup', of: 'markupCents', weight: 'optional' },
  { name: 'Overhead', of: 'overheadCents', weight: 'optional' },
  { name: 'Contingency', of: 'contingencyCents', weight: 'optional' },
  { name: 'Profit', of: 'profitCents', weight: 'optional' },
  { name: 'Discount', of: 'discountCents', weight: 'optional', sign: '−' },
  { name: 'Tax', of: 'taxCents', weight: 'optional' },
  { name: 'Total', of: 'totalCents', weight: 'sum' },
  { name: 'Incentives', of: 'incentiveCents', weight: 'optional', sign: '−' },
];

/** The chain of totals, to the cent; every figure comes from the answer. */
export function TotalsChain({ totals }: { totals: Totals }) {
  const hasIncentives = totals.incentiveCents > 0;
  return (
    <section className="totals-part">
      <h2>Totals</h2>
      <table className="totals">
        <tbody>
          {STEPS.filter(({ of, weight }) => weight !== 'optional' || totals[of] !== 0).map(
            ({ name, of, weight, sign }) => (
              <tr key={name} className={weight === 'sum' ? 'sum' : undefined}>
                <th scope="row">{name}</th>
                <td className="figure">
                  {sign}
                  {exactDollars(totals[of])}
                </td>
              </tr>
            ),
          )}
          {hasIncentives && (
            <tr className="sum">
              <th scope="row">Net</th>
              <td className="figure">{exactDollars(totals.netCents)}</td>
            </tr>
          )}
        </tbody>
      </table>
    </section>
  );
}
