import type { Finding } from '../answer.ts';
import { BOUNDS } from '../vocabulary.ts';
import { chargerA, chargerGroups, drawnTogetherA } from './charger-load.ts';
import { amperes, findingOf, type Job } from './job.ts';

/** A splitter behind one receptacle serves so many chargers. Common practice, no source. */
const SPLIT_CHARGERS = 2;

/**
 * What holds for chargers whose amperes a system limits. NEC 625.42(A): the system's setting is the load; 750.30 (2026:
 * 130.30): it acts by itself; 220.70 (2026: 120.7): its set point counts in the service's load.
 */
export function loadManagementFindings(job: Job): Finding[] {
  const { loadManagement, chargers, feed } = job.option;
  if (!loadManagement || chargers.length === 0) return [];
  if (feed === 'existing-receptacle') {
    const message =
      'Load management is not planned for a receptacle that is there: what limits it is its own circuit. ' +
      'Leave it out, or choose a circuit of its own.';
    return [
      findingOf(job.edition, { rule: 'load-management', severity: 'caution', message, cites: 'load-management' }),
    ];
  }
  const own = loadManagement.kind === 'service-monitor' ? monitorFindings(job) : splitterFindings(job);
  return [setting(job, loadManagement.maxA), ...tooLittle(job, loadManagement.maxA), ...own];
}

function setting(job: Job, maxA: number): Finding {
  const chargersA = job.option.chargers.map((charger) => chargerA(charger, job.edition));
  const togetherA = chargersA.reduce((sum, amps) => sum + amps, 0);
  const countsA = drawnTogetherA(job);
  const message =
    countsA >= togetherA
      ? `A limit of ${amperes(maxA)} holds nothing back: the chargers together draw ${amperes(togetherA)}.`
      : `The chargers count with the ${amperes(countsA)} that the system is set to, not with ${amperes(togetherA)}: it must be ` +
        'listed, act by itself, and only a tool, lock or password may change its setting, which a label names.';
  return findingOf(job.edition, {
    rule: 'load-management',
    severity: 'note',
    message,
    cites: 'load-management',
    numbers: { maxA, togetherA, countsA },
  });
}

/** A car does not charge below 6 A: with less for each, they take turns. IEC 61851-1, from memory. */
function tooLittle({ option, edition }: Job, maxA: number): Finding[] {
  const leastA = option.chargers.length * BOUNDS.minChargingA;
  if (maxA >= leastA) return [];
  const message = `${amperes(maxA)} are less than ${BOUNDS.minChargingA} A for each of ${option.chargers.length} chargers: they take turns instead of charging together.`;
  const numbers = { maxA, leastA };
  return [
    findingOf(edition, {
      rule: 'load-management-least',
      severity: 'caution',
      message,
      numbers,
      cites: 'load-management',
    }),
  ];
}

function monitorFindings(job: Job): Finding[] {
  return [houseLimit(job), managedService(job), ...signalCable(job)];
}

/** The limit of the house may not be above what the service is rated for; unstated, it is that rating. */
function houseLimit({ option, description, edition }: Job): Finding {
  const ratingA = option.serviceUpgrade?.toA ?? description.site.service.ratingA;
  const statedA = option.loadManagement?.houseLimitA;
  const known = { rule: 'house-limit', cites: 'energy-management' } as const;
  if (ratingA === null) {
    const message =
      'The monitor is set to what the service is rated for, and that is not known: read the main breaker before it is set.';
    const numbers = statedA === undefined ? {} : { houseLimitA: statedA };
    return findingOf(edition, { ...known, severity: 'caution', message, numbers });
  }
  const houseLimitA = statedA ?? ratingA;
  const numbers = { houseLimitA, ratingA };
  if (houseLimitA > ratingA) {
    const message = `A limit of ${amperes(houseLimitA)} for the house is above its service of ${ratingA} A and protects nothing. Set it to ${ratingA} A or less.`;
    return findingOf(edition, { ...known, severity: 'stop', message, numbers });
  }
  const message = `The monitor keeps the whole house at ${amperes(houseLimitA)} of ${ratingA} A by letting the chargers have only what is left.`;
  return findingOf(edition, { ...known, severity: 'ok', message, numbers });
}

function managedService({ edition }: Job): Finding {
  return findingOf(edition, {
    rule: 'managed-load',
    severity: 'note',
    message:
      'In the load of the service the set point of the system stands for what it manages; each charging circuit is still sized for its own charger.',
    cites: 'managed-load',
  });
}

/** The signal goes beside the power, not in its raceway; where nothing lies open beside it, it needs a raceway of its own. */
function signalCable(job: Job): Finding[] {
  const known = { rule: 'signal-cable', cites: 'signal-separation' } as const;
  const beside = findingOf(job.edition, {
    ...known,
    severity: 'note',
    message:
      'The signal cable from the monitor to the charger goes beside the power conductors, never in their raceway or box.',
  });
  const closed = job.option.dataConduit
    ? []
    : job.route.filter(({ stated }) => stated.kind === 'bore' || stated.kind === 'existing-raceway');
  const noWay = closed.map(({ leg, stated }) =>
    findingOf(job.edition, {
      ...known,
      severity: 'caution',
      message: `On this leg (${stated.kind}) nothing lies open for the signal cable: add a data conduit, or take a monitor that needs no cable.`,
      leg,
    }),
  );
  const fromMain =
    job.start === 'main panel'
      ? []
      : [
          findingOf(job.edition, {
            ...known,
            severity: 'caution',
            message:
              'The monitor sits at the service and the route starts at a subpanel: the cable between the two panels is not part of the route and not priced.',
          }),
        ];
  return [beside, ...noWay, ...fromMain];
}

/** Chargers that plug in share by a splitter behind one receptacle, which has two outlets. */
function splitterFindings(job: Job): Finding[] {
  return chargerGroups(job.option.chargers).flatMap(({ name, chargers }) => {
    const plugged = chargers.filter((at) => job.option.chargers[at]?.connection !== 'hardwired').length;
    if (chargers.length < 2 || plugged === 0) return [];
    const fits = plugged === chargers.length && chargers.length <= SPLIT_CHARGERS;
    return findingOf(job.edition, {
      rule: 'load-management-splitter',
      severity: fits ? 'note' : 'stop',
      message: fits
        ? 'A listed splitter behind one receptacle lets two chargers have it in turn; the second gets no receptacle of its own.'
        : `A splitter serves ${SPLIT_CHARGERS} chargers that plug in. Wire the chargers of this circuit permanently and let them share, or give each its own circuit.`,
      cites: 'load-management',
      numbers: { chargers: chargers.length, plugged },
      run: name,
    });
  });
}
