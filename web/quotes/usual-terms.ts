import { BLANK_QUOTE, type UsualTerms } from './quote-stated.ts';

const STORED = 'feedrun-quote-terms';

/** The terms that the last quote was issued with in this browser; none before the first. */
export function usualTerms(): Partial<UsualTerms> {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(STORED) ?? '{}');
    return isUsable(stored) ? stored : {};
  } catch {
    return {}; // storage is shut off, or holds what another program wrote: one begins with the standards
  }
}

/** Keeps the terms of a quote that was issued, for the next one. */
export function rememberTerms(terms: UsualTerms): void {
  try {
    localStorage.setItem(STORED, JSON.stringify(terms));
  } catch {
    // Storage is shut off: the next quote begins with the standards.
  }
}

/** Does each field that is there hold what the form holds? An earlier form may have kept others. */
function isUsable(stored: unknown): stored is Partial<UsualTerms> {
  if (typeof stored !== 'object' || stored === null) return false;
  return Object.entries(stored).every(([name, value]) => {
    const blank: unknown = BLANK_QUOTE[name as keyof UsualTerms];
    if (!Array.isArray(blank)) return typeof blank === typeof value;
    return (
      Array.isArray(value) && value.every((row) => typeof row?.when === 'string' && typeof row?.percent === 'string')
    );
  });
}
