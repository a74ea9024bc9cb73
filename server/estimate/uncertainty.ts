import type { Finding, Line, Range, Unknown } from './answer.ts';
import { isSound, type TryChanged } from './changed-option.ts';
import { type Description, routeOf } from './description.ts';
import type { KnownLines } from './known-lines.ts';
import { laborLines, reckonTasks } from './labor.ts';
import { priceTakeoff } from './lines.ts';
import { materialLines } from './material-lines.ts';
import { nearWord } from './near-words.ts';
import { asOldAs } from './offer-days.ts';
import type { OptionEstimate } from './option-estimate.ts';
import type { PlannedOption } from './plan-types.ts';
import type { Book, Offer, PriceItem } from './price-book.ts';
import { type Fact, factsOf, outletShortages } from './range/facts.ts';
import { plansAtLengths } from './range/lengths.ts';
import type { CrewDays, Scenario } from './range/mixture.ts';
import { openFactsOf } from './range/open-facts.ts';
import { unknownsOf } from './range/unknowns.ts';
import { pricedDraws, rangeOf } from './range.ts';
import { widenedPrice } from './shelf-life.ts';
import { headsOf } from './takeoff/factors.ts';
import { takeoffOf } from './takeoff/takeoff.ts';
import { travelDemands } from './takeoff/travel.ts';
import { CHANCES, LINE_CLASSES } from './vocabulary.ts';

/** What is not known about an option, in money. */
export interface Uncertainty {
  range: Range;
  unknowns: Unknown[];
  findings: Finding[];
}

/** An option as estimated, and what its range is made with. */
export interface UncertainOption {
  one: OptionEstimate;
  /** For an outlet that is there: the plan of a circuit of its own instead, where one can be built. */
  ownCircuit?: PlannedOption | undefined;
  description: Description;
  book: Book;
}

/** The range of an option, with what drives it, what may be so by which chance, and what is worth finding out. */
export function uncertaintyOf({ one, ownCircuit, description, book }: UncertainOption): Uncertainty {
  const { answer, plan } = one;
  const known: KnownLines = new Map();
  const linesIn = (changed: PlannedOption) =>
    priceTakeoff({ takeoff: takeoffOf(changed), plan: changed, book, known }).lines;
  const facts = factsOf({ plan, book, fits: answer.service.fits, ownCircuit });
  const { scenarios, findings } = scenariosOf({ facts, description, book, lines: answer.lines, linesIn });
  const atLengths = plansAtLengths(plan);
  const aged = (lines: readonly Line[]) => widenedByAge(lines, book, description.asOf);
  const priced = pricedDraws(
    {
      lines: aged(answer.lines),
      atLengths: atLengths.map((changed) => aged(linesIn(changed))),
      scenarios: scenarios.map((scenario) => ({ ...scenario, lines: aged(scenario.lines) })),
      crewDays: crewDaysOf(plan, book),
    },
    description.terms,
  );
  const drawn = scenarios.map(({ name }) => name);
  const open = openFactsOf(plan, pathsOf(description, answer.id)).filter(
    (fact) => !fact.onlyWithScenario || fact.scenarios.some((name) => drawn.includes(name)),
  );
  return {
    range: rangeOf(priced),
    unknowns: unknownsOf({ priced, plan, atLengths, lines: answer.lines, open }),
    findings: [...findings, ...namesNotKnown(description)],
  };
}

/**
 * The plan of an option that uses an outlet whose circuit or ground nobody knows, with a circuit of its own instead:
 * what is built where the outlet will not do. Nothing where there is no route to plan, or it cannot be built.
 */
export function ownCircuitOf(
  { plan }: OptionEstimate,
  description: Description,
  tryChanged: TryChanged,
): PlannedOption | undefined {
  const { receptacle: _receptacle, ...rest } = plan.option;
  if (outletShortages(plan).length === 0 || routeOf(description, plan.option).length === 0) return undefined;
  const changed = tryChanged({ ...rest, feed: 'dedicated-circuit' });
  return changed && isSound(changed.answer) ? changed.plan : undefined;
}

/** Lines with ends as far apart as the age of their prices makes them. Of labor the age of the unit counts. */
function widenedByAge(lines: readonly Line[], book: Book, asOf: string | undefined): Line[] {
  return lines.map((line) => {
    const item = line.stale && line.priced ? book.byKey(line.key) : undefined;
    if (!item) return line;
    const { lowCents: low, amountCents: likely, highCents: high } = line;
    const wider = widenedPrice({ low, likely, high }, asOldAs(item, offerOfLine(line, item)), asOf);
    return { ...line, lowCents: wider.low, highCents: wider.high };
  });
}

/** The package that a line was bought as; by the foot a line names none. */
function offerOfLine({ package: sold, unit }: Line, { offers }: PriceItem): Offer | undefined {
  if (!sold) return offers.find(({ quantity }) => quantity === 1);
  return offers.find((offer) => offer.package === unit && offer.quantity === sold.size);
}

