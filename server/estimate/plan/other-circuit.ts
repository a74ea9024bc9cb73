import { garageDuties } from '../../electrical/outbuildings.ts';
import { nextStandardOcpdA } from '../../electrical/overcurrent.ts';
import type { Finding } from '../answer.ts';
import type { Outlet } from '../plan-types.ts';
import type { DecidedCircuit } from './charger-circuit.ts';
import type { Circuit } from './circuit.ts';
import { refedCircuits } from './existing-supply.ts';
import { isLight, isReceptacles, namesReceptacles, type OtherCircuit, otherLoad } from './feeder-load.ts';
import { findingOf, type Job } from './job.ts';
import { tailPlace } from './place.ts';

/** How far a circuit of the subpanel goes where nobody has said, in feet. Common practice, no source. */
const USUAL_FT = 15;
/** The circuit of a garage's receptacles, in amperes. NEC 210.11(C)(4), from memory. */
const GARAGE_CIRCUIT_A = 20;

/** What was stated, before anything was planned. */
interface Stated extends Pick<Job, 'description' | 'edition'> {
  option: Pick<Job['option'], 'subpanel' | 'existingSupply'>;
}

/**
 * The subpanel's other circuits: those stated, and the receptacles and light that a detached garage must have once it has
 * power (210.52(G), 210.70(A)(2)) where they are neither there nor listed; and what an old supply fed that is taken out.
 */
export function otherCircuitsOf(job: Stated): { others: OtherCircuit[]; findings: Finding[] } {
  const stated = job.option.subpanel?.otherCircuits ?? [];
  const { building, garage } = job.description.site;
  const refed = refedCircuits(job);
  if (building !== 'detached') return { others: [...stated, ...refed], findings: [] };
  const { bays, existing } = garage ?? { bays: 1, existing: [] };
  const duties = garageDuties({ bays, existing, edition: job.edition });
  const added: OtherCircuit[] = [
    ...(duties.receptacles > 0 && !stated.some(isReceptacles)
      ? [{ use: 'garage receptacles', amps: GARAGE_CIRCUIT_A, poles: 1 as const, continuous: false, build: true }]
      : []),
    ...(duties.light && !stated.some(isLight)
      ? [{ use: 'garage light', amps: 15, poles: 1 as const, continuous: false, build: true }]
      : []),
  ];
  const others = [...stated, ...added, ...refed];
  const judgements = duties.findings.map((duty) => judged(duty, others));
  const findings = [
    ...judgements,
    ...(duties.receptacles > 0 ? sharedWithLight(job, others, bays) : []),
    ...addedFindings(job, added),
  ];
  return { others, findings };
}

/** A duty is met by a circuit that is built; one that only keeps its space is not there yet. */
function judged(duty: Finding, others: readonly OtherCircuit[]): Finding {
  const serves = duty.rule === 'garage-light' ? isLight : isReceptacles;
  const built = others.some((other) => other.build && serves(other));
  return built
    ? { ...duty, severity: 'ok', message: `${duty.message} It is planned.` }
    : { ...duty, severity: 'caution', message: `${duty.message} Its circuit keeps a space only and is not built.` };
}

/** The 20 A circuit of a garage's receptacles has no other outlets: neither a light, nor a smaller breaker. NEC 210.11(C)(4). */
function sharedWithLight(job: Stated, others: readonly OtherCircuit[], bays: number): Finding[] {
  const built = others.filter((other) => other.build && isReceptacles(other));
  const isProper = (other: OtherCircuit) => !isLight(other) && other.amps === GARAGE_CIRCUIT_A;
  const [wanting] = built;
  if (!wanting || built.some(isProper)) return [];
  const { use, amps } = wanting;
  const hangs = isLight(wanting) ? `a light hangs on "${use}"` : `"${use}" is one of ${amps} A`;
  const leave = bays === 1 ? ' In a garage of one bay an exception may let it: ask the AHJ.' : '';
  return [
    findingOf(job.edition, {
      rule: 'garage-circuit',
      severity: 'caution',
      message: `A garage has a circuit of ${GARAGE_CIRCUIT_A} A for its receptacles, without other outlets, and ${hangs}. List receptacles of ${GARAGE_CIRCUIT_A} A and the light as two circuits.${leave}`,
      cites: 'garage-circuit',
      numbers: { amps, bays },
    }),
  ];
}

