import type { PlannedOption } from '../plan-types.ts';
import { counted, type Demands, joined, named, shown, work } from './demand.ts';
import { headsOf } from './factors.ts';
import { hasWork, inspectionsOf, stopsOfWork } from './inspections.ts';

const SCOPE = 'travel';

/**
 * How often somebody drives there: the crew on each of its days, and at least once more than the work stops for an
 * inspector, whom it meets as it comes back; then one of them for each other visit. 0 where nothing is built.
 */
export function tripsOf(plan: PlannedOption, workingDays: number): number {
  if (!hasWork(plan)) return 0;
  const stops = stopsOfWork(plan);
  const days = Math.ceil(workingDays);
  return (days > 0 ? Math.max(days, stops + 1) : stops) + visitsBeside(plan);
}

/** Visits that no day of work is for: the final inspection, and the utility's. */
function visitsBeside(plan: PlannedOption): number {
  return inspectionsOf(plan).final + (plan.serviceWork ? 1 : 0);
}

/** Of a day of work so much is driven at most: a farther crew stays the night, which costs as much. Common practice, no source. */
const DRIVEN_OF_A_DAY = 0.5;

/** Person-hours on the road: the whole drive on the first trip and to an inspection, on further days no more than half of them. */
function drivenHours({ plan, workTrips, metAlone }: { plan: PlannedOption; workTrips: number; metAlone: number }): {
  hours: number;
  words: string;
} {
  const { travel, hoursPerDay } = plan.description.terms;
  const wholeHours = (2 * travel.minutesEachWay) / 60;
  const dailyHours = Math.min(wholeHours, hoursPerDay * DRIVEN_OF_A_DAY);
  const isFar = dailyHours < wholeHours && workTrips > 1;
  return {
    hours: (wholeHours + (workTrips - 1) * dailyHours) * headsOf(plan) + metAlone * wholeHours,
    words: isFar ? `; on further days of work ${shown(dailyHours)} h, for a night near by costs as much` : '',
  };
}

/**
 * What getting there takes: setting up and driving, by each person of the crew, in person-hours; miles once, for the
 * vehicle. The final inspection and the utility are met by one of them (common practice, no source).
 */
export function travelDemands(plan: PlannedOption, trips: number): Demands {
  if (!hasWork(plan) || trips <= 0) return joined([]);
  const { milesEachWay, minutesEachWay } = plan.description.terms.travel;
  const heads = headsOf(plan);
  const metAlone = Math.min(visitsBeside(plan), trips - 1);
  const personTrips = (trips - metAlone) * heads + metAlone;
  const { hours: driven, words: nightWords } = drivenHours({ plan, workTrips: trips - metAlone, metAlone });
  const crewWords =
    heads === 1 ? '' : `, ${heads} people on each day of work and one for the final inspection or the utility`;
  return joined([
    named({
      name: 'vehicle-mile',
      description: 'vehicle, by the mile',
      class: 'equipment',
      scope: SCOPE,
      unit: 'mile',
      quantity: 2 * milesEachWay * trips,
      because: `${counted(trips, 'trip')} of 2 × ${shown(milesEachWay)} miles`,
    }),
    work({
      task: 'mobilise-first',
      scope: SCOPE,
      unit: 'trip',
      quantity: heads,
      because: `set up on the first trip: load, unload, protect floors, lock out${heads === 1 ? '' : `, ${heads} people`}`,
    }),
    work({
      task: 'mobilise-return',
      scope: SCOPE,
      unit: 'trip',
      quantity: personTrips - heads,
      because: `set up again on ${counted(trips - 1, 'further trip')}${crewWords}`,
    }),
    work({
      task: 'drive',
      scope: SCOPE,
      unit: 'h',
      quantity: driven,
      because: `${counted(trips, 'trip')} of 2 × ${shown(minutesEachWay)} minutes${crewWords}${nightWords}`,
    }),
  ]);
}
