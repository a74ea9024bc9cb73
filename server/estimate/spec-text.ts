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

const METAL_KEYS = { copper: 'cu', aluminum: 'al' } as const;

/** The key that an item of this spec has by custom: `nm-b-6-3-cu`, `thwn-2-1_0-cu`. Names what the book lacks. */
export function keyOfSpec(spec: Spec): string {
  return customaryKey(spec).replaceAll('/', '_');
}

function customaryKey(spec: Spec): string {
  switch (spec.is) {
    case 'cable':
      return `${spec.form}-${spec.size}-${spec.conductors}-${METAL_KEYS[spec.metal]}`;
    case 'conductor':
      return `${spec.insulation}-${spec.size}-${METAL_KEYS[spec.metal]}`;
    case 'raceway':
      return `${spec.type}-${spec.tradeSize}`;
    case 'fitting':
      return `${spec.type}-${spec.piece}-${spec.tradeSize}`;
    case 'breaker':
      return `breaker-${spec.poles}p-${spec.ratingA}${spec.gfci ? '-gfci' : ''}`;
    case 'panel':
      return `panel-${spec.ratingA}a-${spec.spaces}sp-${spec.mainBreaker ? 'mb-' : ''}${spec.enclosure}`;
    case 'task':
      return spec.task;
    case 'other':
      return spec.name;
  }
}
