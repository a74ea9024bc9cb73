import type { Finding } from '../answer.ts';
import type { Outlet } from '../plan-types.ts';
import { chargerCircuit, type DecidedCircuit } from './charger-circuit.ts';
import { type ChargerGroup, chargerGroups } from './charger-load.ts';
import { feederCircuit } from './feeder.ts';
import { feederLoad } from './feeder-load.ts';
import type { Job } from './job.ts';
import { otherCircuit, otherCircuitsOf, outletsOf } from './other-circuit.ts';
import { choosePanel, freeSpacesFinding, type Panel, startFindings } from './panel.ts';
import { loneCircuitFindings, supplyFindings, withBuildingDisconnect } from './separate-building.ts';

/** The circuits of an option before they are laid: those that follow the route, and those from the subpanel. */
export interface OptionCircuits {
  /** The feeder, or the dedicated circuits. */
  arriving: DecidedCircuit[];
  /** From the subpanel to chargers and to other outlets. */
  branches: DecidedCircuit[];
  panel?: Panel;
  outlets: Outlet[];
  findings: Finding[];
}

/** Decides which circuits an option takes, what protects them and what they end in. */
export function circuitsOf(job: Job): OptionCircuits {
  return job.option.feed === 'subpanel' ? subpanelCircuits(job) : dedicatedCircuits(job);
}

function dedicatedCircuits(job: Job): OptionCircuits {
  const groups = chargerGroups(job.option.chargers);
  const legs = job.route.map(({ leg }) => leg);
  const decided = groups.map((group) =>
    chargerCircuit(job, group, { from: job.start, legs, circuitsTogether: groups.length, terminalsC: job.terminalsC }),
  );
  const arriving = withBuildingDisconnect(job, decided, undefined);
  return {
    arriving,
    branches: [],
    outlets: groups.flatMap((group) => chargerOutlets(job, group)),
    findings: [
      ...supplyFindings(job, arriving),
      ...loneCircuitFindings(job),
      ...startFindings(job, feederLoad(job, []).neededA),
      ...freeSpacesFinding(
        job,
        arriving.map(({ circuit }) => circuit),
      ),
    ],
  };
}

function subpanelCircuits(job: Job): OptionCircuits {
  const groups = chargerGroups(job.option.chargers);
  const { terminalsC } = job.description.site.code;
  const chargers = groups.map((group) => chargerCircuit(job, group, { from: 'subpanel', legs: [], terminalsC }));
  const { others, findings: garage } = otherCircuitsOf(job);
  const names = new Set(['feeder', ...groups.map(({ name }) => name)]);
  const built = others
    .filter(({ build }) => build)
    .map((other) => ({ other, ...otherCircuit(job, other, uniqueName(other.use, names)) }));
  const branches = [...chargers, ...built];
  const chosen = choosePanel(
    job,
    branches.map(({ circuit }) => circuit),
    others,
  );
  const feeder = feederCircuit(job, others);
  const arriving = withBuildingDisconnect(job, [feeder], chosen?.panel);
  return {
    arriving,
    branches,
    ...(chosen && { panel: chosen.panel }),
    outlets: [
      ...groups.flatMap((group) => chargerOutlets(job, group)),
      ...built.flatMap(({ other, circuit }) => outletsOf(job, other, circuit.name)),
    ],
    findings: [
      ...supplyFindings(job, arriving),
      ...garage,
      ...startFindings(job, feederLoad(job, others).neededA),
      ...(chosen?.findings ?? []),
      ...freeSpacesFinding(job, [feeder.circuit]),
    ],
  };
}

/** Runs are known by their names: a second circuit for the same use gets a number. */
function uniqueName(use: string, names: Set<string>): string {
  let name = use;
  for (let count = 2; names.has(name); count += 1) name = `${use} ${count}`;
  names.add(name);
  return name;
}

function chargerOutlets(job: Job, { name, chargers }: ChargerGroup): Outlet[] {
  return chargers.flatMap((charger) => {
    const stated = job.option.chargers[charger];
    return stated ? { run: name, charger, connection: stated.connection, outdoors: stated.outdoors } : [];
  });
}
