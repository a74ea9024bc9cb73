/*
 * What a tally costs, to the cent as its lines would: the same purchases, the same roundings, the same days and trips,
 * without a word. Each answer for one kind and amount is kept, since plans differ in few of their amounts.
 */
import type { Description } from '../description.ts';
import { isOwners, rateOf, reckonTasks } from '../labor.ts';
import { daysOf, extraLines, MOST_ROUNDS } from '../lines.ts';
import { materialLines } from '../material-lines.ts';
import { amountCents, toFourDecimals } from '../money.ts';
import type { PlannedOption } from '../plan-types.ts';
import type { Book } from '../price-book.ts';
import { travelDemands, tripsOf } from '../takeoff/travel.ts';
import { type Kinds, type Part, partOf, type Tally, type TaskKind } from './tally.ts';
import type { Workshop } from './workshop.ts';

/** Whole cents, and how many lines have no price. */
export interface Cost {
  cents: number;
  unpriced: number;
}

/** What is known of one kind of labor. */
export interface TaskPrice {
  hoursPerUnit: number;
  /** Hours of so many units. */
  hoursOf: (quantity: number) => number;
  known: boolean;
  owners: boolean;
  /** Of its line; nothing where the book has none. */
  rateCents: number | undefined;
  line: number;
}

/** Prices of one option's kinds, with all that was asked so far. */
export interface Prices {
  kinds: Kinds;
  book: Book;
  description: Description;
  materials: Map<string | number, Cost>[];
  tasks: TaskPrice[];
  lineOfTask: Map<string, number>;
  travel: Map<number, Part>;
  trips: Map<number, number>;
  extras: { cents: number; hours: number; ownerHours: number };
}

/** Prices for an option's kinds, nothing asked yet. */
export function pricesOf(workshop: Workshop, book: Book, description: Description): Prices {
  const { kinds, materials, tasks, lineOfTask } = workshop;
  const { lines, hours, ownerHours } = extraLines(description);
  const cents = lines.reduce((sum, line) => sum + line.amountCents, 0);
  return {
    kinds,
    book,
    description,
    materials,
    tasks,
    lineOfTask,
    travel: new Map(),
    trips: new Map(),
    extras: { cents, hours, ownerHours },
  };
}

/** What so much of a kind of material costs: counted, or cut in pieces. */
export function materialCost(prices: Prices, kind: number, wanted: number | readonly number[]): Cost {
  const known = prices.materials[kind] ?? new Map<string | number, Cost>();
  prices.materials[kind] = known;
  const text = typeof wanted === 'number' ? toFourDecimals(wanted) : [...wanted].sort((a, b) => a - b).join(' ');
  const before = known.get(text);
  if (before) return before;
  const found = prices.kinds.list[kind];
  if (found?.is !== 'material') return { cents: 0, unpriced: 0 };
  const { pieces: _pieces, quantity: _quantity, ...demand } = found.demand;
  const amount = typeof wanted === 'number' ? { quantity: wanted } : { pieces: [...wanted] };
  const lines = materialLines({
    demands: [{ ...demand, ...amount }],
    book: prices.book,
    description: prices.description,
  });
  const cost = {
    cents: lines.reduce((sum, line) => sum + line.amountCents, 0),
    unpriced: lines.filter(({ priced }) => !priced).length,
  };
  known.set(text, cost);
  return cost;
}

/** What is known of a kind of labor: hours by the book, and the rate of its line. */
export function taskPrice(prices: Prices, kind: TaskKind): TaskPrice {
  const known = prices.tasks[kind.at];
  if (known) return known;
  const { demand } = kind;
  const { terms } = prices.description;
  const [one] = reckonTasks([{ ...demand, quantity: 1 }], prices.book);
  const figures = one?.figures;
  const perUnit = figures?.unit.likely ?? 0;
  const factor = one?.task.factor ?? 1;
  const rate = figures && rateOf(figures.unit, { book: prices.book, terms });
  const text = `${demand.task} ${demand.scope}`;
  const line = prices.lineOfTask.get(text) ?? prices.lineOfTask.size;
  prices.lineOfTask.set(text, line);
  const price: TaskPrice = {
    hoursPerUnit: perUnit * factor,
    hoursOf: (quantity) => toFourDecimals(toFourDecimals(quantity) * perUnit * factor),
    known: figures !== undefined,
    owners: isOwners(demand.scope, terms),
    rateCents: rate && toFourDecimals(rate.likely),
    line,
  };
  prices.tasks[kind.at] = price;
  return price;
}

