import type { Line } from './answer.ts';
import type { Description } from './description.ts';

/** The key of the line that makes a small job up to the least that the contractor comes for. */
export const MINIMUM_CHARGE = 'minimum-charge';

/** A line that makes the cost up to the minimum of the terms. Never for an owner. */
export function minimumCharge(lines: readonly Line[], { terms }: Description): Line[] {
  const missing = terms.minimumCents - lines.reduce((sum, line) => sum + line.amountCents, 0);
  if (terms.who === 'owner' || missing <= 0) return [];
  return [
    {
      key: MINIMUM_CHARGE,
      description: 'minimum charge',
      class: 'labor',
      scope: 'other',
      quantity: 1,
      unit: 'job',
      unitPriceCents: missing,
      amountCents: missing,
      lowCents: missing,
      highCents: missing,
      taken: 1,
      takenUnit: 'job',
      leftOver: 0,
      legs: [],
      priced: true,
      stale: false,
      because: ['the terms state the least that a job costs'],
    },
  ];
}
