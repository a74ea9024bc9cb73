import type { Line } from './answer.ts';
import { cheapestCover } from './covering.ts';
import type { Description } from './description.ts';
import { groupsOf, legsOfAll, reasonsOfAll } from './groups.ts';
import { type KnownLines, once } from './known-lines.ts';
import { amountCents, toFourDecimals } from './money.ts';
import { asOldAs } from './offer-days.ts';
import type { MaterialDemand } from './plan-types.ts';
import { type Book, type PriceItem, specText } from './price-book.ts';
import { cheapestPackages } from './purchasing.ts';
import { isStale } from './shelf-life.ts';
import { keyOfSpec } from './spec-text.ts';

type Offer = PriceItem['offers'][number];

/** What is asked of one spec by all runs together: bought at once, so that one coil may serve several. */
interface Wanted extends MaterialDemand {
  takenInAll: number;
}
interface Priced {
  wanted: Wanted;
  item: PriceItem;
  /** Is the price of the item, or of that package of it, beyond its shelf life? */
  isStale: (offer?: Offer) => boolean;
}
/** Three price points of whatever a line counts. */
interface UnitPrice {
  low: number;
  likely: number;
  high: number;
}

/** Units that can be had in any fraction; of everything else whole ones are bought, also of what is cut by the foot. */
const DIVISIBLE_UNITS = ['yd3', 'ft2', 'mile', 'h'];

/**
 * Buys what the take-off asks for: one line for each offer that is bought. What the book lacks gives a line without a
 * price, never a zero that looks like one.
 */
export function materialLines({
  demands,
  book,
  description,
  known,
}: {
  demands: readonly MaterialDemand[];
  book: Book;
  description: Description;
  known?: KnownLines | undefined;
}): Line[] {
  const linesFor = (wanted: Wanted) => buy(wanted, { book, description });
  return together(demands).flatMap((wanted) =>
    known ? once(known, wantedInWords(wanted), () => linesFor(wanted)) : linesFor(wanted),
  );
}

/** One text for what decides the lines of what is wanted, but for their reasons. */
function wantedInWords({ class: lineClass, spec, pieces, takenInAll, legs }: Wanted): string {
  return `${lineClass} ${specText(spec)} ${pieces?.join(' ') ?? takenInAll} ${legs.join(' ')}`;
}

function buy(wanted: Wanted, { book, description }: { book: Book; description: Description }): Line[] {
  const item = book.bySpec(wanted.spec);
  if (!item) return [unpriced(wanted, `The price book has no ${wanted.description}.`)];
  if (item.unit !== wanted.unit) {
    const reason = `The price book sells ${item.description} by ${item.unit}, and ${wanted.unit} is asked for.`;
    return [unpriced(wanted, reason)];
  }
  const priced: Priced = { wanted, item, isStale: (offer) => isStale(asOldAs(item, offer), description.asOf) };
  if (description.terms.offcuts === 'stock' && item.unit === 'ft') return [fromStock(priced)];
  return bought(priced) ?? [unpriced(wanted, `The price book has no package of ${item.description} that will do.`)];
}

