/*
 * The least that a part of a take-off can cost in any plan, additive over parts: materials at the best unit price of
 * what may be bought of them, labor at its exact hours with the trips that its days take. Packages and days are rounded
 * up in plans and never here.
 */
import { cheapestCover } from '../covering.ts';
import { pricePerFoot } from '../material-lines.ts';
import type { PlannedOption } from '../plan-types.ts';
import { usedUp } from '../takeoff/consumables.ts';
import { travelDemands, tripsOf } from '../takeoff/travel.ts';
import { materialCost, type Prices, taskPrice } from './prices.ts';
import { add, emptyTally, type MaterialKind, type Part, partOf } from './tally.ts';

/** Least prices of an option's kinds, in cents a unit. */
export interface LeastPrices {
  prices: Prices;
  /** Feet of one kind of cable or of conductor that no plan exceeds. */
  mostFt: { cable: number; conductor: number };
  /** In cents; a kind that has one is in some part that depends on what is chosen. */
  perUnit: (number | undefined)[];
  /** Kinds that every plan takes and that are paid for with what is there always. */
  paid: Set<number>;
  /** What an hour of the crew adds by its share of a trip. */
  tripPerHourCents: number;
  perGluedJoint: number;
  perPulledFt: number;
  /** Trips that every plan has, at their least price. */
  alwaysCents: number;
}

/**
 * Least prices for an option; the plan is there for its terms, its inspections and what is used up. Of materials that
 * every plan takes and that come in packages larger than that, further units are free.
 */
export function leastPrices(
  prices: Prices,
  {
    plan,
    mostFt,
    always,
    days,
  }: { plan: PlannedOption; mostFt: LeastPrices['mostFt']; always: Part; days: Days | undefined },
): LeastPrices {
  const least: LeastPrices = {
    ...{ prices, mostFt, perUnit: [], paid: new Set(), tripPerHourCents: 0, perGluedJoint: 0, perPulledFt: 0 },
    alwaysCents: 0,
  };
  const paidCents = payFor(least, always);
  const { kinds } = prices;
  const none = { glued: 0, gluedLegs: [], pulledFt: 0, pulledLegs: [], hasSingles: false, hasJoints: false };
  const isBuilt = plan.runs.length > 0;
  const using = (uses: Partial<typeof none>) =>
    leastOf(
      least,
      partOf(kinds, usedUp({ ...none, ...uses }, { aluminumEnds: 0, isBuilt, hasWhiteHot: false, hasUnused: false })),
    );
  const plainCents = using({});
  least.perGluedJoint = (using({ glued: 1000 }) - plainCents) / 1000;
  least.perPulledFt = (using({ pulledFt: 10_000 }) - plainCents) / 10_000;
  if (prices.description.terms.who === 'owner') return { ...least, alwaysCents: plainCents + paidCents };
  const fresh = least.perUnit.map((cents, at) => (least.paid.has(at) ? cents : undefined));
  const trips = days ? tripsWithin(least, plan, days) : tripBound(least, plan);
  return { ...least, perUnit: fresh, ...trips, alwaysCents: trips.alwaysCents + plainCents + paidCents };
}

/** Pays for the materials of what is there always that come in packages larger than that. @returns cents */
function payFor(least: LeastPrices, always: Part): number {
  const { prices } = least;
  let cents = 0;
  always.kinds.forEach((at, index) => {
    const kind = prices.kinds.list[at];
    const amount = always.amounts[index] ?? 0;
    if (kind?.is !== 'material' || amount <= 0) return;
    const asBought = materialCost(prices, at, amount).cents;
    if (asBought <= DEARER_IN_PACKAGES * amount * materialPerUnit(least, kind)) return;
    least.paid.add(at);
    least.perUnit[at] = 0;
    cents += asBought;
  });
  return cents;
}

/** From so many times the least price of its units on, a package is counted whole; ours, and no bound breaks by it. */
const DEARER_IN_PACKAGES = 1.15;

/** More days than a job stops for inspectors: from there on each is one trip more. */
const MANY_DAYS = 100;

/**
 * The crew drives on each of its days, and to each inspection that no day of work is for; driving takes hours of its
 * days, too. A trip more, for a stop that the work makes on a short job, is left out. With D days of H hours, a first trip
 * of A hours and R for each further one, D × H ≥ hours + A + R × (inspections + D − 1), so that D is at least
 * (hours + A + R × (inspections − 1)) / (H − R).
 */
function tripBound(least: LeastPrices, plan: PlannedOption): Trips {
  const { prices } = least;
  const inspections = tripsOf(plan, MANY_DAYS) - MANY_DAYS;
  const at = (trips: number) => {
    const part = partOf(prices.kinds, travelDemands(plan, trips));
    return { cents: leastOf(least, part), hours: crewHours(prices, part) };
  };
  const [first, second] = [at(inspections + 1), at(inspections + 2)];
  const perTrip = { cents: second.cents - first.cents, hours: second.hours - first.hours };
  const dayHours = hoursOfDay(prices);
  const left = dayHours > perTrip.hours ? dayHours - perTrip.hours : dayHours;
  const tripPerHourCents = perTrip.cents / left;
  const drivenHours = dayHours > perTrip.hours ? first.hours - perTrip.hours : 0;
  const days = Math.max(0, drivenHours / left);
  return { alwaysCents: first.cents + perTrip.cents * (days - 1), tripPerHourCents };
}

/** Plans of so many working days and more, or of no more than so many. */
export interface Days {
  is: 'at-least' | 'at-most';
  days: number;
}

/** Has a plan of so many working days any of these? */
export const isWithin = (days: Days | undefined, count: number) =>
  days === undefined || (days.is === 'at-least' ? count >= days.days : count <= days.days);

