import {
  chargerDisconnect,
  groundFaultProtection,
  individualBranchCircuit,
  type OutletPlace,
} from '../../electrical/charging-circuit.ts';
import { chargerLoadA, chargingOcpdA, checkReceptacle, circuitWires, managedLoadA } from '../../electrical/ev.ts';
import { standardRatingsA } from '../../electrical/overcurrent.ts';
import { compareSizes } from '../../electrical/sizes.ts';
import type { Finding } from '../answer.ts';
import { METALS, type Metal } from '../vocabulary.ts';
import { type ChargerGroup, is120V } from './charger-load.ts';
import type { Circuit } from './circuit.ts';
import { amperes, findingOf, type Job, type SettledCharger } from './job.ts';
import { tailPlace } from './place.ts';

/** A circuit with what was checked when it was decided. */
export interface DecidedCircuit {
  circuit: Circuit;
  findings: Finding[];
}

/** Where a circuit begins, and the legs of the route that it follows. */
export interface Beginning {
  from: string;
  legs: number[];
  circuitsTogether?: number;
  terminalsC: 60 | 75;
}

/** Where an outlet is, for ground-fault protection. An attached building's outlet inside is taken to be in the garage. */
export function outletPlace(job: Job, { outdoors }: { outdoors: boolean }): OutletPlace {
  if (outdoors) return 'outdoors';
  return job.description.site.building === 'detached' ? 'accessory-building' : 'garage';
}

/**
 * The device of a charging circuit: the smallest standard rating for the load, or, where shops do not sell that one (a
 * ground-fault breaker of 25, 35 or 45 A), the next that they sell. Wire and ground follow the device.
 */
function deviceOf(job: Job, outlet: SettledCharger, { loadA, poles }: { loadA: number; poles: 1 | 2 }) {
  const { connection } = outlet;
  const place = outletPlace(job, outlet);
  const leastA = chargingOcpdA({ amps: loadA, connection, edition: job.edition });
  const protectedAt = (ocpdA: number) => groundFaultProtection({ connection, ocpdA, place, edition: job.edition });
  const isSold = (ratingA: number) =>
    job.book.bySpec({ is: 'breaker', ratingA, poles, gfci: protectedAt(ratingA).needed }) !== undefined;
  const larger = connection === 'hardwired' ? standardRatingsA(job.edition).filter((ratingA) => ratingA > leastA) : [];
  const ocpdA = [leastA, ...larger].find(isSold) ?? leastA;
  const because = [`125 % of ${amperes(loadA)}, the next standard rating: ${amperes(leastA)}`];
  if (ocpdA > leastA)
    because.push(`no such breaker is sold; ${amperes(ocpdA)} is the next that is, if the charger allows it`);
  return { ocpdA, groundFault: protectedAt(ocpdA), because };
}

/** The branch circuit of a charger, or of several that share one. Amperes before the 125 %. */
export function chargerCircuit(job: Job, group: ChargerGroup, beginning: Beginning): DecidedCircuit {
  const members = group.chargers.flatMap((at) => job.option.chargers[at] ?? []);
  const outlet = members.find((member) => !is120V(member)) ?? members[0];
  if (!outlet) throw new Error(`The group ${group.name} has no charger.`);
  const load = groupLoad(job, members);
  const { connection } = outlet;
  const { poles, neutral, voltageV } = circuitWires(connection);
  const { ocpdA, groundFault, because } = deviceOf(job, outlet, { loadA: load.loadA, poles });
  const disconnect = disconnectOf(job, members, { from: beginning.from, ocpdA });
  const circuit: Circuit = {
    name: group.name,
    role: 'branch-circuit',
    from: beginning.from,
    to: group.name,
    poles,
    voltageV,
    loadA: load.loadA,
    continuousA: load.loadA,
    dropA: load.loadA,
    ocpdA,
    neutral,
    separateNeutral: false,
    breaker: {
      ocpdA,
      poles,
      spaces: poles,
      kind: groundFault.needed ? 'gfci' : 'standard',
      because: [...because, groundFault.finding.message],
    },
    ...(disconnect.means && { disconnect: disconnect.means }),
    metals: metalsOf(job, members),
    terminalsC: beginning.terminalsC,
    ...largestSizeOf(members),
    severalReceptacles: members.length > 1 && connection !== 'hardwired',
    legs: beginning.legs,
    ...(beginning.circuitsTogether !== undefined && { circuitsTogether: beginning.circuitsTogether }),
    tail: tailOf(job, members),
    chargers: group.chargers,
  };
  const findings = [
    ...load.findings,
    ...members.flatMap((member) =>
      checkReceptacle({ connection: member.connection, ocpdA, amps: member.amps, edition: job.edition }),
    ),
    sharing(job, members, { ocpdA, voltageV }),
    groundFault.finding,
    ...disconnect.findings,
    ...metalFindings(job, members),
  ];
  return { circuit, findings: findings.map((finding) => ({ ...finding, run: group.name })) };
}

