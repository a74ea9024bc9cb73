import type { Finding } from '../answer.ts';
import type { Scope } from '../vocabulary.ts';
import { findingOf, type Job } from './job.ts';

/** Scopes that are electrical work, which an owner may have kept. */
const ELECTRICAL: readonly Scope[] = ['wire', 'conduit', 'boxes', 'panel', 'breaker', 'outlet', 'charger', 'grounding'];

/** What the permit and the authority having jurisdiction ask of those who do the work. */
export function authorityFindings(job: Job): Finding[] {
  return [...freePermit(job), ...ownersPermit(job), ...ownersWork(job)];
}

/** A fee of nothing is an answer, not a missing price. */
function freePermit({ description, edition }: Job): Finding[] {
  if (description.site.permit?.feeCents !== 0) return [];
  const message = 'The permit is stated as free: it is still to be had, and its fee has no line.';
  return [findingOf(edition, { rule: 'permit-free', severity: 'note', message, numbers: { feeCents: 0 } })];
}

function ownersPermit({ description, edition }: Job): Finding[] {
  if (!description.site.permit?.byOwner) return [];
  const message =
    'The owner is to take out the permit: many places grant it only for a dwelling that the owner lives in, and then the ' +
    'owner answers for the work. Ask the authority having jurisdiction before you count on it.';
  return [findingOf(edition, { rule: 'permit-by-owner', severity: 'note', message, cites: 'local-amendment' })];
}

/** In 2026 only qualified persons install charging equipment that is wired permanently (625.4, from trade articles). */
function ownersWork({ description, option, edition }: Job): Finding[] {
  const { who, ownerDoes } = description.terms;
  const owners = who === 'owner' || ownerDoes.some((scope) => ELECTRICAL.includes(scope));
  if (edition !== '2026' || !owners || option.chargers.length === 0) return [];
  const message =
    'The edition of 2026 lets only qualified persons install charging equipment that is wired permanently. Whether an owner ' +
    'counts as one is for the authority having jurisdiction: ask before you begin.';
  return [findingOf(edition, { rule: 'qualified-person', severity: 'caution', message, cites: 'qualified-person' })];
}
