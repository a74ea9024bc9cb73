import { checkPanelProtection } from '../../electrical/outbuildings.ts';
import { CONTINUOUS_FACTOR, nextStandardOcpdA, reaches } from '../../electrical/overcurrent.ts';
import type { Finding } from '../answer.ts';
import { METALS } from '../vocabulary.ts';
import type { DecidedCircuit } from './charger-circuit.ts';
import { chargerA } from './charger-load.ts';
import { type FeederLoad, feederLoad, type OtherCircuit, standardAtMostA } from './feeder-load.ts';
import { amperes, findingOf, type Job } from './job.ts';

/** A feeder without a load yet is figured at so much of its rating, for the voltage drop. */
const CONTINUOUS_SHARE = 1 / CONTINUOUS_FACTOR;
/** The largest feeder of a subpanel that is planned, in amperes; ours: what asks for more is a service of its own. */
const LARGEST_FEEDER_A = 400;

/** The feeder of the option's subpanel, over the whole route. Two poles and a neutral, for 120 V circuits. */
export function feederCircuit(job: Job, others: readonly OtherCircuit[]): DecidedCircuit {
  const load = feederLoad(job, others);
  const device = feederDevice(job, load);
  const { ocpdA } = device;
  const { metal, subpanel } = job.option;
  const findings = [
    ...device.findings,
    ...laterFindings(job, load, ocpdA),
    checkPanelProtection({ panelA: subpanel?.ratingA ?? 0, ocpdA, edition: job.edition }),
  ];
  return {
    circuit: {
      name: 'feeder',
      role: 'feeder',
      from: job.start,
      to: 'subpanel',
      poles: 2,
      voltageV: 240,
      loadA: load.loadA,
      continuousA: load.continuousA,
      dropA: load.chargersA > 0 ? load.chargersA : ocpdA * CONTINUOUS_SHARE,
      ocpdA,
      neutral: true,
      separateNeutral: true,
      breaker: { ocpdA, poles: 2, spaces: 2, kind: 'standard', because: device.because },
      metals: metal === 'auto' ? [...METALS] : [metal],
      terminalsC: job.terminalsC,
      severalReceptacles: false,
      legs: job.route.map(({ leg }) => leg),
      chargers: [],
    },
    findings: findings.map((finding) => ({ ...finding, run: 'feeder' })),
  };
}

interface Device {
  ocpdA: number;
  because: string[];
  findings: Finding[];
}

/** The feeder's device: the one asked for where it is a standard rating that carries the load, else what does. */
function feederDevice(job: Job, load: FeederLoad): Device {
  const stated = job.option.subpanel?.feederA;
  if (stated === undefined) return freeDevice(job, load);
  const ratingA = standardAtMostA(stated, job.edition);
  const odd: Finding[] =
    ratingA === stated
      ? []
      : [
          findingOf(job.edition, {
            rule: 'standard-ratings',
            severity: 'caution',
            message: `${stated} A is no standard rating: ${ratingA} A is planned.`,
            cites: 'standard-ratings',
            numbers: { statedA: stated, ratingA },
          }),
        ];
  const numbers = { neededA: load.neededA, feederA: stated };
  if (reaches(ratingA, load.neededA)) {
    const message = `The feeder's ${ratingA} A carry the calculated load of ${amperes(load.neededA)}: ${load.because.join('; ')}.`;
    const ok = findingOf(job.edition, {
      rule: 'feeder-load',
      severity: 'ok',
      message,
      cites: 'feeder-continuous-load',
      numbers,
    });
    return { ocpdA: ratingA, because: [`${stated} A was asked for`, ...load.because], findings: [...odd, ok] };
  }
  if (load.neededA > LARGEST_FEEDER_A) return largestDevice(job, load, odd);
  const ocpdA = nextStandardOcpdA(load.neededA);
  const stop = findingOf(job.edition, {
    rule: 'feeder-load',
    severity: 'stop',
    message:
      `A feeder of ${stated} A does not carry the calculated load of ${amperes(load.neededA)}: ${load.because.join('; ')}. ` +
      `It takes ${ocpdA} A, which the lines show; or fewer amperes of charging, or load management.`,
    cites: 'feeder-continuous-load',
    numbers,
  });
  return { ocpdA, because: [`${amperes(load.neededA)} are needed`, ...load.because], findings: [...odd, stop] };
}