function groupLoad(job: Job, members: readonly SettledCharger[]): { loadA: number; findings: Finding[] } {
  const loads = members.map((member) => chargerLoadA({ ...member, edition: job.edition }));
  const chargersA = loads.map(({ loadA }) => loadA);
  const maxA = isManaged(job, members) ? (job.option.loadManagement?.maxA ?? Number.POSITIVE_INFINITY) : undefined;
  return {
    loadA: managedLoadA({ chargersA, maxA: maxA ?? Number.POSITIVE_INFINITY }),
    findings: loads.flatMap(({ finding }) => finding ?? []),
  };
}

/** Do several chargers share this circuit under load management? */
function isManaged({ option }: Job, members: readonly SettledCharger[]): boolean {
  return members.length > 1 && option.loadManagement?.kind === 'shared-circuit';
}

function sharing(
  job: Job,
  members: readonly SettledCharger[],
  { ocpdA, voltageV }: { ocpdA: number; voltageV: 120 | 240 },
): Finding {
  const amps = Math.max(...members.map((member) => member.amps));
  const sharedWith = members.slice(1).map((_, at) => `charger ${at + 2} of the group`);
  const managed = isManaged(job, members);
  return individualBranchCircuit({ amps, voltageV, ocpdA, sharedWith, managed, edition: job.edition });
}

/** A disconnect by 625.43: the breaker with a lock where it may stand elsewhere. */
function disconnectOf(
  job: Job,
  members: readonly SettledCharger[],
  { from, ocpdA }: { from: string; ocpdA: number },
): { means?: Circuit['disconnect']; findings: Finding[] } {
  const answers = members.map(({ nameplateA, amps, connection }) =>
    chargerDisconnect({ ratingA: Math.max(nameplateA ?? 0, amps), connection, edition: job.edition }),
  );
  const findings = answers.map(({ finding }) => finding);
  if (!answers.some(({ required }) => required)) return { findings };
  const because = ['the breaker, with a lock that stays in place; a plaque at the charger names where it is'];
  return { means: { at: from, ratingA: ocpdA, kind: 'breaker-lock', because }, findings };
}

function takeAluminum(members: readonly SettledCharger[]): boolean {
  return members.every(({ terminals, connection }) => terminals === 'copper-or-aluminum' && connection === 'hardwired');
}

/** Metals that both ends take: a receptacle and most chargers take copper only. NEC 110.14, 110.3(B). */
function metalsOf(job: Job, members: readonly SettledCharger[]): Metal[] {
  const { metal, feed } = job.option;
  if (feed === 'subpanel' || !takeAluminum(members)) return ['copper'];
  return metal === 'auto' ? [...METALS] : [metal];
}

function metalFindings(job: Job, members: readonly SettledCharger[]): Finding[] {
  const { metal, feed } = job.option;
  if (feed === 'subpanel' || metal !== 'aluminum' || takeAluminum(members)) return [];
  return [
    findingOf(job.edition, {
      rule: 'copper-only-terminals',
      severity: 'caution',
      message:
        'Aluminum was asked for, but the outlet at its end takes copper only: the whole circuit is planned in copper. ' +
        'Choose equipment whose terminals take both, or a subpanel with an aluminum feeder.',
      cites: 'dissimilar-metals',
    }),
  ];
}

function largestSizeOf(members: readonly SettledCharger[]): Pick<Circuit, 'largestSize'> {
  const stated = members.flatMap(({ largestSize }) => largestSize ?? []);
  const [least] = stated.sort((a, b) => compareSizes(a, b));
  return least ? { largestSize: least } : {};
}

/** From the end of the route to the farthest charger of the circuit. */
function tailOf(job: Job, members: readonly SettledCharger[]): NonNullable<Circuit['tail']> {
  const lengthFt = Math.max(...members.map(({ distanceFt }) => distanceFt));
  const outdoors = members.some((member) => member.outdoors);
  return {
    lengthFt,
    place: tailPlace({ outdoors }),
    ambientC: job.description.site.ambientC,
    because: [`${lengthFt} ft to the ${members.length > 1 ? 'farthest charger' : 'charger'}`],
  };
}
