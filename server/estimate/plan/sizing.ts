import { compareSizes, sizeInWords } from '../../electrical/sizes.ts';
import type { Finding } from '../answer.ts';
import type { ConductorSize } from '../vocabulary.ts';
import { findingOf, type Job } from './job.ts';
import { dropAt, type LaidCircuit } from './lay.ts';
import { sufficientSizes, wiredAt } from './section.ts';

/** A laid circuit with the size it got, and the drop over it in percent. */
export interface SizedCircuit {
  laid: LaidCircuit;
  size: ConductorSize;
  dropPercent: number;
}

interface Step {
  laid: LaidCircuit;
  at: number;
}

function sized(job: Job, { laid, at }: Step): SizedCircuit {
  const size = laid.sizes[at] ?? laid.sizes[0];
  return { laid, size, dropPercent: dropAt(job, laid, size).percent };
}

/**
 * Chooses the sizes of circuits that follow each other: the smallest that are lawful and sold, then larger ones while the
 * drop of the whole path is above the limit, always where most of it is lost. Where no sold size keeps the limit, the
 * least drop is planned. The path ends at the branch that drops most.
 */
export function chooseSizes(
  job: Job,
  path: { arriving: LaidCircuit; branches: readonly LaidCircuit[] },
): { arriving: SizedCircuit; branches: SizedCircuit[] } {
  const first: Step = { laid: path.arriving, at: 0 };
  const others: Step[] = path.branches.map((laid) => ({ laid, at: 0 }));
  const chargerSteps = others.filter(({ laid }) => laid.circuit.chargers.length > 0);
  for (;;) {
    const drop = (step: Step) => sized(job, step).dropPercent;
    const worst = chargerSteps.reduce<Step | undefined>(
      (most, step) => (most && drop(most) >= drop(step) ? most : step),
      undefined,
    );
    const total = drop(first) + (worst ? drop(worst) : 0);
    if (total <= job.option.maxDropPercent) break;
    const grown = [first, ...(worst ? [worst] : [])]
      .filter(({ laid, at }) => at + 1 < laid.sizes.length)
      .sort((a, b) => drop(b) - drop(a))[0];
    if (!grown) break;
    grown.at += 1;
  }
  return { arriving: sized(job, first), branches: others.map((step) => sized(job, step)) };
}

/** The drop from the start of the route to the farthest charger, in percent. */
export function pathDropPercent(arriving: SizedCircuit, branches: readonly SizedCircuit[]): number {
  const chargers = branches.filter(({ laid }) => laid.circuit.chargers.length > 0);
  return arriving.dropPercent + Math.max(0, ...chargers.map(({ dropPercent }) => dropPercent));
}

/** Says whether the drop keeps its limit, and which conductors were made larger for it. */
export function dropFindings(job: Job, all: readonly SizedCircuit[], dropPercent: number): Finding[] {
  const { maxDropPercent } = job.option;
  const keeps = dropPercent <= maxDropPercent;
  const shown = `${dropPercent.toFixed(2)} %`;
  const whole = findingOf(job.edition, {
    rule: 'voltage-drop',
    severity: keeps ? 'ok' : 'caution',
    message: keeps
      ? `${shown} of the voltage is lost on the way, at most ${maxDropPercent} % were asked for.`
      : `${shown} of the voltage is lost on the way, more than the ${maxDropPercent} % asked for: no larger conductor is ` +
        'sold that suits. The code advises, it does not forbid; the charger may slow down or stop.',
    cites: 'voltage-drop',
    numbers: { dropPercent, maxDropPercent },
  });
  const enlarged = all.flatMap(({ laid, size }) =>
    partsOf(job, { laid, size }).flatMap((part) => {
      if (compareSizes(part.size, part.smallest) <= 0) return [];
      return findingOf(job.edition, {
        rule: 'enlarged-for-drop',
        severity: 'note',
        message: `${sizeInWords(part.size)} instead of ${sizeInWords(part.smallest)}, which would carry the load, to keep the voltage drop.`,
        cites: 'equipment-ground-upsized',
        numbers: { ...part },
        run: laid.circuit.name,
      });
    }),
  );
  return [whole, ...enlarged];
}

/** The size of each part of a run, and the smallest that is lawful and sold for it: what it begins as, and what it ends as. */
function partsOf(
  job: Job,
  { laid, size }: Pick<SizedCircuit, 'laid' | 'size'>,
): { size: ConductorSize; smallest: ConductorSize }[] {
  const { circuit, laying, stretches, sizes } = laid;
  const end = { size, smallest: sizes[0] };
  const { begins } = laying;
  if (!begins) return [end];
  const lists = stretches.flatMap((stretch) => {
    if (!stretch.begins) return [];
    const of = { circuit, stretch, metal: begins.metal };
    const { fromSize } = stretch;
    if (!fromSize) return [[]];
    return [sufficientSizes(of).filter((each) => wiredAt({ ...of, book: job.book, fromSize }, each))];
  });
  const [first = [], ...others] = lists;
  const smallest = first.find((each) => others.every((list) => list.includes(each)));
  return smallest ? [{ size: begins.size, smallest }, end] : [end];
}
