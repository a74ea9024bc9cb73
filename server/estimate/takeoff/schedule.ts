import type { ScheduleStep, Visit } from '../answer.ts';
import type { PlannedOption } from '../plan-types.ts';
import { counted } from './demand.ts';
import { dugLegs, isGroundOpened } from './ditches.ts';
import { hasWork, inspectionsOf, stopsOfWork } from './inspections.ts';
import { strips } from './surfaces.ts';

/** Days of waiting. All but the second common practice, no source; marks of buried lines take two to three working days. */
const WAIT_DAYS = { permit: 5, locate: 3, trench: 1, rough: 2, final: 3, cureFoot: 3, cureVehicle: 7 };
/** Until the utility's crew comes. Common practice, no source: ask it, some take months. */
const UTILITY_WAIT_DAYS = { 'panel-swap': 5, overhead: 10, underground: 20 };

/**
 * Who comes when: the crew for its working days, and the inspector, whom it meets: on a day of work where the work goes
 * on after him, else by a visit of its own.
 * @param workingDays  of the crew, as priced; 0 where nothing is built
 */
export function visitsOf(plan: PlannedOption, workingDays: number): Visit[] {
  const { trench, rough, final } = inspectionsOf(plan);
  const work = hasWork(plan) && workingDays > 0 ? workingDays : 0;
  const utility = plan.serviceWork ? 1 : 0;
  const metWhen = work > stopsOfWork(plan) ? ['met on a day of work, without a trip of its own'] : [];
  const visits: Visit[] = [
    { why: 'work', days: work, because: [counted(work, 'working day')] },
    {
      why: 'trench-inspection',
      days: trench,
      because: ['the inspector sees the ditch before it is filled', ...metWhen],
    },
    { why: 'rough-inspection', days: rough, because: ['the inspector sees what will be hidden', ...metWhen] },
    { why: 'utility', days: utility, because: ['the utility takes the service off, and puts it on again'] },
    { why: 'final-inspection', days: final, because: ['the inspector sees the whole before it is used'] },
  ];
  return visits.filter(({ days }) => days > 0);
}

/** What happens in which order, with days of work and of waiting. Work days add up to the working days. */
export function scheduleOf(plan: PlannedOption, workingDays: number): ScheduleStep[] {
  if (!hasWork(plan)) return [];
  const { final } = inspectionsOf(plan);
  const marks = 'the call (811) comes first; marks take two to three working days';
  return [
    ...(isGroundOpened(plan) ? [step('locate buried lines', 0, WAIT_DAYS.locate, marks)] : []),
    step('permit', 0, WAIT_DAYS.permit, 'the office looks at the application; some answer at once, some take weeks'),
    ...utilityStep(plan),
    ...work(plan, workingDays),
    ...cure(plan),
    ...(final > 0 ? [step('final inspection', 0, WAIT_DAYS.final, 'before it is used')] : []),
  ];
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

/** A stretch of work, and the inspection that it has to stop for. */
interface Phase {
  name: string;
  because: string;
  before?: ScheduleStep;
}

/**
 * The crew's days, which stop for each inspector: the ditch is seen before it is filled, and what a finish will hide before
 * it is closed. The days are spread evenly, in quarters (common practice, no source).
 */
function work(plan: PlannedOption, workingDays: number): ScheduleStep[] {
  const phases = phasesOf(plan);
  let leftQuarters = workingDays * 4;
  return phases.flatMap(({ name, because, before }, at) => {
    const quarters = Math.ceil(leftQuarters / (phases.length - at));
    leftQuarters -= quarters;
    return [...(before ? [before] : []), ...(quarters > 0 ? [step(name, quarters / 4, 0, because)] : [])];
  });
}

function phasesOf(plan: PlannedOption): Phase[] {
  const { trench, rough } = inspectionsOf(plan);
  const isCut = dugLegs(plan).some(({ stated }) => stated.kind.endsWith('-cut'));
  const dig = {
    name: isCut ? 'cut, dig and lay' : 'dig and lay',
    because: 'up to the open ditch with what lies in it',
  };
  const whole = { name: 'work', because: 'from the panel to the end' };
  const build = {
    name: trench > 0 ? 'fill in, run and fasten' : 'run and fasten',
    because: 'up to where a finish will hide it',
  };
  const finish = {
    name: rough > 0 ? 'close and finish' : 'fill in and finish',
    because: plan.option.roughInOnly
      ? 'closed and made good, both ends capped'
      : 'closed and made good, mounted and connected',
  };
  const seenOpen = step('trench inspection', 0, WAIT_DAYS.trench, 'the ditch stays open until it was seen');
  const seenRough = step('rough inspection', 0, WAIT_DAYS.rough, 'before anything is hidden');
  if (trench > 0 && rough > 0) return [dig, { ...build, before: seenOpen }, { ...finish, before: seenRough }];
  if (trench > 0) return [dig, { ...finish, before: seenOpen }];
  return rough > 0 ? [build, { ...finish, before: seenRough }] : [whole];
}

/** New concrete is left alone until it bears what it is for. */
function cure(plan: PlannedOption): ScheduleStep[] {
  const poured = strips(dugLegs(plan), 'concrete-cut').filter(({ stated }) => stated.restore ?? true);
  if (poured.length === 0) return [];
  const isDriven = poured.some(({ stated }) => stated.traffic === 'vehicle');
  const days = isDriven ? WAIT_DAYS.cureVehicle : WAIT_DAYS.cureFoot;
  return [step('cure of the concrete', 0, days, `before it is ${isDriven ? 'driven' : 'walked'} on`)];
}
