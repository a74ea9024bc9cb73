import { useMemo } from 'react';
import { priceCurves } from '../../server/drawing/price-curves.ts';
import { number, wholeDollars } from '../../server/drawing/wording.ts';
import type { Estimate, EstimateOption } from '../../server/estimate/answer.ts';
import { TotalCurves } from './total-curves.tsx';

interface NearByProps {
  estimate: Estimate;
  option: EstimateOption;
}

/** Where a little more or less changes the price: of charging, of the feeder, of the way. Each was planned anew. */
export function NearBySettings({ estimate, option }: NearByProps) {
  const steps = option.steps ?? [];
  const curves = useMemo(() => priceCurves(estimate), [estimate]);
  if (steps.length + curves.length === 0) return null;
  return (
    <section className="detail-part" id="near-by">
      <h2>A little more or less</h2>
      {steps.length > 0 && <Steps steps={steps} />}
      <div className="curves">
        {curves.map((each) => (
          <TotalCurves key={each.unit} curves={each} />
        ))}
      </div>
    </section>
  );
}

function Steps({ steps }: { steps: NonNullable<EstimateOption['steps']> }) {
  return (
    <ul className="plain-list steps">
      {steps.map(({ amps, of, differenceCents, because }) => (
        <li key={`${of} ${amps}`}>
          <strong>
            {of === 'feeder' ? 'A feeder of' : 'At'} {number(amps)} A: {difference(differenceCents)}.
          </strong>{' '}
          {because}
        </li>
      ))}
    </ul>
  );
}

function difference(cents: number): string {
  if (cents === 0) return 'the same price';
  return `${wholeDollars(Math.abs(cents))} ${cents > 0 ? 'more' : 'less'}`;
}
