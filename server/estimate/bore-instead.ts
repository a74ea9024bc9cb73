import type { Finding } from './answer.ts';
import { isNoWorse, type TryChanged } from './changed-option.ts';
import { type Description, type Leg, routeOf } from './description.ts';
import { wholeDollars } from './money.ts';
import type { OptionEstimate } from './option-estimate.ts';
import { findingOf } from './plan/job.ts';

/** Surfaces that are cut or lifted, and that a bore passes under, as people call them. */
const HARD: Partial<Record<Leg['kind'], string>> = {
  'concrete-cut': 'concrete',
  'asphalt-cut': 'asphalt',
  'pavers-lift': 'pavers',
};

/** Nobody brings a mole to save less than that: a hundred dollars, ours. */
const WORTH_SAYING_CENTS = 10_000;

/**
 * Where a bore under a hard surface would cost clearly less than opening it, planned anew with that leg bored: a note for each
 * such leg, with the difference in whole cents of the total. Nothing is bored that was not asked for: what lies in the way
 * is not known from here.
 */
export function boreProposals(own: OptionEstimate, description: Description, tryChanged: TryChanged): Finding[] {
  const { option } = own.plan;
  if (option.feed === 'existing-receptacle') return [];
  const route = routeOf(description, option);
  return route.flatMap((leg, at) => {
    const surface = HARD[leg.kind];
    if (!surface || leg.method !== 'auto') return [];
    const bored = { ...option, route: route.with(at, { ...leg, kind: 'bore' }) };
    const found = tryChanged(bored)?.answer;
    if (!found || !isNoWorse(found, own.answer)) return [];
    const differenceCents = found.totals.totalCents - own.answer.totals.totalCents;
    if (differenceCents > -WORTH_SAYING_CENTS) return [];
    return findingOf(description.site.code.edition, {
      rule: 'bore-instead',
      severity: 'note',
      message: `A bore under the ${surface} instead of opening it would make the total some ${wholeDollars(-differenceCents)} less. Ask what lies under it, and have lines marked first.`,
      numbers: { differenceCents },
      leg: at,
    });
  });
}
