import { BLANK_QUOTE, type UsualTerms } from './quote-stated.ts';

const STORED = 'feedrun-quote-terms';

/** What a browser keeps texts in, as far as it is used here; asking for it may fail where it is shut off. */
export type Storing = () => {
  getItem: (name: string) => string | null;
  setItem: (name: string, text: string) => void;
};

/** The terms that the last quote was issued with in this browser; none before the first. */
export function usualTerms(storage: Storing): Partial<UsualTerms> {
  try {
    const stored: unknown = JSON.parse(storage().getItem(STORED) ?? '{}');
    return isUsable(stored) ? stored : {};
  } catch {
    return {}; // storage is shut off, or holds what another program wrote: one begins with the standards
  }
}

/** Keeps the terms of a quote that was issued, for the next one. */
export function rememberTerms(terms: UsualTerms, storage: Storing): void {
  try {
    storage().setItem(STORED, JSON.stringify(terms));
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
