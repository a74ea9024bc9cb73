import type { Finding } from './answer.ts';
import { isNoWorse, type TryChanged } from './changed-option.ts';
import { type Description, type Leg, routeOf } from './description.ts';
import type { OptionEstimate } from './option-estimate.ts';
import { findingOf } from './plan/job.ts';

/** Surfaces that are cut or lifted, and that a bore passes under. */
const HARD: readonly Leg['kind'][] = ['concrete-cut', 'asphalt-cut', 'pavers-lift'];

/**
 * Where a bore under a hard surface would cost less than opening it, planned anew with that leg bored: a note for each
 * such leg, with the difference in whole cents of the total. Nothing is bored that was not asked for: what lies in the way
 * is not known from here.
 */
export function boreProposals(own: OptionEstimate, description: Description, tryChanged: TryChanged): Finding[] {
  const { option } = own.plan;
  if (option.feed === 'existing-receptacle') return [];
  const route = routeOf(description, option);
  return route.flatMap((leg, at) => {
    if (!HARD.includes(leg.kind) || leg.method !== 'auto') return [];
    const bored = { ...option, route: route.with(at, { ...leg, kind: 'bore' }) };
    const found = tryChanged(bored)?.answer;
    if (!found || !isNoWorse(found, own.answer)) return [];
    const differenceCents = found.totals.totalCents - own.answer.totals.totalCents;
    if (differenceCents >= 0) return [];
    const dollars = Math.round(-differenceCents / 100).toLocaleString('en-US');
    return findingOf(description.site.code.edition, {
      rule: 'bore-instead',
      severity: 'note',
      message: `A bore under this leg (${leg.kind}) instead of opening it would make the total some $${dollars} less. Ask what lies under it, and have lines marked first.`,
      numbers: { differenceCents },
      leg: at,
    });
  });
}
