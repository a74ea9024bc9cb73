import type { Line } from './answer.ts';
import { toFourDecimals } from './money.ts';
import type { Book, Offer, PriceItem } from './price-book.ts';

/** The items that say how dear a region is against the book: 1 changes nothing, and so does an item that is not there. */
const FACTOR_KEYS = { material: 'region-material', labor: 'region-labor' } as const;
type Regional = keyof typeof FACTOR_KEYS;
type Points = Pick<PriceItem, 'low' | 'likely' | 'high'>;

const known = new WeakMap<Book, Book>();

/**
 * The book at the prices of its region: what is bought as material times the factor for material, and rates and prices
 * of labor times that for labor, each point by its own, so that a factor that nobody knows well widens the range. Hours,
 * rentals and fees stay. Made once for a book.
 */
export function regionalBook(book: Book): Book {
  const made = known.get(book);
  if (made) return made;
  const regional = atFactors(book, { material: factorOf(book, 'material'), labor: factorOf(book, 'labor') });
  known.set(book, regional);
  return regional;
}

/** Lines with what their region did to their prices among the reasons; what no item of the book priced stays. */
export function withRegionReasons(lines: Line[], book: Book): Line[] {
  const factors = { material: factorOf(book, 'material'), labor: factorOf(book, 'labor') };
  if (!factors.material && !factors.labor) return lines;
  return lines.map((line) => {
    const item = line.priced ? book.byKey(line.key) : undefined;
    const ofItem = item && isPriced(item) ? factors[item.class] : undefined;
    const factor = item?.kind === 'labor-unit' ? factors.labor : ofItem;
    if (!factor) return line;
    const reason = `× ${factor.likely}: ${factor.description}, as of ${factor.date}`;
    return { ...line, because: [...line.because, reason] };
  });
}

/** The factor for a class where it changes something. */
function factorOf(book: Book, of: Regional): PriceItem | undefined {
  const item = book.byKey(FACTOR_KEYS[of]);
  if (!item?.available || item.kind !== 'factor') return undefined;
  return item.low === 1 && item.likely === 1 && item.high === 1 ? undefined : item;
}

function atFactors(book: Book, factors: Record<Regional, PriceItem | undefined>): Book {
  if (!factors.material && !factors.labor) return book;
  const moved = new Map<PriceItem, PriceItem>();
  for (const item of book.items) {
    const factor = isPriced(item) ? factors[item.class] : undefined;
    moved.set(item, factor ? atFactor(item, factor) : item);
  }
  const found = (item: PriceItem | undefined) => item && (moved.get(item) ?? item);
  return {
    revision: book.revision,
    items: [...moved.values()],
    bySpec: (spec) => found(book.bySpec(spec)),
    byKey: (key) => found(book.byKey(key)),
  };
}

/** Is it something whose price a region moves? */
function isPriced(item: PriceItem): item is PriceItem & { class: Regional } {
  return (item.kind === 'price' || item.kind === 'rate') && (item.class === 'material' || item.class === 'labor');
}

function atFactor(item: PriceItem, factor: Points): PriceItem {
  return {
    ...item,
    low: toFourDecimals(item.low * factor.low),
    likely: toFourDecimals(item.likely * factor.likely),
    high: toFourDecimals(item.high * factor.high),
    offers: item.offers.map((offer) => offerAt(offer, factor)),
  };
}

function offerAt(offer: Offer, { low, likely, high }: Points): Offer {
  const cents = (before: number, factor: number) => Math.round(toFourDecimals(before * factor));
  return {
    ...offer,
    lowCents: cents(offer.lowCents, low),
    likelyCents: cents(offer.likelyCents, likely),
    highCents: cents(offer.highCents, high),
  };
}