function pathsOf({ options }: Description, id: string) {
  const at = options.findIndex((option) => option.id === id);
  const option = `options.${at}`;
  return { option, route: options[at]?.route ? `${option}.route` : 'route' };
}

interface FactsInMoney {
  facts: readonly Fact[];
  description: Description;
  book: Book;
  lines: readonly Line[];
  linesIn: (plan: PlannedOption) => Line[];
}

/** The facts that change this option, with their chances; what lacks a chance or a price is said, and left out. */
function scenariosOf({ facts, description, book, lines, linesIn }: FactsInMoney): {
  scenarios: Scenario[];
  findings: Finding[];
} {
  const scenarios: Scenario[] = [];
  const findings: Finding[] = [];
  for (const fact of facts) {
    const changed = linesIn(fact.plan);
    if (isAlike(changed, lines)) continue;
    const lacking = lackOf(changed, lines);
    const known = chanceOf(fact, description, book);
    if (lacking || !known) {
      const missing = lacking ? `a price for ${lacking}` : `the chance "${fact.bookName}"`;
      findings.push(leftOut(fact, missing));
      continue;
    }
    const { name, group, because } = fact;
    const before = scenarios.filter((one) => one.group === group && group === 'slab');
    const left = 1 - before.reduce((sum, { chance }) => sum + chance, 0);
    scenarios.push({
      name,
      group,
      chance: known.chance,
      givenChance: left > 0 ? Math.min(1, known.chance / left) : 0,
      because: `${because}: ${known.because}.`,
      lines: changed,
    });
  }
  return { scenarios, findings };
}

/** Do two lists of lines come to the same? */
function isAlike(one: readonly Line[], other: readonly Line[]): boolean {
  return (
    one.length === other.length &&
    one.every(({ key, amountCents, priced }, at) => {
      const line = other[at];
      return line?.key === key && line.amountCents === amountCents && line.priced === priced;
    })
  );
}

/** The first line that has no price in the changed case and is none of the likeliest. */
function lackOf(changed: readonly Line[], lines: readonly Line[]): string | undefined {
  const known = new Set(lines.filter(({ priced }) => !priced).map(({ key }) => key));
  return changed.find(({ key, priced }) => !priced && !known.has(key))?.description;
}

const percent = (chance: number) => `${Math.round(chance * 1000) / 10} %`;

/** The chance that is stated, else the book's; nothing where neither says one. */
function chanceOf(
  { name, bookName }: Fact,
  { chances = {} }: Description,
  book: Book,
): { chance: number; because: string } | undefined {
  const stated = chances[name];
  if (stated !== undefined) return { chance: stated, because: `${percent(stated)}, as stated` };
  const item = book.bySpec({ is: 'other', name: bookName });
  if (item?.kind !== 'factor' || item.likely > 1) return undefined;
  return { chance: item.likely, because: `${percent(item.likely)}, the price book's "${item.description}"` };
}

function leftOut({ name, because }: Fact, missing: string): Finding {
  return {
    rule: 'chance-left-out',
    severity: 'caution',
    message: `${because}: it may be so, and the price book lacks ${missing}. The range is without it; state chances.${name} or add it to the price book.`,
    numbers: { name },
  };
}

/** A stated chance by a name that there is not changes nothing, and that is said. */
function namesNotKnown({ chances = {} }: Description): Finding[] {
  const known: readonly string[] = CHANCES;
  return Object.keys(chances)
    .filter((name) => !known.includes(name))
    .map((name) => {
      const meant = nearWord(name, known);
      const instead = meant === undefined ? `Known are ${known.join(', ')}.` : `Did you mean "${meant}"?`;
      const message = `There is no chance by the name of "${name}", so that it changes nothing. ${instead}`;
      return { rule: 'chance-name', severity: 'caution', message, numbers: { name } };
    });
}

/** Trips between which the price of one more is found: beyond every first one and every visit of an inspector. */
const MANY_TRIPS = 20;

/** What a further day of the crew costs; nothing for an owner, who lives there. */
function crewDaysOf(plan: PlannedOption, book: Book): CrewDays | undefined {
  const { description } = plan;
  if (description.terms.who === 'owner') return undefined;
  const linesFor = (trips: number) => {
    const { materials, tasks } = travelDemands(plan, trips);
    return [
      ...materialLines({ demands: materials, book, description }),
      ...laborLines({ reckoned: reckonTasks(tasks, book), book, description }),
    ];
  };
  const tripCents = { material: 0, labor: 0, equipment: 0, fee: 0 };
  for (const line of linesFor(MANY_TRIPS + 1)) tripCents[line.class] += line.amountCents;
  for (const line of linesFor(MANY_TRIPS)) tripCents[line.class] -= line.amountCents;
  const isFree = LINE_CLASSES.every((name) => tripCents[name] === 0);
  return isFree ? undefined : { hoursPerDay: headsOf(plan) * description.terms.hoursPerDay, tripCents };
}
