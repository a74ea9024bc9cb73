import { checkCarCable, couplerHeight } from '../../electrical/ev.ts';
import { CONTINUOUS_FACTOR } from '../../electrical/overcurrent.ts';
import { sizeInWords } from '../../electrical/sizes.ts';
import type { Finding } from '../answer.ts';
import type { PlannedRun } from '../plan-types.ts';
import { groupFindings } from './charger-load.ts';
import { isClosed } from './families.ts';
import { amperes, findingOf, type Job } from './job.ts';
import { isRaceway } from './wiring.ts';

/** What was checked of a run and holds, with its numbers, so that an inspector can follow. */
export function runChecks(job: Job, run: PlannedRun): Finding[] {
  const findings = [
    ...continuousLoad(job, run),
    conductor(job, run),
    equipmentGround(job, run),
    ...fill(job, run),
    ...aluminum(job, run),
    ...buried(job, run),
    ...outdoorRaceway(job, run),
    ...openedFinish(job, run),
  ];
  return findings.map((finding) => ({ ...finding, run: run.name }));
}

function continuousLoad(job: Job, { continuousA, loadA, ocpdA, chargers, role }: PlannedRun): Finding[] {
  if (continuousA <= 0) return [];
  const neededA = loadA + continuousA * (CONTINUOUS_FACTOR - 1);
  return [
    findingOf(job.edition, {
      rule: 'continuous-load',
      severity: 'ok',
      message: `Charging lasts for hours and counts at 125 %: ${amperes(neededA)} behind a device of ${ocpdA} A.`,
      cites: chargers.length > 0 || role === 'feeder' ? 'ev-continuous-load' : 'continuous-load',
      numbers: { continuousA, neededA, ocpdA },
    }),
  ];
}

function conductor(job: Job, { conductor: { metal, size, ampacityA }, ocpdA }: PlannedRun): Finding {
  return findingOf(job.edition, {
    rule: 'conductor-ampacity',
    severity: 'ok',
    message: `${sizeInWords(size)} ${metal} carries ${amperes(ampacityA)} the way it lies here, behind a device of ${ocpdA} A.`,
    cites: 'conductor-ampacity',
    numbers: { size, metal, ampacityA, ocpdA },
  });
}

function equipmentGround(job: Job, { groundSize, ocpdA }: PlannedRun): Finding {
  return findingOf(job.edition, {
    rule: 'equipment-ground',
    severity: 'ok',
    message: `An equipment ground of ${sizeInWords(groundSize)} goes along, by its device of ${ocpdA} A.`,
    cites: 'equipment-ground',
    numbers: { groundSize, ocpdA },
  });
}

/** The fullest raceway of a run. */
function fill(job: Job, { legs, tail }: PlannedRun): Finding[] {
  const conduits = [...legs.map(({ conduit }) => conduit), tail?.conduit].flatMap((conduit) => conduit ?? []);
  const [fullest] = conduits.sort((a, b) => b.fillPercent - a.fillPercent);
  if (!fullest) return [];
  return [
    findingOf(job.edition, {
      rule: 'conduit-fill',
      severity: 'ok',
      message: `The fullest raceway, ${fullest.tradeSize} in, is ${fullest.fillPercent.toFixed(1)} % full.`,
      cites: 'conduit-fill',
      numbers: { fillPercent: fullest.fillPercent, tradeSize: fullest.tradeSize },
    }),
  ];
}

function aluminum(job: Job, { conductor: { metal } }: PlannedRun): Finding[] {
  if (metal === 'copper') return [];
  return [
    findingOf(job.edition, {
      rule: 'dissimilar-metals',
      severity: 'note',
      message:
        'Aluminum ends are brushed, coated with compound and tightened to the stated torque, in lugs marked for aluminum.',
      cites: 'dissimilar-metals',
    }),
  ];
}

/** USE-2 that comes up may go on inside, or through a raceway above ground, only where it carries a second marking. */
function buried(job: Job, { legs, tail }: PlannedRun): Finding[] {
  const goesOn = [...legs, ...(tail ? [tail] : [])].some(
    ({ insulation, method }) => insulation === 'use-2' && method !== 'direct-burial',
  );
  if (!legs.some(({ method }) => method === 'direct-burial')) return [];
  return [
    findingOf(job.edition, {
      rule: 'use-2-markings',
      severity: 'note',
      message: goesOn
        ? 'Take USE-2 that is also marked RHH or RHW-2: it goes on through raceway above ground.'
        : 'USE-2 ends in an enclosure outdoors. Where it goes on inside, take it also marked RHH or RHW-2, in a raceway.',
      cites: 'use-2-indoors',
    }),
  ];
}

function outdoorRaceway(job: Job, { legs }: PlannedRun): Finding[] {
  const outdoors = legs.filter(({ leg, method }) => method === 'pvc' && job.route[leg]?.place === 'wet-above-ground');
  return outdoors.map(({ leg }) =>
    findingOf(job.edition, {
      rule: 'pvc-damage',
      severity: 'note',
      message:
        'Planned in schedule 40. Where a car, a mower or a tool can reach it, schedule 80 or rigid conduit is required.',
      cites: 'pvc-damage',
      leg,
    }),
  );
}

/** Tubing does not go through framing that is closed. */
function openedFinish(job: Job, { legs }: PlannedRun): Finding[] {
  return legs.flatMap(({ leg, method }) => {
    const placed = job.route[leg];
    if (!placed || !isRaceway(method) || !isClosed(job, placed)) return [];
    return findingOf(job.edition, {
      rule: 'opened-finish',
      severity: 'caution',
      message:
        'A raceway does not go through closed framing: the finish is opened along this leg and patched. Another way ' +
        'around it, or cable, may cost less.',
      numbers: { method },
      leg,
    });
  });
}

/** What each charger is told besides: where its coupler hangs, and how long its cable may be. */
export function chargerChecks(job: Job): Finding[] {
  const { option, edition } = job;
  const cords = option.chargers.flatMap(({ cordFt }) =>
    cordFt === undefined ? [] : [checkCarCable({ cordFt, edition })],
  );
  const outdoors = option.chargers.some((charger) => charger.outdoors);
  return option.chargers.length > 0 ? [...groupFindings(job), ...cords, couplerHeight({ outdoors, edition })] : [];
}
