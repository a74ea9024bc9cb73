import type { PlannedOption, PlannedRun } from '../plan-types.ts';
import { type Demands, joined, named, shown, withWaste, work } from './demand.ts';
import { legsOf, verticalsFt, type Way } from './way.ts';

const SCOPE = 'load-management';
/** The largest circuit that a controller with a contactor switches, in amperes: what is sold. Common practice, no source. */
const CONTACTOR_A = 60;

/** What limits the chargers: a monitor at the service with its signal cable, or a splitter; its setting and its label. */
export function loadManagementDemands(plan: PlannedOption, ways: readonly Way[]): Demands {
  const { loadManagement, roughInOnly, feed } = plan.option;
  if (!loadManagement || roughInOnly || feed === 'existing-receptacle' || plan.option.chargers.length === 0) {
    return joined([]);
  }
  const parts = loadManagement.kind === 'service-monitor' ? monitor(plan, ways) : splitters(plan);
  return joined([parts, settingAndLabel(loadManagement.maxA)]);
}

/** The limit set, locked and named on a label. NEC 625.42(A), 750.30(C). */
function settingAndLabel(maxA: number): Demands {
  const because = `limit of ${shown(maxA)} A set and locked, and a label that names it`;
  return joined([
    named({ name: 'lm-label', description: 'label of the limit that is set', scope: SCOPE, quantity: 1, because }),
    work({ task: 'lm-set', scope: SCOPE, unit: 'job', quantity: 1, because }),
  ]);
}

/** Circuits that end in a receptacle without a charger: nothing known there could follow a signal, so a contactor switches. */
function switchedRuns({ runs, option }: PlannedOption): PlannedRun[] {
  return runs.filter(
    ({ chargers, ocpdA }) =>
      chargers.length > 0 &&
      ocpdA <= CONTACTOR_A &&
      chargers.every((at) => {
        const charger = option.chargers[at];
        return charger?.equipment === 'none' && charger.connection !== 'hardwired';
      }),
  );
}

function monitor(plan: PlannedOption, ways: readonly Way[]): Demands {
  const switched = switchedRuns(plan);
  const signalled = plan.runs.filter((run) => run.chargers.length > 0 && !switched.includes(run));
  const first = signalled.length > 0 ? [transformers(), signalCable(plan, ways, signalled)] : [];
  return joined([...first, ...switched.map(contactor)]);
}

function transformers(): Demands {
  const because = 'measures what the house draws at the service, and tells the charger what is left';
  return joined([
    named({
      name: 'lm-ct-kit',
      description: 'service monitor: current transformers and meter',
      scope: SCOPE,
      quantity: 1,
      because,
    }),
    work({ task: 'lm-ct', scope: SCOPE, unit: 'job', quantity: 1, because }),
  ]);
}

function contactor({ name, ocpdA }: PlannedRun): Demands {
  const because = `switches ${name} (${shown(ocpdA)} A) off while the house needs the service`;
  return joined([
    named({
      name: 'lm-relay-60',
      description: 'service monitor: load-shedding controller with contactor',
      scope: SCOPE,
      quantity: 1,
      because,
    }),
    work({ task: 'lm-relay', scope: SCOPE, quantity: 1, because }),
  ]);
}

/** Feet from the service to the farthest charger that follows the signal: the route, its climbs, and the way to the outlet. */
function signalCable(plan: PlannedOption, ways: readonly Way[], signalled: readonly PlannedRun[]): Demands {
  const along = ways.find(({ stretches }) => stretches.some(({ leg }) => leg !== undefined));
  const stretches = along?.stretches.filter(({ leg }) => leg !== undefined) ?? [];
  const routeFt = stretches.reduce((sum, { lengthFt, riseFt }) => sum + lengthFt + riseFt, 0);
  const climbsFt = along ? stretches.reduce((sum, _, at) => sum + verticalsFt(along, at), 0) : 0;
  const tailFt = Math.max(0, ...signalled.map(({ tail }) => tail?.lengthFt ?? 0));
  const { panelFt, outletFt, wastePercent } = plan.description.terms.makeup;
  const makeupFt = panelFt + outletFt;
  const ft = routeFt + climbsFt + tailFt + makeupFt;
  const climbWords = climbsFt > 0 ? ` + ${shown(climbsFt)} ft out of the ground` : '';
  const words = `${shown(routeFt)} ft of route${climbWords} + ${shown(tailFt)} ft to the charger + ${shown(makeupFt)} ft makeup`;
  const legs = legsOf(stretches);
  const where = plan.option.dataConduit ? 'in the data conduit' : 'beside the power conductors, apart from them';
  return joined([
    named({
      name: 'lm-signal-cable',
      description: 'signal cable for the monitor, rated for wet places',
      scope: SCOPE,
      unit: 'ft',
      quantity: withWaste(ft, wastePercent.cable),
      legs,
      because: [`${words}, ${shown(wastePercent.cable)} % waste`, where],
    }),
    work({ task: 'signal-cable', scope: SCOPE, unit: 'ft', quantity: ft, legs, because: [words, where] }),
  ]);
}

/** Chargers that plug in on one circuit, each circuit with one splitter. */
function splitters(plan: PlannedOption): Demands {
  const runs = plan.runs.filter((run) => isSplit(plan, run));
  return named({
    name: 'lm-splitter-2out',
    description: 'shared circuit: switch for one receptacle and two chargers',
    scope: SCOPE,
    quantity: runs.length,
    because: runs.map(({ name }) => `${name}: two chargers take turns behind one receptacle`),
  });
}

function isSplit({ option }: PlannedOption, { chargers }: PlannedRun): boolean {
  return (
    option.loadManagement?.kind === 'shared-circuit' &&
    chargers.length > 1 &&
    chargers.every((at) => option.chargers[at]?.connection !== 'hardwired')
  );
}

/** Is this charger one that shares its circuit with others, and not the first of them? */
export function sharesWithEarlier({ option, runs }: PlannedOption, at: number): boolean {
  if (option.loadManagement?.kind !== 'shared-circuit') return false;
  return runs.some(({ chargers }) => chargers.indexOf(at) > 0);
}
