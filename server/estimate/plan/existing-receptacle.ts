import { individualBranchCircuit, largestSettingOfOutletA, receptacleFacts } from '../../electrical/ev.ts';
import { reaches } from '../../electrical/overcurrent.ts';
import type { Finding } from '../answer.ts';
import type { Outlet } from '../plan-types.ts';
import { is120V } from './charger-load.ts';
import { amperes, findingOf, type Job, type SettledCharger } from './job.ts';

type Receptacle = NonNullable<Job['option']['receptacle']>;

/** What is known of the receptacle that is there, as findings: what it can charge, and whether it may be used at all. */
export function receptacleFindings(job: Job): Finding[] {
  const { receptacle, chargers } = job.option;
  if (!receptacle) return [];
  return [
    ...chargers.flatMap((charger) => [
      ...configuration(job, receptacle, charger),
      draw(job, receptacle, charger),
      individualBranchCircuit({
        amps: charger.amps,
        voltageV: is120V(charger) ? 120 : 240,
        ocpdA: receptacle.circuitA,
        sharedWith: receptacle.sharedWith,
        edition: job.edition,
      }),
    ]),
    groundFault(job, receptacle),
    grounding(job, receptacle),
  ];
}

/** A receptacle that is replaced is the only thing that is built. */
export function receptacleOutlets({ option }: Job): Outlet[] {
  const { receptacle, chargers } = option;
  if (!receptacle?.replace) return [];
  return chargers
    .slice(0, 1)
    .map(({ connection }) => ({ run: 'existing circuit', charger: 0, connection, outdoors: receptacle.outdoors }));
}

/** Does the plug go with a receptacle that may be on this circuit? NEC 210.21(B). */
function configuration(job: Job, { circuitA }: Receptacle, { connection }: SettledCharger): Finding[] {
  const facts = receptacleFacts(connection, job.edition);
  const known = { rule: 'receptacle-rating', cites: 'receptacle-rating' } as const;
  if (!facts) {
    return [
      findingOf(job.edition, {
        ...known,
        severity: 'stop',
        message:
          'A charger that is wired permanently has no plug for a receptacle. Choose one with a plug, or a circuit of its own.',
        cites: 'plug-or-hardwired',
      }),
    ];
  }
  if (circuitA >= facts.ratingA || facts.circuitsA.includes(circuitA)) return [];
  return [
    findingOf(job.edition, {
      ...known,
      severity: 'stop',
      message: `A ${facts.ratingA} A receptacle may not sit on a ${circuitA} A circuit: look at the breaker and at the receptacle again.`,
      numbers: { receptacleA: facts.ratingA, circuitA },
    }),
  ];
}

function draw(job: Job, { circuitA }: Receptacle, { amps, connection }: SettledCharger): Finding {
  const largestA = largestSettingOfOutletA({ connection, ocpdA: circuitA });
  const known = { rule: 'cord-and-plug-80-percent', numbers: { amps, circuitA, largestA } } as const;
  return reaches(largestA, amps)
    ? findingOf(job.edition, {
        ...known,
        severity: 'ok',
        message: `A ${circuitA} A circuit charges with up to ${amperes(largestA)} for hours; ${amperes(amps)} are asked for.`,
        cites: 'ev-continuous-load',
      })
    : findingOf(job.edition, {
        ...known,
        severity: 'stop',
        message: `${amperes(amps)} are more than 80 % of this outlet on a ${circuitA} A circuit. Set the charger to ${amperes(largestA)} or less, or give it a circuit of its own.`,
        cites: 'cord-and-plug-80-percent',
      });
}

function groundFault(job: Job, { gfci, replace }: Receptacle): Finding {
  const known = { rule: 'gfci-ev-receptacle', cites: 'gfci-ev-receptacle' } as const;
  if (gfci === true) {
    const message = 'The receptacle has ground-fault protection. Press its test button before every long use.';
    return findingOf(job.edition, { ...known, severity: 'ok', message });
  }
  if (replace) {
    const message = 'The new receptacle gets ground-fault protection, which one for charging must have.';
    return findingOf(job.edition, { ...known, severity: 'note', message });
  }
  return findingOf(job.edition, {
    ...known,
    severity: 'caution',
    message:
      gfci === null
        ? 'Whether the receptacle has ground-fault protection is not known: look for test buttons there, upstream and on the breaker. One for charging must have it.'
        : 'The receptacle has no ground-fault protection, which one for charging must have: let it be replaced, or the breaker changed.',
  });
}

function grounding(job: Job, { grounded }: Receptacle): Finding {
  const known = { rule: 'equipment-ground-required', cites: 'equipment-ground-required' } as const;
  if (grounded === true)
    return findingOf(job.edition, { ...known, severity: 'ok', message: 'The receptacle is grounded.' });
  return findingOf(job.edition, {
    ...known,
    severity: grounded === false ? 'stop' : 'caution',
    message:
      grounded === false
        ? 'A receptacle without an equipment ground may not feed a charger. Let it be rewired, or give the charger a circuit of its own.'
        : 'Whether the receptacle is grounded is not known: have it tested before anything charges from it.',
  });
}
