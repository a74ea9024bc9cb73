import type { Spec } from './price-book.ts';

/*
 * The compact text form of a spec, one cell of a price list: what it is, then `field=value`, blanks between:
 * `cable form=nm-b metal=copper size=6 conductors=3`, `breaker ratingA=60 poles=2 gfci=yes`. No value holds a blank.
 */

/** Fields that are numbers, and fields that are yes or no; all others are words. */
const NUMBERS = ['conductors', 'ratingA', 'poles', 'spaces'];
const FLAGS = ['gfci', 'mainBreaker'];

/** Prints a spec; `readSpec` reads it back. */
export function writeSpec(spec: Spec): string {
  const { is, ...fields } = spec;
  return [is, ...Object.entries(fields).map(([field, value]) => `${field}=${printed(value)}`)].join(' ');
}

function printed(value: unknown): string {
  if (value === true) return 'yes';
  return value === false ? 'no' : String(value);
}

/** Reads the text form into plain fields, which the schema of an item then judges. Words it does not know stay words. */
export function readSpec(text: string): Record<string, unknown> {
  const [is, ...fields] = text.trim().split(/\s+/);
  const spec: Record<string, unknown> = { is };
  for (const part of fields) {
    const at = part.indexOf('=');
    const field = at < 0 ? part : part.slice(0, at);
    spec[field] = fieldValue({ field, word: at < 0 ? '' : part.slice(at + 1) });
  }
  return spec;
}

function fieldValue({ field, word }: { field: string; word: string }): unknown {
  if (NUMBERS.includes(field) && /^\d+(?:\.\d+)?$/.test(word)) return Number(word);
  if (FLAGS.includes(field) && (word === 'yes' || word === 'no')) return word === 'yes';
  return word;
}