/** Labor of a tally, added up line by line. */
interface Worked {
  hours: number;
  ownerHours: number;
  lineHours: number[];
  lineRate: (number | undefined)[];
  /** Lines that lack a figure or a rate. */
  lacking: Set<number>;
}

function work(prices: Prices, worked: Worked, kind: TaskKind, quantity: number): void {
  const price = taskPrice(prices, kind);
  const hours = price.hoursOf(quantity);
  worked.hours += hours;
  if (price.owners) {
    worked.ownerHours += hours;
    return;
  }
  worked.lineHours[price.line] = (worked.lineHours[price.line] ?? 0) + hours;
  worked.lineRate[price.line] = price.rateCents;
  if (!price.known || price.rateCents === undefined) worked.lacking.add(price.line);
}

/** The days and trips that a tally's hours take, driving included, as the lines would have them. */
function tripsFor(prices: Prices, plan: PlannedOption, { hours, ownerHours }: Worked) {
  const { description } = prices;
  if (description.terms.who === 'owner') return { trips: 0, days: 0 };
  let trips = 0;
  for (let round = 0; ; round += 1) {
    const further = travelHours(prices, plan, trips);
    const all = toFourDecimals(hours + further.hours) - toFourDecimals(ownerHours + further.ownerHours);
    const days = daysOf(all, description);
    const needed = prices.trips.get(days) ?? tripsOf(plan, days);
    prices.trips.set(days, needed);
    if (needed <= trips || round >= MOST_ROUNDS) return { trips, days };
    trips = needed;
  }
}

function travelPart(prices: Prices, plan: PlannedOption, trips: number): Part {
  const known = prices.travel.get(trips);
  if (known) return known;
  const part = partOf(prices.kinds, travelDemands(plan, trips));
  prices.travel.set(trips, part);
  return part;
}

function travelHours(prices: Prices, plan: PlannedOption, trips: number) {
  const worked: Worked = { hours: 0, ownerHours: 0, lineHours: [], lineRate: [], lacking: new Set() };
  const { kinds, amounts } = travelPart(prices, plan, trips);
  kinds.forEach((at, index) => {
    const kind = prices.kinds.list[at];
    if (kind?.is === 'task') work(prices, worked, kind, amounts[index] ?? 0);
  });
  return worked;
}

/**
 * What an option costs that takes so much: Σ lines, with what the owner's hours are weighed at. A minimum charge is part
 * of what it costs and not of what plans are weighed by: it would make all below it alike.
 * @param plan  for its terms and inspections: which ones does not depend on how circuits are laid
 */
export function costOf(prices: Prices, plan: PlannedOption, tally: Tally): Cost & { costCents: number; days: number } {
  const worked: Worked = { hours: 0, ownerHours: 0, lineHours: [], lineRate: [], lacking: new Set() };
  let cents = prices.extras.cents;
  let unpriced = 0;
  const count = (at: number, amount: number) => {
    const kind = prices.kinds.list[at];
    if (kind?.is === 'task') work(prices, worked, kind, amount);
    else if (kind) {
      const cost = materialCost(prices, at, tally.pieces.get(at) ?? amount);
      cents += cost.cents;
      unpriced += cost.unpriced;
    }
  };
  for (const at of tally.touched) count(at, tally.amounts[at] ?? 0);
  const { trips, days } = tripsFor(prices, plan, worked);
  const { kinds, amounts } = travelPart(prices, plan, trips);
  kinds.forEach((at, index) => {
    count(at, amounts[index] ?? 0);
  });
  worked.lineHours.forEach((hours, line) => {
    const rate = worked.lineRate[line];
    if (worked.lacking.has(line) || rate === undefined) unpriced += 1;
    else cents += amountCents({ quantity: toFourDecimals(hours), unitPriceCents: rate });
  });
  const { terms } = prices.description;
  const costCents = terms.who === 'owner' ? cents : Math.max(cents, terms.minimumCents);
  const ownerHours = toFourDecimals(toFourDecimals(worked.ownerHours) + prices.extras.ownerHours);
  return { costCents, cents: cents + Math.round(ownerHours * terms.ownerHourCents), unpriced, days };
}
