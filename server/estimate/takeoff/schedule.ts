import type { ScheduleStep, Visit } from '../answer.ts';
import type { PlannedOption } from '../plan-types.ts';
import { counted } from './demand.ts';
import { dugLegs, isGroundOpened } from './ditches.ts';
import { hasWork, inspectionsOf } from './inspections.ts';
import { strips } from './surfaces.ts';

/** Days of waiting. All but the second common practice, no source; marks of buried lines take two to three working days. */
const WAIT_DAYS = { permit: 5, locate: 3, trench: 1, rough: 2, final: 3, cureFoot: 3, cureVehicle: 7 };
/** Until the utility's crew comes. Common practice, no source: ask it, some take months. */
const UTILITY_WAIT_DAYS = { 'panel-swap': 5, overhead: 10, underground: 20 };

/**
 * Who comes when: the crew for its working days, and once more for each inspection, which it meets.
 * @param workingDays  of the crew, as priced; 0 where nothing is built
 */
export function visitsOf(plan: PlannedOption, workingDays: number): Visit[] {
  const { trench, rough, final } = inspectionsOf(plan);
  const work = hasWork(plan) && workingDays > 0 ? workingDays : 0;
  const utility = plan.serviceWork ? 1 : 0;
  const visits: Visit[] = [
    { why: 'work', days: work, because: [counted(work, 'working day')] },
    { why: 'trench-inspection', days: trench, because: ['the inspector sees the ditch before it is filled'] },
    { why: 'rough-inspection', days: rough, because: ['the inspector sees what will be hidden'] },
    { why: 'utility', days: utility, because: ['the utility takes the service off, and puts it on again'] },
    { why: 'final-inspection', days: final, because: ['the inspector sees the whole before it is used'] },
  ];
  return visits.filter(({ days }) => days > 0);
}

/** What happens in which order, with days of work and of waiting. Work days add up to the working days. */
export function scheduleOf(plan: PlannedOption, workingDays: number): ScheduleStep[] {
  if (!hasWork(plan)) return [];
  const { trench, rough, final } = inspectionsOf(plan);
  const steps = [
    step('permit', 0, WAIT_DAYS.permit, 'the office looks at the application; some answer at once, some take weeks'),
    ...(isGroundOpened(plan)
      ? [
          step(
            'locate buried lines',
            0,
            WAIT_DAYS.locate,
            'the call (811) comes first; marks take two to three working days',
          ),
        ]
      : []),
    ...utilityStep(plan),
    ...work(plan, workingDays, trench > 0),
    ...(rough > 0 ? [step('rough inspection', 0, WAIT_DAYS.rough, 'before anything is hidden')] : []),
    ...cure(plan),
    ...(final > 0 ? [step('final inspection', 0, WAIT_DAYS.final, 'before it is used')] : []),
  ];
  return steps;
}

/** The utility has its own calendar, and nothing at the service begins before it. */
function utilityStep({ serviceWork }: PlannedOption): ScheduleStep[] {
  if (!serviceWork) return [];
  const { kind, supply } = serviceWork;
  const waitDays = UTILITY_WAIT_DAYS[kind === 'panel-swap' ? kind : supply];
  return [
    step('utility', 0, waitDays, 'its crew takes the service off and puts it on again; the date is the utility’s'),
  ];
}

function step(name: string, workDays: number, waitDays: number, because: string): ScheduleStep {
  return { step: name, workDays, waitDays, because: [because] };
}

/** The crew's days; with an open ditch the inspector comes between the first half and the second. */
function work(plan: PlannedOption, workingDays: number, isInspectedOpen: boolean): ScheduleStep[] {
  if (workingDays <= 0) return [];
  if (!isInspectedOpen) return [step('work', workingDays, 0, counted(workingDays, 'working day'))];
  const first = Math.ceil(workingDays / 2);
  const surface = dugLegs(plan).some(({ stated }) => stated.kind.endsWith('-cut'));
  const rest = workingDays - first;
  return [
    step(surface ? 'cut, dig and lay' : 'dig and lay', first, 0, 'up to the open ditch with what lies in it'),
    step('trench inspection', 0, WAIT_DAYS.trench, 'the ditch stays open until it was seen'),
    step('fill in and finish', rest, 0, 'filled and made good, mounted and connected'),
  ];
}

/** New concrete is left alone until it bears what it is for. */
function cure(plan: PlannedOption): ScheduleStep[] {
  const poured = strips(dugLegs(plan), 'concrete-cut').filter(({ stated }) => stated.restore ?? true);
  if (poured.length === 0) return [];
  const isDriven = poured.some(({ stated }) => stated.traffic === 'vehicle');
  const days = isDriven ? WAIT_DAYS.cureVehicle : WAIT_DAYS.cureFoot;
  return [step('cure of the concrete', 0, days, `before it is ${isDriven ? 'driven' : 'walked'} on`)];
}
