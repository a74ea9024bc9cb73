import type { PlannedOption } from '../plan-types.ts';
import { counted, type Demands, joined, named, shown, work } from './demand.ts';
import { hasWork } from './inspections.ts';
import { visitsOf } from './schedule.ts';

const SCOPE = 'travel';

/** How often somebody drives there: every day of every visit. 0 where nothing is built. */
export function tripsOf(plan: PlannedOption, workingDays: number): number {
  return visitsOf(plan, workingDays).reduce((sum, { days }) => sum + Math.ceil(days), 0);
}

/** How many people the crew has. */
function headsOf({ description: { terms } }: PlannedOption): number {
  const { crew, crewSize } = terms;
  return Math.max(1, crew ? crew.reduce((sum, { count }) => sum + count, 0) : crewSize);
}

/**
 * What getting there takes: setting up and driving, by each person of the crew, in person-hours; miles once, for the
 * vehicle. Inspections and the utility are met by one of them (common practice, no source).
 */
export function travelDemands(plan: PlannedOption, trips: number): Demands {
  if (!hasWork(plan) || trips <= 0) return joined([]);
  const { milesEachWay, minutesEachWay } = plan.description.terms.travel;
  const heads = headsOf(plan);
  const metAlone = Math.min(tripsOf(plan, 0), trips - 1);
  const personTrips = (trips - metAlone) * heads + metAlone;
  const crewWords =
    heads === 1 ? '' : `, ${heads} people on each day of work and one to meet an inspector or the utility`;
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
      quantity: (2 * minutesEachWay * personTrips) / 60,
      because: `${counted(trips, 'trip')} of 2 × ${shown(minutesEachWay)} minutes${crewWords}`,
    }),
  ]);
}
