import { shown } from './input-problems.ts';
import type { PriceItemInput } from './price-book.ts';

/** What a price of a supplier buys: so many units of the item, or one whole package. */
export type PricedBy = { units: number } | 'package';
/** Why a word fits no unit of the item. */
export interface Misfit {
  misfit: string;
}

/*
 * Words that lists of the trade write beside a price. E, C and M stand for one, a hundred and a thousand: common
 * practice, no source. A small m could be a meter, so that only M, MFT and thousand are a thousand.
 */
const EACH = ['e', 'ea', 'each', 'pc', 'pcs', 'piece', '1'];
const HUNDRED = ['C', 'CFT', 'C FT', '100', 'hundred'];
const THOUSAND = ['M', 'MFT', 'M FT', '1000', 'thousand'];
const FOOT = ['ft', 'foot', 'feet', 'lf'];
const PACKAGE = [
  ...['bag', 'box', 'bx', 'bundle', 'carton', 'ctn', 'coil', 'length', 'pack', 'package', 'pk', 'pkg', 'pail', 'reel'],
  ...['roll', 'rl', 'spool', 'stick', 'tube'],
];

/**
 * Tells what a price is of, from the word that a list writes beside it. Without a word it is of the package.
 * A price by a unit that the item does not have is no price of it.
 */
export function pricedBy(word: string | undefined, { key, unit, offers }: PriceItemInput): PricedBy | Misfit {
  if (word === undefined) return 'package';
  const said = word.trim().replace(/^(?:\/|per )\s*/i, '');
  const plain = said.toLowerCase();
  if (HUNDRED.includes(said)) return { units: 100 };
  if (THOUSAND.includes(said)) return { units: 1000 };
  if (plain === unit.toLowerCase()) return { units: 1 };
  if (FOOT.includes(plain) && unit === 'ft') return { units: 1 };
  if (EACH.includes(plain) && EACH.includes(unit)) return { units: 1 };
  if (PACKAGE.includes(plain) || (EACH.includes(plain) && offers.length > 0)) return 'package';
  return { misfit: `is priced by ${shown(word)}, which is no unit of "${key}": it is counted in ${unit}` };
}
