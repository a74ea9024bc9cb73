import { individualBranchCircuit } from '../../electrical/charging-circuit.ts';
import { checkReceptacle, largestSettingOfOutletA } from '../../electrical/ev.ts';
import { reaches } from '../../electrical/overcurrent.ts';
import type { Finding } from '../answer.ts';
import type { Outlet } from '../plan-types.ts';
import { chargerA, is120V } from './charger-load.ts';
import { foundCircuitFindings } from './found-circuit.ts';
import { amperes, findingOf, type Job, type SettledCharger } from './job.ts';

type Receptacle = NonNullable<Job['option']['receptacle']>;

/** What is known of the receptacle that is there, as findings: what it can charge, and whether it may be used at all. */
export function receptacleFindings(job: Job): Finding[] {
  const { receptacle, chargers } = job.option;
  if (!receptacle) return [];
  return [
    ...chargers.flatMap((charger) => [
      ...configuration(job, receptacle, charger),
      individualBranchCircuit({
        amps: charger.amps,
        voltageV: is120V(charger) ? 120 : 240,
        ocpdA: receptacle.circuitA,
        sharedWith: receptacle.sharedWith,
        edition: job.edition,
      }),
    ]),
    ...oneOutlet(job),
    ...draw(job, receptacle),
    groundFault(job, receptacle),
    grounding(job, receptacle),
    ...foundCircuitFindings(job),
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

/** Does the plug go with a receptacle that may be on this circuit? NEC 210.21(B)(1) and (3). */
function configuration(job: Job, { circuitA }: Receptacle, charger: SettledCharger): Finding[] {
  const { connection } = charger;
  if (connection === 'hardwired') {
    return [
      findingOf(job.edition, {
        rule: 'receptacle-rating',
        severity: 'stop',
        message:
          'A charger that is wired permanently has no plug for a receptacle. Choose one with a plug, or a circuit of its own.',
        cites: 'plug-or-hardwired',
      }),
    ];
  }
  const amps = chargerA(charger, job.edition);
  return checkReceptacle({ connection, ocpdA: circuitA, amps, edition: job.edition, found: true });
}

/** One receptacle that is there takes one plug: a second charger on it is a stop, however little it draws. */
function oneOutlet(job: Job): Finding[] {
  const { chargers } = job.option;
  if (chargers.length < 2) return [];
  return [
    findingOf(job.edition, {
      rule: 'one-outlet',
      severity: 'stop',
      message: `${chargers.length} chargers are to plug into one receptacle. Charge with one, or give the others circuits of their own.`,
      cites: 'individual-branch-circuit',
      numbers: { chargers: chargers.length },
    }),
  ];
}

/** What all chargers draw of the circuit together. NEC 210.23, 625.41. */
function draw(job: Job, { circuitA }: Receptacle): Finding[] {
  const { chargers } = job.option;
  if (chargers.length === 0) return [];
  const amps = chargers.reduce((sum, charger) => sum + chargerA(charger, job.edition), 0);
  const largestA = Math.min(
    ...chargers.map(({ connection }) => largestSettingOfOutletA({ connection, ocpdA: circuitA })),
  );
  const known = { rule: 'cord-and-plug-80-percent', numbers: { amps, circuitA, largestA } } as const;
  if (reaches(largestA, amps)) {
    const message = `A ${circuitA} A circuit charges with up to ${amperes(largestA)} for hours; ${amperes(amps)} are asked for.`;
    return [findingOf(job.edition, { ...known, severity: 'ok', message, cites: 'ev-continuous-load' })];
  }
  const message = `${amperes(amps)} are more than 80 % of this outlet on a ${circuitA} A circuit. Set the charger to ${amperes(largestA)} or less, or give it a circuit of its own.`;
  return [findingOf(job.edition, { ...known, severity: 'stop', message, cites: 'cord-and-plug-80-percent' })];
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
