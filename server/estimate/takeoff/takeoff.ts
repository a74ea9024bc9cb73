import type { PlannedOption, Takeoff } from '../plan-types.ts';
import { boreDemands } from './bores.ts';
import { boxDemands } from './boxes.ts';
import { cableDemands } from './cable.ts';
import { consumables } from './consumables.ts';
import { counted, type Demands, joined, work } from './demand.ts';
import { diggingDemands } from './digging.ts';
import { dugLegs, isGroundOpened } from './ditches.ts';
import { feeDemands } from './fees.ts';
import { gardenDemands } from './gardens.ts';
import { groundingDemands } from './grounding.ts';
import { hasWork } from './inspections.ts';
import { outletDemands } from './outlets.ts';
import { openedPanel, panelDemands } from './panels.ts';
import { racewayDemands } from './raceway.ts';
import { locateDemands, rentalDemands } from './rentals.ts';
import { riserDemands } from './risers.ts';
import { cappedEnds, withoutConductors } from './rough-in.ts';
import { statedFieldDemands } from './stated-fields.ts';
import { surfaceDemands } from './surfaces.ts';
import { drillRentals, wallDemands } from './walls.ts';
import { type Way, waysOf } from './way.ts';
import { type Cut, cutsOf, pullTasks, startTerminations, wireDemands, wireList } from './wire.ts';

/**
 * All that a planned option takes: feet, pieces, machine days, fees and units of labor, before packages, prices and
 * travel, which depends on the working days (`travelDemands`). Lengths are the likely ones.
 */
export function takeoffOf(plan: PlannedOption): Takeoff {
  const ways = waysOf(plan);
  const { makeup } = plan.description.terms;
  const cuts = new Map(ways.map((way) => [way, cutsOf(way, makeup)]));
  const taken = joined([
    ...ways.map((way) => buildUp(plan, way, cuts.get(way) ?? [])),
    plan.option.roughInOnly ? roughEnds(plan, ways) : ends(plan, ways),
    drillRentals(ways),
    groundWork(plan),
    statedFieldDemands(plan, ways),
  ]);
  const all = joined([taken, consumables(plan, taken), feeDemands(plan), wholeJob(plan)]);
  return { wire: Object.fromEntries(ways.map((way) => [way.run.name, wireList(way, cuts.get(way) ?? [])])), ...all };
}

/** What lies between the two ends of a run: raceway, cable, boxes and walls, and the wire unless only roughed in. */
function buildUp(plan: PlannedOption, way: Way, cuts: readonly Cut[]): Demands {
  const { makeup } = plan.description.terms;
  const built = joined([
    racewayDemands({ plan, way }),
    riserDemands(way, makeup.wastePercent.conduit),
    wallDemands({ plan, way }),
    boxDemands({ plan, way }),
  ]);
  if (plan.option.roughInOnly) return withoutConductors(built);
  return joined([
    wireDemands(way, cuts, makeup),
    cableDemands({ plan, way }),
    built,
    pullTasks(plan, way),
    startTerminations(way),
  ]);
}

/** What the runs begin and end at while only raceway and boxes are built. */
export function roughEnds(plan: PlannedOption, ways: readonly Way[]): Demands {
  return joined([openedPanel(plan), ...ways.map((way) => cappedEnds(plan, way))]);
}

/** What the runs begin and end at. */
export function ends(plan: PlannedOption, ways: readonly Way[]): Demands {
  return joined([panelDemands(plan, ways), outletDemands(plan), groundingDemands(plan)]);
}

/** Opening the ground and whatever lies on it, and making both good again. */
export function groundWork(plan: PlannedOption): Demands {
  const dug = dugLegs(plan);
  return joined([
    locateDemands(plan, isGroundOpened(plan)),
    surfaceDemands(dug),
    diggingDemands(dug),
    boreDemands(plan),
    rentalDemands(plan, dug),
    gardenDemands(dug),
  ]);
}

/** Work that every job has once, and a test of each run. */
export function wholeJob(plan: PlannedOption): Demands {
  if (!hasWork(plan)) return joined([]);
  const scope = 'other';
  const replaced = plan.option.feed === 'existing-receptacle' && plan.option.receptacle?.replace ? 1 : 0;
  const tested = plan.option.roughInOnly ? 0 : plan.runs.length + replaced;
  return joined([
    work({
      task: 'layout-route',
      scope,
      unit: 'job',
      quantity: plan.route.length > 0 && plan.runs.length > 0 ? 1 : 0,
      because: 'the route is marked out before anything is drilled or dug',
    }),
    work({
      task: 'test-energize',
      scope,
      unit: 'run',
      quantity: tested,
      because: `${counted(tested, 'run')} tested, torqued and energized`,
    }),
    work({ task: 'cleanup', scope, unit: 'job', quantity: 1, because: 'tidied, labelled, test record left behind' }),
  ]);
}
