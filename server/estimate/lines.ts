import type { Labor, Line } from './answer.ts';
import type { Description } from './description.ts';
import type { KnownLines } from './known-lines.ts';
import { hoursOfAll, isOwners, laborLines, type Reckoned, reckonTasks } from './labor.ts';
import { materialLines } from './material-lines.ts';
import { minimumCharge } from './minimum-charge.ts';
import { amountCents, toFourDecimals } from './money.ts';
import type { MaterialDemand, PlannedOption, Takeoff } from './plan-types.ts';
import type { Book } from './price-book.ts';
import { statedPermitCents } from './takeoff/fees.ts';
import { travelDemands, tripsOf } from './takeoff/travel.ts';

interface JobInput {
  takeoff: Takeoff;
  plan: PlannedOption;
  book: Book;
  /** Where only the numbers of the lines are used: those that were made before. */
  known?: KnownLines | undefined;
}

/**
 * Prices a take-off: purchases, labor, travel, extras and the minimum charge as lines, and the hours behind them.
 * Σ amounts of the lines is the cost. An item, labor unit or rate that the book lacks gives a line with `priced` false.
 */
export function priceTakeoff({ takeoff, plan, book, known }: JobInput): {
  lines: Line[];
  labor: Omit<Labor, 'visits'>;
} {
  const { description } = plan;
  const extras = extraLines(description);
  const { reckoned, materials } = withTravel({ takeoff, plan, book });
  const { permit, others } = statedPermit([...takeoff.materials, ...materials], plan);
  const lines = [
    ...materialLines({ demands: others, book, description, known }),
    ...permit,
    ...laborLines({ reckoned, book, description, known }),
    ...extras.lines,
  ];
  const worked = hoursOfAll(reckoned, description.terms);
  const hours = toFourDecimals(worked.hours + extras.hours);
  return {
    lines: [...lines, ...minimumCharge(lines, description)],
    labor: {
      hours,
      workingDays: daysOf(hours, description),
      ownerHours: toFourDecimals(worked.ownerHours + extras.ownerHours),
      tasks: [...reckoned.map(({ task }) => task), ...extras.tasks],
    },
  };
}

/** Days that person-hours take the crew, whole ones. */
export function daysOf(hours: number, { terms: { crew, crewSize, hoursPerDay } }: Description): number {
  const heads = crew ? crew.reduce((sum, { count }) => sum + count, 0) : crewSize;
  return Math.ceil(toFourDecimals(hours / (Math.max(1, heads) * hoursPerDay)));
}

/** Rounds of the search for days and trips; ours. A crew that drives longer than it may work in a day never gets done. */
export const MOST_ROUNDS = 30;

/** Tasks with the trips that their days need: driving takes hours too, so both are sought together. An owner lives there. */
function withTravel({ takeoff, plan, book }: JobInput): { reckoned: Reckoned[]; materials: MaterialDemand[] } {
  const { terms } = plan.description;
  const onSite = reckonTasks(takeoff.tasks, book);
  let trips = 0;
  for (let round = 0; ; round++) {
    const { materials, tasks } = travelDemands(plan, trips);
    const reckoned = [...onSite, ...reckonTasks(tasks, book)];
    const { hours, ownerHours } = hoursOfAll(reckoned, terms);
    const needed = terms.who === 'owner' ? 0 : tripsOf(plan, daysOf(hours - ownerHours, plan.description));
    if (needed <= trips || round >= MOST_ROUNDS) return { reckoned, materials };
    trips = needed;
  }
}

const PERMIT_FEES = ['permit-circuit', 'permit-subpanel', 'permit-service-upgrade'];

/** A permit fee that the description states takes the place of the book's: one line, the same in every case. */
export function statedPermit(
  demands: readonly MaterialDemand[],
  plan: PlannedOption,
): { permit: Line[]; others: readonly MaterialDemand[] } {
  const feeCents = statedPermitCents(plan);
  if (feeCents === undefined) return { permit: [], others: demands };
  const isPermit = ({ spec }: MaterialDemand) => spec.is === 'other' && PERMIT_FEES.includes(spec.name);
  const first = demands.find(isPermit);
  if (!first) return { permit: [], others: demands };
  const line: Line = {
    key: first.spec.is === 'other' ? first.spec.name : 'permit',
    description: first.description,
    class: 'fee',
    scope: 'permit',
    ...fixed({ quantity: 1, unit: 'each', unitPriceCents: feeCents }),
    legs: [],
    because: first.because,
  };
  return { permit: [line], others: demands.filter((demand) => !isPermit(demand)) };
}

/** The numbers of a line whose price is stated. */
function fixed({ quantity, unit, unitPriceCents }: { quantity: number; unit: string; unitPriceCents: number }) {
  const cents = amountCents({ quantity, unitPriceCents });
  return {
    quantity: toFourDecimals(quantity),
    unit,
    unitPriceCents: toFourDecimals(unitPriceCents),
    amountCents: cents,
    lowCents: cents,
    highCents: cents,
    taken: toFourDecimals(quantity),
    takenUnit: unit,
    leftOver: 0,
    priced: true,
    stale: false,
  };
}

/** What the user adds to every option. Labor of a scope that the owner does keeps its hours and has no line. */
export function extraLines({ extras, terms }: Description) {
  const lines: Line[] = [];
  const tasks: Labor['tasks'] = [];
  let hours = 0;
  let ownerHours = 0;
  extras.forEach((extra, at) => {
    const key = `extra-${at + 1}`;
    const byOwner = extra.class === 'labor' && isOwners(extra.scope, terms);
    const { quantity, unit, unitPriceCents, description } = extra;
    const because = ['added by hand'];
    if (extra.hours !== undefined) {
      const worked = toFourDecimals(extra.hours);
      const entry = { quantity: 1, unit: 'job', hoursPerUnit: worked, factor: 1, hours: worked, legs: [] };
      tasks.push({ key, ...entry, because: [description] });
      hours += worked;
      if (byOwner) ownerHours += worked;
    }
    if (byOwner) return;
    lines.push({
      ...{ key, description, class: extra.class, scope: extra.scope, legs: [], because },
      ...fixed({ quantity, unit, unitPriceCents }),
      lowCents: amountCents({ quantity, unitPriceCents: extra.lowCents ?? unitPriceCents }),
      highCents: amountCents({ quantity, unitPriceCents: extra.highCents ?? unitPriceCents }),
      ...(extra.hours !== undefined && { hours: toFourDecimals(extra.hours) }),
    });
  });
  return { lines, tasks, hours, ownerHours };
}
