import { equipmentGroundSize } from '../../electrical/equipment-ground.ts';
import { checkCarCable, couplerHeight } from '../../electrical/ev.ts';
import { CONTINUOUS_FACTOR } from '../../electrical/overcurrent.ts';
import { sizeInWords } from '../../electrical/sizes.ts';
import type { Place } from '../../electrical/wiring-methods.ts';
import type { Finding } from '../answer.ts';
import type { PlannedRun } from '../plan-types.ts';
import { groupFindings } from './charger-load.ts';
import { feederSizeNote } from './feeder-size.ts';
import { fullestRaceway } from './fullest-raceway.ts';
import { amperes, findingOf, type Job } from './job.ts';
import { isClosed } from './methods.ts';
import { isRaceway } from './wiring.ts';

/** What was checked of a run and holds, with its numbers, so that an inspector can follow. */
export function runChecks(job: Job, run: PlannedRun): Finding[] {
  const findings = [
    ...continuousLoad(job, run),
    ...conductors(job, run),
    ...changeFindings(job, run),
    ...feederSizeNote(job, run),
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
  const lasting = continuousA < loadA ? `, ${amperes(continuousA)} of it for hours` : ' for hours';
  return [
    findingOf(job.edition, {
      rule: 'continuous-load',
      severity: 'ok',
      message: `The load is ${amperes(loadA)}${lasting}, which counts at 125 %: ${amperes(neededA)} behind a device of ${ocpdA} A.`,
      cites: chargers.length > 0 || role === 'feeder' ? 'ev-continuous-load' : 'continuous-load',
      numbers: { loadA, continuousA, neededA, ocpdA },
    }),
  ];
}

function conductors(job: Job, { begins, conductor, ocpdA }: PlannedRun): Finding[] {
  return [...(begins ? [begins.conductor] : []), conductor].map(({ metal, size, ampacityA }) =>
    findingOf(job.edition, {
      rule: 'conductor-ampacity',
      severity: 'ok',
      message: `${sizeInWords(size)} ${metal} carries ${amperes(ampacityA)} the way it lies here, behind a device of ${ocpdA} A.`,
      cites: 'conductor-ampacity',
      numbers: { size, metal, ampacityA, ocpdA },
    }),
  );
}

/** Where the run goes on as other conductors: the device at its start protects the weaker ones, and metals meet. */
function changeFindings(job: Job, { begins, conductor, ocpdA }: PlannedRun): Finding[] {
  if (!begins) return [];
  const [first, then] = [begins.conductor, conductor].map(({ metal, size }) => `${sizeInWords(size)} ${metal}`);
  const isMixed = begins.conductor.metal !== conductor.metal;
  const connectors = isMixed ? ' The connectors there must be marked for both metals.' : '';
  return [
    findingOf(job.edition, {
      rule: 'conductor-change',
      severity: 'note',
      message: `${first} goes on as ${then} at ${begins.until}: one of them throughout would cost more or lose more voltage. Each carries what a device of ${ocpdA} A protects.${connectors}`,
      cites: isMixed ? 'dissimilar-metals' : 'conductor-ampacity',
      numbers: { ocpdA, beginsAs: begins.conductor.size, goesOnAs: conductor.size },
    }),
  ];
}

/** Where a ground comes from, and what the device asks of it at least: a cable's own may be larger. */
function equipmentGround(job: Job, { groundSize, ocpdA, sections }: PlannedRun): Finding {
  const goesAlong = sections.map(({ groundSize: size, groundMetal, cable }) =>
    cable
      ? `${sizeInWords(size)} ${groundMetal}, the ${CABLE_NAMES[cable.form]} cable's own`
      : `${sizeInWords(size)} ${groundMetal}, a conductor beside the others`,
  );
  const asked = [...new Set(sections.map(({ groundMetal }) => groundMetal))].map(
    (metal) => `${sizeInWords(equipmentGroundSize({ ocpdA, metal }))} ${metal}`,
  );
  return findingOf(job.edition, {
    rule: 'equipment-ground',
    severity: 'ok',
    message: `The equipment ground is ${[...new Set(goesAlong)].join(', then ')}. A device of ${ocpdA} A asks for ${asked.join(' or ')} at least.`,
    cites: 'equipment-ground',
    numbers: { groundSize, ocpdA },
  });
}

const CABLE_NAMES = { 'nm-b': 'NM-B', 'uf-b': 'UF-B', ser: 'SER', mhf: 'feeder' } as const;

/** The fullest raceway of a run. */
function fill(job: Job, run: PlannedRun): Finding[] {
  const fullest = fullestRaceway(job, run);
  if (!fullest) return [];
  const { tradeSize, fillPercent, riser } = fullest;
  const which = riser ? `${tradeSize} in schedule 80 where it comes out of the ground` : `${tradeSize} in`;
  return [
    findingOf(job.edition, {
      rule: 'conduit-fill',
      severity: 'ok',
      message: `The fullest raceway, ${which}, is ${fillPercent.toFixed(1)} % full.`,
      cites: 'conduit-fill',
      numbers: { fillPercent, tradeSize },
    }),
  ];
}

function aluminum(job: Job, { sections }: PlannedRun): Finding[] {
  if (sections.every(({ metal }) => metal === 'copper')) return [];
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

/**
 * Buried USE-2 that comes up ends in an enclosure outdoors. Inside, as far as a panel behind the wall, it may be only where
 * it is also marked RHH or RHW-2, in a raceway. NEC 338.12(B)(1).
 */
function buried(job: Job, run: PlannedRun): Finding[] {
  const { legs, tail } = run;
  if (!legs.some(({ method }) => method === 'direct-burial')) return [];
  const known = { rule: 'use-2-markings', cites: 'use-2-indoors' } as const;
  if (goesInside(job, run)) {
    const message =
      'The buried USE-2 comes into a building, as far as the panel: it may do so only if also marked RHH or RHW-2, in a raceway. Read the marking before you buy, or end it in a box outdoors and go on with another wiring.';
    return [findingOf(job.edition, { ...known, severity: 'caution', message })];
  }
  const goesOn = [...legs, ...(tail ? [tail] : [])].some(
    ({ insulation, method }) => insulation === 'use-2' && method !== 'direct-burial',
  );
  const message = goesOn
    ? 'Take USE-2 that is also marked RHH or RHW-2: it goes on through raceway above ground.'
    : 'USE-2 ends in an enclosure outdoors. Where it goes on inside, take it also marked RHH or RHW-2, in a raceway.';
  return [findingOf(job.edition, { ...known, severity: 'note', message })];
}

const INSIDE: readonly Place[] = ['dry-concealed', 'dry-exposed', 'attic', 'damp'];

/** Does USE-2 lie along a leg inside, or reach the panel that the run begins or ends at, inside? */
function goesInside(job: Job, { legs, tail, role }: PlannedRun): boolean {
  const isUse2 = (leg: PlannedRun['legs'][number] | undefined) => leg?.insulation === 'use-2';
  const alongInside = legs.some((leg) => {
    const place = job.route[leg.leg]?.place;
    return isUse2(leg) && place !== undefined && INSIDE.includes(place);
  });
  const intoPanel = role === 'feeder' && !tail && job.option.subpanel?.enclosure === 'indoor' && isUse2(legs.at(-1));
  const intoOutlet = tail?.insulation === 'use-2' && INSIDE.includes(tail.place);
  return alongInside || intoPanel || intoOutlet || isUse2(legs[0]);
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