/** Demands of one spec, class and manner as one, in the order in which they first come. */
function together(demands: readonly MaterialDemand[]): Wanted[] {
  const mannerOf = ({ class: lineClass, pieces, spec }: MaterialDemand) =>
    `${lineClass} ${pieces ? 'cut' : 'counted'} ${specText(spec)}`;
  return groupsOf(demands, mannerOf).map((group) => {
    const pieces = group.flatMap((demand) => demand.pieces ?? []);
    return {
      takenInAll: sum(pieces) + sum(group.map(({ quantity = 0 }) => quantity)),
      ...group[0],
      ...(group[0].pieces && { pieces }),
      legs: legsOfAll(group),
      because: reasonsOfAll(group),
    };
  });
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

/** The least-cost packages as lines, or nothing where no package that is to be had will do. */
function bought(priced: Priced): Line[] | undefined {
  const { wanted, item } = priced;
  const offers = item.offers.filter(({ available }) => available);
  if (item.offers.length > 0 && offers.length === 0) return undefined;
  if (offers.length === 0) return [byTheUnit(priced)];
  return wanted.pieces ? cutLines(priced, offers) : coverLines(priced, offers);
}

const byTheFoot = (item: PriceItem, { quantity }: Offer) => item.unit === 'ft' && quantity === 1;

function cutLines(priced: Priced, offers: readonly Offer[]): Line[] | undefined {
  const { item, wanted } = priced;
  const lengths = offers.map((offer) => ({
    lengthFt: byTheFoot(item, offer) ? null : offer.quantity,
    priceCents: offer.likelyCents,
  }));
  const plan = cheapestPackages({ pieces: wanted.pieces ?? [], offers: lengths });
  const doubt =
    plan?.proven === false ? ['these packages are the best that was found, not proved to be the cheapest'] : [];
  return plan?.buy.flatMap(({ offer: at, count, pieces }) => {
    const offer = offers[at];
    if (!offer) return [];
    const line = offerLine(priced, { offer, count, taken: sum(pieces.flat()) });
    return [{ ...line, because: [...line.because, ...doubt] }];
  });
}

function coverLines(priced: Priced, offers: readonly Offer[]): Line[] | undefined {
  const units = offers.map((offer) => ({ quantity: offer.quantity, priceCents: offer.likelyCents }));
  const plan = cheapestCover({ quantity: priced.wanted.takenInAll, offers: units });
  let open = priced.wanted.takenInAll;
  return plan?.buy.flatMap(({ offer: at, count }) => {
    const offer = offers[at];
    if (!offer) return [];
    const taken = Math.min(open, count * offer.quantity);
    open -= taken;
    return [offerLine(priced, { offer, count, taken })];
  });
}

/** A line for so many packages of one offer; what is sold by the foot is counted in feet. */
function offerLine(priced: Priced, { offer, count, taken }: { offer: Offer; count: number; taken: number }): Line {
  const { item } = priced;
  const inFeet = byTheFoot(item, offer);
  return pricedLine(priced, {
    offer,
    quantity: count,
    price: { low: offer.lowCents, likely: offer.likelyCents, high: offer.highCents },
    unit: inFeet ? item.unit : offer.package,
    ...(!inFeet && { package: { size: offer.quantity, unit: item.unit } }),
    taken,
    leftOver: count * offer.quantity - taken,
  });
}

/** What is sold by the unit: whole ones, or any fraction of what is poured, driven or laid. */
function byTheUnit(priced: Priced): Line {
  const { wanted, item } = priced;
  const whole = !DIVISIBLE_UNITS.includes(item.unit);
  const pieces = wanted.pieces ?? [wanted.takenInAll];
  const quantity = whole ? sum(pieces.map((piece) => Math.ceil(toFourDecimals(piece)))) : wanted.takenInAll;
  const { takenInAll: taken } = wanted;
  return pricedLine(priced, { quantity, price: item, unit: item.unit, taken, leftOver: quantity - taken });
}

/** Offcuts go back to the stock: what is taken, at the price of a foot. */
function fromStock(priced: Priced): Line {
  const { wanted, item } = priced;
  const { takenInAll: taken } = wanted;
  const why = 'offcuts go back to the stock: what is taken is charged, at the price of a foot';
  const offer = offerByTheFoot(item);
  const price = pricePerFoot(item);
  const bought = { quantity: taken, price, unit: item.unit, taken, leftOver: 0, ...(offer && { offer }) };
  return pricedLine({ ...priced, wanted: { ...wanted, because: [...wanted.because, why] } }, bought);
}

/** Of the offer by the foot; without one, of the smallest package. */
export function pricePerFoot(item: PriceItem): UnitPrice {
  const smallest = offerByTheFoot(item);
  if (!smallest) return item;
  const { quantity, lowCents, likelyCents, highCents } = smallest;
  return { low: lowCents / quantity, likely: likelyCents / quantity, high: highCents / quantity };
}

/** The smallest package that is to be had: by the foot, where it is sold so. */
function offerByTheFoot({ offers }: PriceItem): Offer | undefined {
  return offers.filter(({ available }) => available).sort((a, b) => a.quantity - b.quantity)[0];
}

/** What is bought of an item, in units of the line. */
interface Bought {
  offer?: Offer;
  quantity: number;
  price: UnitPrice;
  unit: string;
  package?: Line['package'];
  taken: number;
  leftOver: number;
}

function pricedLine({ wanted, item, isStale }: Priced, bought: Bought): Line {
  const unitPriceCents = toFourDecimals(bought.price.likely);
  const quantity = toFourDecimals(bought.quantity);
  return {
    key: item.key,
    description: item.description,
    class: wanted.class,
    scope: wanted.scope,
    quantity,
    unitPriceCents,
    amountCents: amountCents({ quantity, unitPriceCents }),
    lowCents: amountCents({ quantity, unitPriceCents: bought.price.low }),
    highCents: amountCents({ quantity, unitPriceCents: bought.price.high }),
    legs: wanted.legs,
    priced: true,
    because: wanted.because,
    unit: bought.unit,
    ...(bought.package && { package: bought.package }),
    taken: toFourDecimals(bought.taken),
    takenUnit: item.unit,
    leftOver: toFourDecimals(bought.leftOver),
    stale: isStale(bought.offer),
  };
}

/** A line without a price: it makes the estimate incomplete, and says what is missing. */
function unpriced(wanted: Wanted, reason: string): Line {
  const quantity = toFourDecimals(wanted.takenInAll);
  return {
    key: keyOfSpec(wanted.spec),
    description: wanted.description,
    class: wanted.class,
    scope: wanted.scope,
    quantity,
    unit: wanted.unit,
    unitPriceCents: 0,
    amountCents: 0,
    lowCents: 0,
    highCents: 0,
    taken: quantity,
    takenUnit: wanted.unit,
    leftOver: 0,
    legs: wanted.legs,
    priced: false,
    stale: false,
    because: [...wanted.because, reason],
  };
}
