import { usableAmpacity } from '../../electrical/ampacity.ts';
import { conductorSuffices } from '../../electrical/conductor.ts';
import { BeyondTableError } from '../../electrical/errors.ts';
import { neededA as neededForLoadA, reaches, standardRatingsA } from '../../electrical/overcurrent.ts';
import { compareSizes, sizeInWords } from '../../electrical/sizes.ts';
import type { Finding } from '../answer.ts';
import type { PlannedRun, Section } from '../plan-types.ts';
import { CONDUCTOR_SIZES, type ConductorSize } from '../vocabulary.ts';
import { amperes, findingOf, type Job } from './job.ts';
import { currentCarrying } from './section.ts';

/**
 * Says where the rating of a feeder just asks for a larger conductor: 2 AWG aluminum is 90 A at 75 °C, so 100 A take 1
 * AWG, and 90 A would not. NEC 215.2(A)(1), 240.4(B), Table 310.16. Nothing where another thing than its rating decides
 * the size, such as the voltage drop, or where the next smaller rating would not carry the load.
 */
export function feederSizeNote(job: Job, run: PlannedRun): Finding[] {
  const { role, ocpdA, sections, conductor } = run;
  const lessA = standardRatingsA(job.edition).findLast((ratingA) => ratingA < ocpdA);
  const isOneSize = sections.every(({ metal, size }) => metal === conductor.metal && size === conductor.size);
  if (role !== 'feeder' || lessA === undefined || !isOneSize || !reaches(lessA, neededForLoadA(run))) return [];
  const size = smallestSold(job, run, ocpdA);
  const lessSize = smallestSold(job, run, lessA);
  if (size !== conductor.size || !lessSize || compareSizes(lessSize, size) >= 0) return [];
  const lessCarriesA = Math.min(
    ...sections.flatMap((section) =>
      laidAs(job, section).map((laid) => usableAmpacity({ ...laid, size: lessSize }).ampacityA),
    ),
  );
  const { metal } = conductor;
  const nextUp = reaches(lessCarriesA, lessA) ? '' : ', the next standard rating above that,';
  return [
    findingOf(job.edition, {
      rule: 'feeder-size',
      severity: 'note',
      message:
        `A feeder of ${ocpdA} A takes ${sizeInWords(size)} ${metal} here: ${sizeInWords(lessSize)} carries ` +
        `${amperes(lessCarriesA)}. One of ${lessA} A${nextUp} would do with ${sizeInWords(lessSize)}, and carry this load too.`,
      cites: 'conductor-ampacity',
      numbers: { ocpdA, size, lessA, lessSize, lessCarriesA },
    }),
  ];
}

/** The smallest size that shops sell for every section and that may lie behind a device of so many amperes. */
function smallestSold(job: Job, run: PlannedRun, ocpdA: number): ConductorSize | undefined {
  return CONDUCTOR_SIZES.find((size) =>
    run.sections.every((section) => isSold(job, section, size) && suffices(job, run, { section, size, ocpdA })),
  );
}

function isSold({ book }: Job, { cable, insulation, metal }: Section, size: ConductorSize): boolean {
  if (cable) return book.bySpec({ is: 'cable', ...cable, metal, size }) !== undefined;
  if (insulation === 'nm-b' || insulation === 'uf-b' || insulation === 'ser') return false; // sold as cable only
  return book.bySpec({ is: 'conductor', insulation, metal, size }) !== undefined;
}

interface Tried {
  section: Section;
  size: ConductorSize;
  ocpdA: number;
}

function suffices(job: Job, { loadA, continuousA }: PlannedRun, { section, size, ocpdA }: Tried): boolean {
  try {
    return laidAs(job, section).every((laid) =>
      conductorSuffices({ ...laid, size, loadA, continuousA, ocpdA, supplies: 'feeder' }),
    );
  } catch (error) {
    if (error instanceof BeyondTableError) return false;
    throw error;
  }
}

/** How the conductors of a section lie along each of its legs. */
function laidAs(job: Job, { insulation, metal, legs }: Section) {
  return legs.flatMap((leg) => {
    const placed = job.route[leg];
    if (!placed) return [];
    const { terminalsC } = job;
    return { metal, insulation, terminalsC, ambientC: placed.ambientC, currentCarrying: currentCarrying({ placed }) };
  });
}