/** More than any feeder of a subpanel carries: the largest is planned, to show the difference, and may not be built. */
function largestDevice(job: Job, load: FeederLoad, others: readonly Finding[] = []): Device {
  const stop = findingOf(job.edition, {
    rule: 'feeder-load',
    severity: 'stop',
    message:
      `The calculated load of the subpanel is ${amperes(load.neededA)}: ${load.because.join('; ')}. No feeder above ` +
      `${LARGEST_FEEDER_A} A is planned. Put fewer circuits on it, charge with fewer amperes, or manage the load.`,
    cites: 'feeder-continuous-load',
    numbers: { neededA: load.neededA, largestA: LARGEST_FEEDER_A },
  });
  const because = [`no larger feeder is planned; ${amperes(load.neededA)} are needed`, ...load.because];
  return { ocpdA: LARGEST_FEEDER_A, because, findings: [...others, stop] };
}

/** Nobody has said how large the feeder is: what the load and the later cars take, or the panel's rating for wiring ahead. */
function freeDevice(job: Job, load: FeederLoad): Device {
  if (load.neededA > LARGEST_FEEDER_A) return largestDevice(job, load);
  const ocpdA = freeFeederA(job, load);
  const because = [`the smallest standard rating for ${amperes(load.neededA)} and the later cars`, ...load.because];
  const ok = findingOf(job.edition, {
    rule: 'feeder-load',
    severity: 'ok',
    message: `A feeder of ${ocpdA} A carries the calculated load of ${amperes(load.neededA)}: ${load.because.join('; ')}.`,
    cites: 'feeder-continuous-load',
    numbers: { neededA: load.neededA, feederA: ocpdA },
  });
  return { ocpdA, because, findings: [ok] };
}

/**
 * The rating of a feeder that nobody has stated, in amperes: for the load and the later cars as far as the panel goes; the
 * panel's own for wiring ahead.
 * @throws {BeyondTableError} for a load beyond the last standard rating
 */
export function freeFeederA(job: Charging, { neededA }: Pick<FeederLoad, 'neededA'>): number {
  const mostA = standardAtMostA(job.option.subpanel?.ratingA ?? 0, job.edition);
  const nowA = nextStandardOcpdA(Math.max(neededA, 1));
  const laterA = nextStandardOcpdA(Math.max(neededA + laterNeededA(job), 1));
  return job.option.chargers.length === 0 ? Math.max(nowA, mostA) : Math.max(nowA, Math.min(laterA, mostA));
}

/** Who charges now and later, under which edition. */
type Charging = Pick<Job, 'description' | 'option' | 'edition'>;

/** What later cars ask of the feeder, in amperes: each as much as the largest charger of now, at 125 %. */
function laterNeededA({ description, option, edition }: Charging): number {
  const later = description.driving?.later ?? 0;
  if (later === 0 || option.chargers.length === 0 || option.loadManagement) return 0;
  return later * Math.max(...option.chargers.map((charger) => chargerA(charger, edition))) * CONTINUOUS_FACTOR;
}

function laterFindings(job: Job, load: FeederLoad, ocpdA: number): Finding[] {
  const laterA = laterNeededA(job);
  if (laterA === 0) return [];
  const neededA = load.neededA + laterA;
  const numbers = { neededA, feederA: ocpdA, later: job.description.driving?.later ?? 0 };
  const carries = reaches(ocpdA, neededA);
  return [
    findingOf(job.edition, {
      rule: 'later-cars',
      severity: carries ? 'ok' : 'caution',
      message: carries
        ? `The feeder carries the later cars too: ${amperes(neededA)} of ${ocpdA} A.`
        : `With the later cars the feeder would have to carry ${amperes(neededA)} and has ${ocpdA} A: they would share under ` +
          'load management, charge with fewer amperes, or want a larger feeder now.',
      cites: 'feeder-continuous-load',
      numbers,
    }),
  ];
}
