import type { EstimateOption, Finding, Line, PREPARED } from './answer.ts';
import { priceTakeoff } from './lines.ts';
import { toFourDecimals, wholeDollars } from './money.ts';
import type { MaterialDemand, PlannedOption, Takeoff, TaskDemand } from './plan-types.ts';
import type { Book } from './price-book.ts';
import { withItsEnd } from './takeoff/empty-raceways.ts';
import { takeoffOf } from './takeoff/takeoff.ts';
import { totalsOf } from './totals.ts';

type Later = NonNullable<EstimateOption['later']>;

/** What a later job has to have once more, though the first one had it: permit, inspector, tidying. */
const ONCE_MORE = /^(?:permit-.*|inspection-.*|load-calc-permit|cleanup)$/;

/**
 * What finishing or using later costs what is only laid now, at today's prices and terms, as a job of its own. Whole
 * cents; nothing, and a caution, where the price book lacks something that it takes.
 */
export function laterOf(plan: PlannedOption, book: Book): { later?: Later; findings: Finding[] } {
  const roughedIn = plan.option.roughInOnly && plan.runs.length > 0 ? finishing(plan, book) : undefined;
  const spare = usingSpare(plan, book);
  const [first] = [roughedIn, spare].flatMap((one) => one ?? []);
  if (!first) return { findings: [] };
  const because = [roughedIn, spare].flatMap((one) => one?.because ?? []).join(' ');
  if (first.cents === undefined) return { findings: [said('caution', because, {})] };
  const ways = [...wayOf('rough-in', roughedIn), ...wayOf('spare-conduit', spare)];
  return { later: { cents: first.cents, because, ways }, findings: [said('note', because, { cents: first.cents })] };
}

function wayOf(kind: (typeof PREPARED)[number], one: Priced | undefined): NonNullable<Later['ways']> {
  if (one?.cents === undefined) return [];
  const { cents, withoutItCents } = one;
  return [{ kind, cents, ...(withoutItCents !== undefined && { withoutItCents }) }];
}

function said(severity: Finding['severity'], message: string, numbers: Finding['numbers']): Finding {
  return { rule: 'later', severity, message, numbers };
}

interface Priced {
  cents?: number;
  /** The same later job where nothing is laid for it now. */
  withoutItCents?: number;
  because: string;
}

/** A rough-in that is finished: conductors, breakers, panel and outlets, without what is in the walls and the ground by then. */
function finishing(plan: PlannedOption, book: Book): Priced {
  const job = alone(plan, 'later');
  const whole = alone(plan, 'now');
  const later = priced(remaining(job), { ...job, ditches: [] }, book);
  const atOnce = priced(takeoffOf(whole), whole, book);
  if (later.missing.length > 0) return unpriced('finishing it', later.missing);
  const all = atOnce.missing.length === 0 ? ` All of it built at once now: ${wholeDollars(atOnce.cents)}.` : '';
  return {
    cents: later.cents,
    because: `Finishing it later, with its own permit and trips: ${wholeDollars(later.cents)} at today's prices.${all}`,
  };
}

/** The later feeder pulled through the spare raceway, against digging for it again. */
function usingSpare(plan: PlannedOption, book: Book): Priced | undefined {
  const spare = plan.emptyRaceways?.find(({ use }) => use === 'spare');
  if (!spare) return undefined;
  const { grounding: _grounding, panel: _panel, ...route } = alone(plan, 'later');
  const { subpanel: _subpanel, loadManagement: _managed, ...option } = route.option;
  const job = withItsEnd(
    { ...route, option: { ...option, feed: 'subpanel', existingSupply: 'none', chargers: [] }, runs: [spare.run] },
    spare,
  );
  const through = priced(remaining(job), { ...job, ditches: [] }, book);
  const again = priced(takeoffOf(job), job, book);
  const missing = [...through.missing, ...again.missing];
  if (missing.length > 0) return unpriced('using the spare conduit', missing);
  const { ocpdA } = spare.run;
  return {
    cents: through.cents,
    withoutItCents: again.cents,
    because:
      `A feeder of ${ocpdA} A pulled through the spare conduit later, connected at both ends, without what it then feeds: ` +
      `${wholeDollars(through.cents)} at today's prices. Laid anew without it: ${wholeDollars(again.cents)}, ` +
      `${wholeDollars(again.cents - through.cents)} more.`,
  };
}

function unpriced(what: string, missing: readonly string[]): Priced {
  return {
    because: `What ${what} later costs is not known: the price book lacks ${[...new Set(missing)].join(', ')}.`,
  };
}

/** The option as a job of its own: whole, without what belongs to the first job or to the whole description. */
function alone(plan: PlannedOption, when: 'now' | 'later'): PlannedOption {
  const { serviceWork: _work, emptyRaceways: _empty, ...rest } = plan;
  const { serviceUpgrade: _upgrade, spareConduit: _spare, dataConduit: _data, ...option } = plan.option;
  const terms = { ...plan.description.terms, discountCents: 0 };
  const { site } = plan.description;
  const work = when === 'later' ? 'retrofit' : site.work; // by then the house is finished
  return {
    ...rest,
    option: { ...option, roughInOnly: false },
    description: { ...plan.description, site: { ...site, work }, extras: [], terms },
  };
}

function priced(takeoff: Takeoff, plan: PlannedOption, book: Book): { cents: number; missing: string[] } {
  const { lines } = priceTakeoff({ takeoff, plan, book });
  const missing = lines.filter((line: Line) => !line.priced).map(({ description }) => description);
  return { cents: totalsOf(lines, plan.description).totalCents, missing };
}

/** What a job takes beyond the raceways, boxes and ditches of its rough-in. */
function remaining(plan: PlannedOption): Takeoff {
  const whole = takeoffOf({ ...plan, ditches: [] });
  const there = takeoffOf({ ...plan, ditches: [], option: { ...plan.option, roughInOnly: true } });
  return {
    materials: without(whole.materials, there.materials, materialName),
    tasks: without(whole.tasks, there.tasks, ({ task }) => task),
    wire: whole.wire,
  };
}

const materialName = ({ spec }: MaterialDemand) => (spec.is === 'other' ? spec.name : JSON.stringify(spec));

/** Takes from demands, one after the other, what is there already; lengths that may not be spliced are never there. */
function without<Demand extends MaterialDemand | TaskDemand>(
  demands: readonly Demand[],
  there: readonly Demand[],
  nameOf: (demand: Demand) => string,
): Demand[] {
  const left = new Map<string, number>();
  for (const demand of there) {
    const name = nameOf(demand);
    if (!ONCE_MORE.test(name)) left.set(name, (left.get(name) ?? 0) + (demand.quantity ?? 0));
  }
  return demands.flatMap((demand) => {
    if (demand.quantity === undefined) return [demand];
    const name = nameOf(demand);
    const spent = Math.min(demand.quantity, left.get(name) ?? 0);
    left.set(name, (left.get(name) ?? 0) - spent);
    const quantity = toFourDecimals(demand.quantity - spent);
    return quantity > 0 ? [{ ...demand, quantity }] : [];
  });
}
