import { type ClassCents, priceShareOf } from './class-cost.ts';
import type { Description } from './description.ts';
import { roundHalfAway } from './money.ts';

type Incentive = Description['terms']['incentives'][number];

/** What an incentive gives, in whole cents. Uncertain ones are shown beside the net and never taken off it. */
export interface IncentiveAmount {
  name: string;
  certain: boolean;
  cents: number;
  because: string;
}

/**
 * What each incentive gives, the certain ones first, in the order stated. Together they never give more than the
 * total: nobody is paid to build. One whose last day has passed gives nothing.
 */
export function incentivesOf({
  cost,
  priceCents,
  totalCents,
  description,
}: {
  cost: ClassCents;
  priceCents: number;
  totalCents: number;
  description: Description;
}): IncentiveAmount[] {
  const { terms, asOf } = description;
  const { incentives } = terms;
  const ordered = [...incentives.filter(({ certain }) => certain), ...incentives.filter(({ certain }) => !certain)];
  let open = totalCents;
  return ordered.map((incentive) => {
    const { name, certain } = incentive;
    if (asOf !== undefined && incentive.until !== undefined && incentive.until < asOf) {
      return { name, certain, cents: 0, because: `ended on ${incentive.until}` };
    }
    const offered = offeredCents(incentive, { cost, priceCents, markup: terms.markup });
    const cents = Math.min(offered, open);
    open -= cents;
    return { name, certain, cents, because: reasonOf(incentive) };
  });
}

/** A fixed sum, or a share of what the classes it is for have in the price; at most its cap. */
function offeredCents(
  { kind, cents = 0, bp = 0, capCents, of }: Incentive,
  { cost, priceCents, markup }: { cost: ClassCents; priceCents: number; markup: Description['terms']['markup'] },
): number {
  const { part, whole } = priceShareOf({ classes: of, cost, terms: { markup } });
  const share = whole === 0n ? 0 : roundHalfAway(BigInt(priceCents) * part * BigInt(bp), whole * 10_000n);
  return Math.min(kind === 'fixed' ? cents : share, capCents ?? Number.POSITIVE_INFINITY);
}

function reasonOf({ kind, bp = 0, of, capCents }: Incentive): string {
  if (kind === 'fixed') return 'a fixed sum';
  const cap = capCents === undefined ? '' : `, at most ${capCents} cents`;
  return `${bp / 100} % of the price's share of ${of.join(', ')}${cap}`;
}