type Trips = Pick<LeastPrices, 'alwaysCents' | 'tripPerHourCents'>;

/** Person-hours of the crew on one day. */
function hoursOfDay({ description }: Prices): number {
  const { crew, crewSize, hoursPerDay } = description.terms;
  const heads = crew ? crew.reduce((sum, { count }) => sum + count, 0) : crewSize;
  return Math.max(1, heads) * hoursPerDay;
}

/**
 * What trips cost where the number of days is bounded. From so many days on: the trips of that many, whatever the hours.
 * Up to so many: those, less for each hour below what fits into them, so steeply that no lesser number costs less than
 * that. A plan of another number of days is thought to weigh more than it does, and is not meant.
 */
function tripsWithin(least: LeastPrices, plan: PlannedOption, { is, days }: Days): Trips {
  const { prices } = least;
  const at = (count: number) => {
    const part = partOf(prices.kinds, travelDemands(plan, tripsOf(plan, count)));
    return { cents: leastOf(least, part), hours: count * hoursOfDay(prices) - crewHours(prices, part) };
  };
  const last = at(days);
  if (is === 'at-least') return { alwaysCents: last.cents, tripPerHourCents: 0 };
  const fewer = Array.from({ length: Math.max(0, days - 1) }, (_, before) => at(before + 1));
  const slopes = fewer.map(({ cents, hours }) => (last.cents - cents) / (last.hours - hours));
  const tripPerHourCents = STEEPER * Math.max(0, ...slopes);
  return { alwaysCents: last.cents - tripPerHourCents * last.hours, tripPerHourCents };
}

/** So much more than a trip costs by the hour is counted for an hour that does not fit; ours, and no bound breaks by it. */
const STEEPER = 20;

/** Hours of a part that the crew works, not the owner. */
function crewHours(prices: Prices, { kinds, amounts }: Part): number {
  return kinds.reduce((sum, at, index) => {
    const kind = prices.kinds.list[at];
    if (kind?.is !== 'task') return sum;
    const price = taskPrice(prices, kind);
    return sum + (price.owners ? 0 : price.hoursOf(amounts[index] ?? 0));
  }, 0);
}

/** Of one kind, a unit. */
function perUnitOf(least: LeastPrices, at: number): number {
  const known = least.perUnit[at];
  if (known !== undefined) return known;
  const kind = least.prices.kinds.list[at];
  let cents = 0;
  if (kind?.is === 'material') cents = materialPerUnit(least, kind);
  else if (kind) {
    const price = taskPrice(least.prices, kind);
    const hourCents = price.owners ? least.prices.description.terms.ownerHourCents : (price.rateCents ?? 0);
    const share = price.owners ? 0 : least.tripPerHourCents;
    cents = price.hoursPerUnit * ((price.known ? hourCents : 0) + share);
  }
  least.perUnit[at] = cents;
  return cents;
}

function materialPerUnit(least: LeastPrices, { demand }: MaterialKind): number {
  const { cable, conductor } = least.mostFt;
  const most = demand.pieces ? (demand.spec.is === 'cable' ? cable : conductor) : Number.POSITIVE_INFINITY;
  return leastPerUnit(least.prices, demand, most);
}

/**
 * The least that a unit of a material costs in any plan that takes no more than so much of it. A package that is no larger
 * has at best its own unit price; a larger one is paid in full, so that at best all of it is used.
 */
export function leastPerUnit(prices: Prices, demand: MaterialKind['demand'], most: number): number {
  const item = prices.book.bySpec(demand.spec);
  if (!item || item.unit !== demand.unit) return 0;
  if (prices.description.terms.offcuts === 'stock' && item.unit === 'ft') return pricePerFoot(item).likely;
  if (item.offers.length === 0) return item.likely;
  const offers = item.offers.filter(({ available }) => available);
  const small = offers.filter(({ quantity }) => quantity <= most).map((offer) => offer.likelyCents / offer.quantity);
  const units = offers.map((offer) => ({ quantity: offer.quantity, priceCents: offer.likelyCents }));
  const all = Number.isFinite(most) && most > 0 ? cheapestCover({ quantity: most, offers: units }) : undefined;
  const least = Math.min(...small, all ? all.costCents / most : Number.POSITIVE_INFINITY);
  return Number.isFinite(least) ? least : 0;
}

/** The least that a part costs wherever it occurs, in cents. */
export function leastOf(least: LeastPrices, { kinds, amounts, cut, uses }: Part): number {
  let cents = uses.glued * least.perGluedJoint + uses.pulledFt * least.perPulledFt;
  for (let at = 0; at < kinds.length; at += 1) cents += (amounts[at] ?? 0) * perUnitOf(least, kinds[at] ?? 0);
  for (const { kind, feet } of cut) cents += feet * perUnitOf(least, kind);
  return cents;
}

/**
 * What parts cost that are in every plan: a material that nothing else takes is bought as its lines would buy it, the
 * rest at its least price. Asked last, when all other parts are known.
 */
export function leastOfAlways(least: LeastPrices, parts: readonly Part[]): number {
  const tally = emptyTally();
  for (const part of parts) add(tally, part);
  let cents = tally.glued * least.perGluedJoint + tally.pulledFt * least.perPulledFt;
  const own: number[] = [];
  for (const at of tally.touched) {
    const kind = least.prices.kinds.list[at];
    if (kind?.is === 'material' && least.perUnit[at] === undefined && !tally.pieces.has(at)) own.push(at);
    else {
      const feet = tally.pieces.get(at)?.reduce((sum, piece) => sum + piece, 0);
      cents += (feet ?? tally.amounts[at] ?? 0) * perUnitOf(least, at);
    }
  }
  return cents + own.reduce((sum, at) => sum + materialCost(least.prices, at, tally.amounts[at] ?? 0).cents, 0);
}
