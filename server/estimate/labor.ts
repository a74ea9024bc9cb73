import type { Labor, Line } from './answer.ts';
import type { Description } from './description.ts';
import { groupsOf, legsOfAll, reasonsOfAll } from './groups.ts';
import { type KnownLines, once } from './known-lines.ts';
import { amountCents, toFourDecimals } from './money.ts';
import type { TaskDemand } from './plan-types.ts';
import type { Book, PriceItem } from './price-book.ts';
import { isStale } from './shelf-life.ts';

type Task = Labor['tasks'][number];
type Terms = Description['terms'];
type Some<Thing> = readonly [Thing, ...Thing[]];

/** The rate that an hour costs, or is billed at, where the terms name none. */
const USUAL_RATE = { cost: 'rate-electrician', billed: 'rate-electrician-billed' } as const;

/** The key of the rate that an hour is reckoned at where nobody in the crew is of its task's trade. */
export const laborRateKeyOf = ({ laborRate, laborRateIs }: Terms) => laborRate ?? USUAL_RATE[laborRateIs];

/** A task with what the book says of it: its hours are known before anybody is paid for them. */
export interface Reckoned {
  demand: TaskDemand;
  task: Task;
  /** The labor unit and the factors on it; nothing where the book lacks one of them. */
  figures?: { unit: PriceItem; factors: PriceItem[] };
}

/** Hours of tasks: units × hours × factors of the book. Alike ones as one; person-hours throughout. */
export function reckonTasks(demands: readonly TaskDemand[], book: Book): Reckoned[] {
  const alike = groupsOf(demands, ({ task, scope, factors }) => `${task} ${scope} ${factors.join(' ')}`);
  return alike.map((group) => reckon(together(group), book));
}

/** Person-hours in all, and those of them that the owner works. */
export function hoursOfAll(reckoned: readonly Reckoned[], terms: Terms): { hours: number; ownerHours: number } {
  const owners = reckoned.filter(({ demand }) => isOwners(demand.scope, terms));
  return { hours: hoursOf(reckoned), ownerHours: hoursOf(owners) };
}

/**
 * Prices labor: one line a task, its hours at the rate of the task's trade where the crew has one, else at the labor
 * rate. What the owner does has no line.
 */
export function laborLines({
  reckoned,
  book,
  description,
  known,
}: {
  reckoned: readonly Reckoned[];
  book: Book;
  description: Description;
  known?: KnownLines | undefined;
}): Line[] {
  const paid = reckoned.filter(({ demand }) => !isOwners(demand.scope, description.terms));
  const ofOneTask = groupsOf(paid, ({ demand }) => `${demand.task} ${demand.scope}`);
  const linesFor = (group: Some<Reckoned>) => [laborLine({ group, book, description })];
  return ofOneTask.flatMap((group) =>
    known ? once(known, workInWords(group), () => linesFor(group)) : linesFor(group),
  );
}

/** One text for what decides the line of a task, but for its reasons. */
function workInWords(group: Some<Reckoned>): string {
  const [{ demand }] = group;
  const parts = group.map(({ task, demand: { factors } }) => `${task.hours} ${task.quantity} ${factors.join(' ')}`);
  return `labor ${demand.task} ${demand.scope} ${parts.join('; ')}`;
}

/** Does the owner do this scope, or all of it? */
export function isOwners(scope: TaskDemand['scope'], { who, ownerDoes }: Terms): boolean {
  return who === 'owner' || ownerDoes.includes(scope);
}

const hoursOf = (reckoned: readonly Reckoned[]) =>
  toFourDecimals(reckoned.reduce((sum, { task }) => sum + task.hours, 0));

function together(group: Some<TaskDemand>): TaskDemand {
  const quantity = group.reduce((sum, demand) => sum + demand.quantity, 0);
  const whole = {
    ...group[0],
    quantity: toFourDecimals(quantity),
    legs: legsOfAll(group),
    because: reasonsOfAll(group),
  };
  if (group.some(({ inPlace }) => inPlace !== undefined)) {
    whole.inPlace = toFourDecimals(group.reduce((sum, demand) => sum + (demand.inPlace ?? demand.quantity), 0));
  }
  return whole;
}

/** Says how much of a task lies there, where that is another quantity than its hours are reckoned for. */
function withInPlace(task: Task, { inPlace, quantity }: TaskDemand): Task {
  if (inPlace !== undefined && inPlace !== quantity) task.inPlace = inPlace;
  return task;
}

/** Hours of a demand. Where the book lacks a figure they are not known: the reason says so, its line has no price. */
function reckon(demand: TaskDemand, book: Book): Reckoned {
  const { task, quantity, legs, because } = demand;
  const unit = book.bySpec({ is: 'task', task });
  const factors = demand.factors.map((name) => book.bySpec({ is: 'other', name }));
  const known = factors.filter((factor) => factor !== undefined);
  const lacking = lackOf({ demand, unit, factors });
  if (!unit || lacking) {
    const why = [...because, ...(lacking ? [lacking] : [])];
    const unknown = {
      key: task,
      quantity,
      unit: demand.unit,
      hoursPerUnit: 0,
      factor: 1,
      hours: 0,
      legs,
      because: why,
    };
    return { demand, task: withInPlace(unknown, demand) };
  }
  const factor = toFourDecimals(known.reduce((product, { likely }) => product * likely, 1));
  const hours = toFourDecimals(quantity * unit.likely * factor);
  const why = [...because, ...known.map(({ description, likely }) => `× ${likely}: ${description}`)];
  const { unit: counted, likely: hoursPerUnit } = unit;
  const reckoned = { key: unit.key, quantity, unit: counted, hoursPerUnit, factor, hours, legs, because: why };
  return { demand, task: withInPlace(reckoned, demand), figures: { unit, factors: known } };
}

