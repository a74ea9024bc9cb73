import type { EstimateOption } from '../estimate/answer.ts';
import type { Terms } from '../estimate/description/terms.ts';
import type { Scope } from '../estimate/vocabulary.ts';

/**
 * The order in which a crew works, by the price book's key of the task or else by its scope: the ground is opened first
 * and closed last. Common practice, no source.
 */
const ORDER: readonly (Scope | RegExp)[] = [
  /^(?:load-calc-permit|locate-call|layout-route)$/,
  'permit',
  'service-upgrade',
  /-setup$/,
  'hard-surface',
  'trench',
  'boxes',
  'conduit',
  'wire',
  'grounding',
  'panel',
  'load-management',
  'outlet',
  'breaker',
  'charger',
  'other',
  /^(?:warning-tape|bedding-sand|backfill.*)$/,
  'restoration',
  /^(?:test-energize|cleanup)$/,
  /^inspection-/,
];
/** A task that is done but for so many hours is ended the same day. */
const OVER_HOURS = 0.5;

/** A task, or what of it is done on one day. Hours are person-hours. */
export interface DayTask {
  words: string;
  legs: number[];
  quantity: number;
  /** So much of it lies there, where its hours are reckoned for more or less. */
  inPlace?: number | undefined;
  unit: string;
  hours: number;
  /** Was it begun on the day before? */
  goesOn: boolean;
}

/** How many people work together. */
export function headsOf({ crew, crewSize }: Pick<Terms, 'crew' | 'crewSize'>): number {
  return crew ? crew.reduce((sum, { count }) => sum + count, 0) : crewSize;
}

type Named = DayTask & { rank: number; isTravel: boolean };

/**
 * An option's tasks dealt out over the days of its crew, in the order of the work; a long task goes on the next day.
 * Driving and setting up are shared evenly among the days, and stand first in each.
 */
export function crewDays(
  option: Pick<EstimateOption, 'labor' | 'lines'>,
  terms: Pick<Terms, 'crew' | 'crewSize' | 'hoursPerDay'>,
): DayTask[][] {
  const named = namedTasks(option);
  const dayCount = Math.max(1, option.labor.workingDays);
  const travelHours = named.reduce((sum, { isTravel, hours }) => sum + (isTravel ? hours : 0), 0) / dayCount;
  const freeHours = Math.max(1, headsOf(terms) * terms.hoursPerDay - travelHours);
  const days = dealtOut(
    named.filter(({ isTravel }) => !isTravel).sort((a, b) => a.rank - b.rank),
    freeHours,
  );
  if (travelHours === 0) return days;
  const travel: DayTask = {
    words: 'drive, load and set up',
    legs: [],
    quantity: 1,
    unit: 'day',
    hours: travelHours,
    goesOn: false,
  };
  return days.map((tasks) => [travel, ...tasks]);
}

function namedTasks({ labor, lines }: Pick<EstimateOption, 'labor' | 'lines'>): Named[] {
  const lineOf = new Map(lines.filter((line) => line.class === 'labor').map((line) => [line.key, line]));
  return labor.tasks.map(({ key, legs, quantity, inPlace, unit, hours }) => {
    const scope = lineOf.get(key)?.scope ?? 'other';
    const words = lineOf.get(key)?.description ?? key;
    return {
      words,
      legs,
      quantity,
      inPlace,
      unit,
      hours,
      goesOn: false,
      rank: rankOf(key, scope),
      isTravel: scope === 'travel',
    };
  });
}

function rankOf(key: string, scope: Scope): number {
  const byKey = ORDER.findIndex((place) => place instanceof RegExp && place.test(key));
  return byKey >= 0 ? byKey : ORDER.indexOf(scope);
}

function dealtOut(tasks: readonly Named[], dayHours: number): DayTask[][] {
  const days: DayTask[][] = [];
  let leftHours = 0;
  for (const { rank: _rank, isTravel: _isTravel, ...task } of tasks) {
    let toDoHours = task.hours;
    let goesOn = false;
    while (toDoHours > 0) {
      if (leftHours <= 0) {
        days.push([]);
        leftHours = dayHours;
      }
      const doneHours = toDoHours <= leftHours + OVER_HOURS ? toDoHours : leftHours;
      days.at(-1)?.push({ ...task, hours: doneHours, goesOn });
      toDoHours -= doneHours;
      leftHours -= doneHours;
      goesOn = true;
    }
  }
  return days;
}
