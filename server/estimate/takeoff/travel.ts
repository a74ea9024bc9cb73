import type { PlannedOption } from '../plan-types.ts';
import { counted, type Demands, joined, named, shown, work } from './demand.ts';
import { hasWork } from './inspections.ts';
import { visitsOf } from './schedule.ts';

/** The drive that the tasks of each trip allow for, in minutes each way. Common practice, no source. */
const COVERED_MINUTES = 30;
const SCOPE = 'travel';

/** How often somebody drives there: every day of every visit. 0 where nothing is built. */
export function tripsOf(plan: PlannedOption, workingDays: number): number {
  return visitsOf(plan, workingDays).reduce((sum, { days }) => sum + Math.ceil(days), 0);
}

/** What getting there takes: the first trip, each further one, the miles, and the minutes beyond half an hour. */
export function travelDemands(plan: PlannedOption, trips: number): Demands {
  if (!hasWork(plan) || trips <= 0) return joined([]);
  const { milesEachWay, minutesEachWay } = plan.description.terms.travel;
  const further = Math.max(0, minutesEachWay - COVERED_MINUTES);
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
      quantity: 1,
      because: 'the first trip: load, drive, protect floors, lock out',
    }),
    work({
      task: 'mobilise-return',
      scope: SCOPE,
      unit: 'trip',
      quantity: trips - 1,
      because: counted(trips - 1, 'further trip'),
    }),
    work({
      task: 'drive-further',
      scope: SCOPE,
      unit: 'h',
      quantity: (2 * further * trips) / 60,
      because: `${counted(trips, 'trip')} of 2 × ${shown(further)} minutes beyond the ${COVERED_MINUTES} that a trip allows for`,
    }),
  ]);
}
