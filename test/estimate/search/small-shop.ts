import fc from 'fast-check';
import { type Book, bookOf, type PriceItem } from '../../../server/estimate/price-book.ts';
import type { ConductorSize, Metal } from '../../../server/estimate/vocabulary.ts';
import { seedPrices } from '../../../server/seed-prices.ts';

/** All that the starting price book sells. */
export const ITEMS: readonly PriceItem[] = seedPrices().map((item) => ({ ...item, revision: 1 }));

/** The sizes of each metal that a shop sells. */
export type SoldSizes = Record<Metal, readonly ConductorSize[]>;

/** What each wiring is sold as. */
const SOLD_AS: Record<string, (item: PriceItem) => boolean> = {
  'nm-b': ({ spec }) => spec?.is === 'cable' && spec.form === 'nm-b',
  'uf-b': ({ spec }) => spec?.is === 'cable' && spec.form === 'uf-b',
  ser: ({ spec }) => spec?.is === 'cable' && spec.form === 'ser',
  'use-2': ({ spec }) =>
    (spec?.is === 'conductor' && spec.insulation === 'use-2') || (spec?.is === 'cable' && spec.form === 'mhf'),
  pvc: ({ spec }) => spec?.is === 'raceway' && spec.type === 'pvc-40',
  emt: ({ spec }) => spec?.is === 'raceway' && spec.type === 'emt',
  rmc: ({ spec }) => spec?.is === 'raceway' && spec.type === 'rmc',
};

/** Insulated conductors and cables; bare ones are for electrodes. */
const conductorOf = ({ spec }: PriceItem) =>
  spec?.is === 'cable' || (spec?.is === 'conductor' && spec.insulation !== 'bare') ? spec : undefined;

/** A price book that sells only some ways of wiring. What they need besides, such as a sleeve, stays unless it goes too. */
export function cutTo(wirings: readonly string[], sizes?: SoldSizes): Book {
  const out = Object.entries(SOLD_AS).flatMap(([wiring, isIt]) => (wirings.includes(wiring) ? [] : [isIt]));
  // A short piece of raceway through a wall is bought even where no run is laid in it.
  const kept = ITEMS.filter((item) => {
    const conductor = conductorOf(item);
    const isSize = !conductor || !sizes || sizes[conductor.metal].includes(conductor.size);
    return isSize && !out.some((isIt) => isIt(item));
  });
  return bookOf(kept, 1);
}

/** Every metal and size that the shop sells insulated, as whatever cable or conductor. */
export function soldBy(book: Book): { metal: Metal; size: ConductorSize }[] {
  const sold = book.items.flatMap((item) => conductorOf(item) ?? []);
  const texts = new Map(sold.map(({ metal, size }) => [`${metal} ${size}`, { metal, size }]));
  return [...texts.values()];
}

/** Three ways of wiring, so that a leg has three methods at most. */
export const threeWirings = fc.constantFrom(
  ['nm-b', 'uf-b', 'pvc'],
  ['nm-b', 'use-2', 'pvc'],
  ['nm-b', 'pvc', 'rmc'],
  ['uf-b', 'pvc', 'emt'],
  ['ser', 'use-2', 'rmc'],
  ['nm-b', 'emt', 'rmc'],
);

/** Two ways of wiring that may lie side by side on one leg. */
export const twoWirings = fc.constantFrom(
  ['nm-b', 'pvc'],
  ['uf-b', 'pvc'],
  ['emt', 'pvc'],
  ['use-2', 'pvc'],
  ['nm-b', 'rmc'],
);

/** A few sizes of one metal that carry what a house asks for, and always one that carries the most of it. */
const fewSizes = (small: readonly ConductorSize[], large: readonly ConductorSize[], most: number) =>
  fc
    .tuple(fc.subarray([...small], { minLength: 1, maxLength: most - 1 }), fc.constantFrom(...large))
    .map(([some, one]) => [...some, one]);

/** A small shop's stock: so many sizes of each metal at most. */
export const fewOfEach = (most: number): fc.Arbitrary<SoldSizes> =>
  fc.record({
    copper: fewSizes(['12', '10', '8', '6', '4'], ['4', '3', '2', '1'], most),
    aluminum: fewSizes(['8', '6', '4', '2'], ['2', '1', '1/0', '2/0'], most),
  });
