import { useEffect, useState } from 'react';
import type { Estimate } from '../../server/estimate/answer.ts';

/** Marks fade after this long. */
const MARKED_MS = 5000;

/** What got dearer (above 0) or cheaper since the answer before, by option, in cents. */
export type Changes = ReadonlyMap<string, number>;

const NONE: Changes = new Map();

function between(before: Estimate, after: Estimate): Changes {
  const was = new Map(before.options.map(({ id, totals }) => [id, totals.totalCents]));
  return new Map(
    after.options.flatMap(({ id, totals }) => {
      const differenceCents = totals.totalCents - (was.get(id) ?? totals.totalCents);
      return differenceCents === 0 ? [] : [[id, differenceCents] as const];
    }),
  );
}

/** Marks, for a moment, by how much each option changed with the latest answer. */
export function useChanges(estimate: Estimate | undefined): Changes {
  const [seen, setSeen] = useState(estimate);
  const [changes, setChanges] = useState(NONE);
  if (estimate !== seen) {
    setSeen(estimate);
    if (estimate && seen) setChanges(between(seen, estimate));
  }
  useEffect(() => {
    if (changes.size === 0) return;
    const timer = setTimeout(() => setChanges(NONE), MARKED_MS);
    return () => clearTimeout(timer);
  }, [changes]);
  return changes;
}