function addedFindings(job: Stated, added: readonly OtherCircuit[]): Finding[] {
  return added.map(({ use, amps }) =>
    findingOf(job.edition, {
      rule: 'garage-circuit-added',
      severity: 'caution',
      message: `A ${amps} A circuit "${use}" was added, ${USUAL_FT} ft long: the garage must have it once it has power. State what is there already if this is too much.`,
      cites: use === 'garage light' ? 'garage-light' : 'garage-receptacles',
      numbers: { amps, lengthFt: USUAL_FT },
    }),
  );
}

/** The branch circuit of one of the subpanel's other circuits that is built. */
export function otherCircuit(job: Job, other: OtherCircuit, name: string): DecidedCircuit {
  const { poles, amps, use, lengthFt = USUAL_FT } = other;
  const ocpdA = nextStandardOcpdA(amps);
  const load = otherLoad([other]);
  const kind = breakerKind(job, other, ocpdA);
  const circuit: Circuit = {
    name,
    role: 'branch-circuit',
    from: 'subpanel',
    to: use,
    poles,
    voltageV: poles === 1 ? 120 : 240,
    loadA: load.loadA,
    continuousA: load.continuousA,
    dropA: load.loadA,
    ocpdA,
    neutral: true,
    separateNeutral: false,
    breaker: { ocpdA, poles, spaces: poles, kind: kind.kind, because: [`${amps} A was asked for`, ...kind.because] },
    metals: ['copper'],
    terminalsC: job.description.site.code.terminalsC,
    severalReceptacles: namesReceptacles(other),
    legs: [],
    tail: {
      lengthFt,
      place: tailPlace({ outdoors: job.description.site.building === 'outdoor' }),
      ambientC: job.description.site.ambientC,
      because: [
        other.lengthFt === undefined
          ? `${USUAL_FT} ft, since nobody has said how far it goes`
          : `${lengthFt} ft were stated`,
      ],
    },
    chargers: [],
    otherUse: use,
  };
  return { circuit, findings: kind.findings.map((finding) => ({ ...finding, run: name })) };
}

/** Receptacles of a garage, of an accessory building and outdoors have ground-fault protection, here by the breaker. NEC 210.8(A). */
function breakerKind(
  job: Job,
  other: OtherCircuit,
  ocpdA: number,
): { kind: 'standard' | 'gfci'; because: string[]; findings: Finding[] } {
  const receptacles = namesReceptacles(other) || (other.poles === 1 && !isLight(other));
  if (!receptacles) return { kind: 'standard', because: [], findings: [] };
  const sold = job.book.bySpec({ is: 'breaker', ratingA: ocpdA, poles: other.poles, gfci: true }) !== undefined;
  const message = sold
    ? 'Receptacles here have ground-fault protection, by the breaker.'
    : 'Receptacles here need ground-fault protection, and the price book sells no breaker of this rating that has it: protect them at the outlet.';
  const finding = findingOf(job.edition, {
    rule: 'gfci-dwelling-receptacle',
    severity: sold ? 'ok' : 'caution',
    message,
    cites: 'gfci-dwelling-receptacle',
    numbers: { ocpdA },
  });
  return { kind: sold ? 'gfci' : 'standard', because: [message], findings: [finding] };
}

/**
 * What is mounted on one of the other circuits: a receptacle, in a detached garage one in each bay, a light, or both where
 * its use names both; a receptacle where it names neither, and a covered box at 240 V.
 */
export function outletsOf(job: Job, other: OtherCircuit, name: string): Outlet[] {
  const { building, garage } = job.description.site;
  const outdoors = building === 'outdoor';
  const outlet = (connection: Outlet['connection']): Outlet => ({ run: name, connection, outdoors });
  if (other.poles === 2) return [outlet('hardwired')];
  const lights = isLight(other) ? [outlet('light')] : [];
  if (lights.length > 0 && !isReceptacles(other)) return lights;
  const count = building === 'detached' && isReceptacles(other) ? (garage?.bays ?? 1) : 1;
  return [...Array.from({ length: count }, () => outlet('receptacle-120')), ...lights];
}