/** What the book lacks for a task, in a sentence. */
function lackOf({
  demand: { task, unit: askedUnit, factors: names },
  unit,
  factors,
}: {
  demand: TaskDemand;
  unit: PriceItem | undefined;
  factors: readonly (PriceItem | undefined)[];
}): string | undefined {
  if (!unit) return `The price book has no labor unit "${task}".`;
  if (unit.unit !== askedUnit) {
    return `The price book counts "${task}" by ${unit.unit}, and ${askedUnit} is asked for.`;
  }
  const missing = names[factors.indexOf(undefined)];
  return missing === undefined ? undefined : `The price book has no factor "${missing}".`;
}

/** The rate of a trade: of the crew's member of that trade, else the labor rate of the terms. */
export function rateOf(unit: PriceItem, { book, terms }: { book: Book; terms: Terms }): PriceItem | undefined {
  const crew = (terms.crew ?? []).flatMap(({ rate }) => rateByKey(book, rate) ?? []);
  const ofTrade = unit.trade && crew.find(({ trade }) => trade === unit.trade);
  return ofTrade || rateByKey(book, laborRateKeyOf(terms));
}

/** An item of the book that is a rate: the price of a breaker is no price of an hour. */
export function rateByKey(book: Book, key: string): PriceItem | undefined {
  const item = book.byKey(key);
  return item?.kind === 'rate' ? item : undefined;
}

interface LineInput {
  group: Some<Reckoned>;
  book: Book;
  description: Description;
}

function laborLine({ group, book, description }: LineInput): Line {
  const { terms, asOf } = description;
  const unit = group[0].figures?.unit;
  const rate = unit && rateOf(unit, { book, terms });
  if (!unit || group.some(({ figures }) => !figures)) return unpriced(group, []);
  if (!rate) return unpriced(group, [`The price book has no rate "${laborRateKeyOf(terms)}".`]);
  const hours = hoursOf(group);
  const unitPriceCents = toFourDecimals(rate.likely);
  const { low, high } = hourEnds({ group, rate });
  return {
    key: unit.key,
    description: unit.description,
    quantity: hours,
    unit: 'h',
    unitPriceCents,
    amountCents: amountCents({ quantity: hours, unitPriceCents }),
    lowCents: amountCents({ quantity: low, unitPriceCents }),
    highCents: amountCents({ quantity: high, unitPriceCents }),
    priced: true,
    stale: isStale(unit, asOf) || isStale(rate, asOf),
    because: reasonsOfAll(group.map(({ task }) => task)),
    ...common(group, hours),
  };
}

/** What a priced and an unpriced line of labor have in common. */
function common(group: Some<Reckoned>, hours: number) {
  return {
    class: 'labor' as const,
    scope: group[0].demand.scope,
    taken: hours,
    takenUnit: 'h',
    leftOver: 0,
    hours,
    legs: legsOfAll(group.map(({ task }) => task)),
  };
}

/** A line without a price, counted in hours where they are known, else in the task's own unit. */
function unpriced(group: Some<Reckoned>, reasons: readonly string[]): Line {
  const [{ demand, figures }] = group;
  const known = group.every((one) => one.figures);
  const hours = hoursOf(group);
  return {
    key: demand.task,
    description: figures?.unit.description ?? demand.task,
    quantity: known ? hours : toFourDecimals(group.reduce((sum, one) => sum + one.demand.quantity, 0)),
    unit: known ? 'h' : demand.unit,
    unitPriceCents: 0,
    amountCents: 0,
    lowCents: 0,
    highCents: 0,
    priced: false,
    stale: false,
    because: [...reasonsOfAll(group.map(({ task }) => task)), ...reasons],
    ...common(group, hours),
  };
}

/**
 * The ends of a line's hours, at the likely rate: labor unit, factors and rate do not all fall to one side together,
 * so their shares of spread add as the roots of squares. Ours; common practice, no source.
 */
function hourEnds({ group, rate }: { group: Some<Reckoned>; rate: PriceItem }): { low: number; high: number } {
  let low = 0;
  let high = 0;
  for (const { task, figures } of group) {
    const { below, above } = figures ? spreadOf(figures, rate) : NO_SPREAD;
    low += task.hours * Math.max(0, 1 - below);
    high += task.hours * (1 + above);
  }
  return { low: toFourDecimals(low), high: toFourDecimals(high) };
}

/** How far the ends of an hour's price lie from the likely one, as shares of it. */
interface Spread {
  factors: readonly PriceItem[];
  rate: PriceItem;
  below: number;
  above: number;
}
const NO_SPREAD = { below: 0, above: 0 };

/** The spreads of a labor unit under some factors and rates: few, and asked for with every line. */
const spreadsOfUnit = new WeakMap<PriceItem, Spread[]>();

function spreadOf({ unit, factors }: NonNullable<Reckoned['figures']>, rate: PriceItem): Spread {
  const known = spreadsOfUnit.get(unit) ?? [];
  const isSame = (one: Spread) =>
    one.rate === rate &&
    one.factors.length === factors.length &&
    factors.every((factor, at) => factor === one.factors[at]);
  const found = known.find(isSame);
  if (found) return found;
  const causes = [unit, ...factors, rate];
  const below = Math.hypot(...causes.map((cause) => shareOff(cause, cause.low)));
  const above = Math.hypot(...causes.map((cause) => shareOff(cause, cause.high)));
  const spread = { factors, rate, below, above };
  spreadsOfUnit.set(unit, [...known, spread]);
  return spread;
}

/** How far an end lies from the likely value, as a share of it. */
const shareOff = ({ likely }: PriceItem, end: number) => (likely > 0 ? Math.abs(end - likely) / likely : 0);
