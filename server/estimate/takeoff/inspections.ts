import type { PlannedOption } from '../plan-types.ts';
import { liesBehindFinish, liesInGround } from './ditches.ts';
import { isNewConstruction } from './factors.ts';

/** How often the inspector comes, and what for. */
export interface Inspections {
  trench: number;
  rough: number;
  final: number;
}

/** Does the option put anything in: a circuit, or a new receptacle in the place of the old one, or a service? */
export function hasWork({ runs, option, serviceWork }: PlannedOption): boolean {
  return runs.length > 0 || (option.receptacle?.replace ?? false) || serviceWork !== undefined;
}

/**
 * What an inspector wants to see: the open ditch, what a finished surface will hide, and the whole when it is done.
 * Common practice, no source. A stated number of inspections is kept: the final one first, then the ditch, the rest rough.
 */
export function inspectionsOf(plan: PlannedOption): Inspections {
  if (!hasWork(plan)) return { trench: 0, rough: 0, final: 0 };
  const usual = usualInspections(plan);
  const stated = plan.description.site.permit?.inspections;
  if (stated === undefined) return usual;
  const isRoughIn = plan.option.roughInOnly;
  const final = isRoughIn ? 0 : Math.min(1, stated);
  const trench = Math.min(usual.trench, stated - final);
  return { trench, final, rough: stated - final - trench };
}

function usualInspections(plan: PlannedOption): Inspections {
  const isRoughIn = plan.option.roughInOnly;
  return {
    trench: liesInGround(plan) ? 1 : 0,
    rough: isNewConstruction(plan) || isRoughIn || liesBehindFinish(plan) ? 1 : 0,
    final: isRoughIn ? 0 : 1,
  };
}

/**
 * Inspections that the work stops for: it goes on when the ditch, or what will be hidden, was seen. They are met on the
 * morning of the day on which the crew comes back to go on (common practice, no source).
 */
export function stopsOfWork(plan: PlannedOption): number {
  const { trench, rough } = inspectionsOf(plan);
  return trench + rough;
}

/** All visits of the inspector. */
export function inspectionCount(plan: PlannedOption): number {
  const { trench, rough, final } = inspectionsOf(plan);
  return trench + rough + final;
}
