import type { Json } from '../json.ts';

/** A field of what is stated: its value, what the server says of it, and what to do with another value. */
export interface Field {
  /** Dotted path, such as `route.0.lengthFt`. */
  path: string;
  /** As typed or chosen; undefined where nothing was. */
  value: Json | undefined;
  /** What holds where nothing was stated: the last answer gave it back. */
  filled: Json | undefined;
  problem: string | undefined;
  onChange: (value: Json | undefined) => void;
}

/** What is stated, as its fields. Parts ask for a field by its path and change nothing else. */
export interface Form {
  field: (path: string) => Field;
  /** The value at a path, or what holds where nothing was stated. */
  value: (path: string) => Json | undefined;
  set: (path: string, value: Json | undefined) => void;
}

/** How a number is written: as it is, cents as dollars, basis points as percent, a chance of 0 to 1 as percent. */
export type Scale = 'plain' | 'dollars' | 'percent' | 'chance';

/** What one written unit is of the stated one: a dollar is 100 cents, a percent a hundredth of certainty. */
const STATED_IN_ONE: Record<Scale, number> = { plain: 1, dollars: 100, percent: 100, chance: 0.01 };

/** What an emptied field says: nobody knows (null), nothing that must be said, or something that is missing yet. */
export type Emptied = 'unknown' | 'unstated' | 'missing';

/** Writes a stated number into its field. */
export function written(value: Json | undefined, scale: Scale): string {
  if (value === undefined) return '';
  if (value === null) return 'not known';
  if (typeof value !== 'number') return typeof value === 'string' ? value : JSON.stringify(value);
  return scale === 'plain' ? String(value) : String(Number((value / STATED_IN_ONE[scale]).toFixed(4)));
}

const NUMBER = /^[-+]?(?:\d{1,3}(?:,\d{3})+|\d*)(?:\.\d*)?$/;

/**
 * Reads what was typed. What is no number stays a text: the server refuses it at its path, and nothing is lost.
 * Dollars and percent become what is stated; what is left of the binary fraction is cut off beyond the sixth decimal.
 */
export function read(typed: string, { scale, emptied }: { scale: Scale; emptied: Emptied }): Json | undefined {
  const text = typed.trim();
  if (text === '' || text.toLowerCase() === 'not known' || text === '?') {
    return emptied === 'unknown' ? null : undefined;
  }
  const bare = text.replace(/^\$/, '').replace(/ ?%$/, '');
  if (!NUMBER.test(bare) || !/\d/.test(bare)) return text;
  const number = Number(bare.replaceAll(',', ''));
  return scale === 'plain' ? number : Number((number * STATED_IN_ONE[scale]).toFixed(6));
}
