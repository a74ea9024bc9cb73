import type { EstimateOption, Run } from '../../estimate/answer.ts';
import { capital, conductorSize, counted, number, sentence, wholeDollars } from '../wording.ts';
import type { Passage } from './passage.ts';
import { runInWords } from './plan-by-leg.ts';

/** How sure it is that nothing lawful costs less, in a sentence. Costs before markup, overhead, profit and tax. */
export function proofInWords({ proof: { proven, gapCents } }: Pick<Run, 'proof'>, costCents: number): string {
  if (proven) return 'Proven: no lawful plan made of what the price book sells costs less.';
  if (gapCents <= 0 || gapCents >= costCents) {
    return 'The cheapest of the ways that were compared; that no other mix of methods costs less is not proven.';
  }
  return `Another lawful plan could save ${wholeDollars(gapCents)} at most; that none saves anything is not proven.`;
}

/** The proof, and the plans that came next with what the option would cost with them. */
export function planProof({ runs, totals }: EstimateOption): Passage[] {
  const [first] = runs;
  if (!first) return [];
  // They are plans of the whole option, the same beside each of its runs.
  const runnersUp = new Map(runs.flatMap((run) => run.runnersUp).map((one) => [JSON.stringify(one), one]));
  const rows = [...runnersUp.values()].map(({ summary, amountCents }) => ({
    cells: [capital(summary), wholeDollars(amountCents)],
  }));
  return [
    {
      title: 'How sure it is that nothing cheaper will do',
      sentences: [proofInWords(first, totals.costCents)],
      ...(rows.length > 0 && {
        columns: [
          { head: 'The next best plans', share: 1 },
          { head: 'Cost with it', widthPt: 70, align: 'right' as const },
        ],
        rows: [...rows, { kind: 'sum' as const, cells: ['The plan that was taken', wholeDollars(totals.costCents)] }],
      }),
    },
  ];
}

const DISCONNECTS = {
  'main-breaker': 'main breaker',
  'non-fused-switch': 'switch without fuses',
  'breaker-lock': 'breaker that can be locked open',
} as const;

/** Each run's device with its reasons, what disconnects it, and what it has of neutral and ground. */
export function devices({ runs }: EstimateOption): Passage[] {
  if (runs.length === 0) return [];
  return [
    {
      title: 'Breakers, disconnects and neutrals',
      columns: [
        { head: 'Run', share: 1 },
        { head: 'Breaker', share: 0.9 },
        { head: 'Why', share: 1.6 },
        { head: 'Disconnect', share: 1.3 },
        { head: 'Neutral', share: 0.75 },
      ],
      rows: runs.map((run) => ({
        cells: [
          runInWords(run),
          breakerInWords(run),
          run.breaker.because.map(sentence).join(' '),
          disconnectOf(run),
          neutralOf(run),
        ],
      })),
    },
  ];
}

function breakerInWords({ breaker: { ocpdA, poles, spaces, kind } }: Run): string {
  const spaced = spaces === 1 ? '1 space' : `${spaces} spaces`;
  return `${ocpdA} A, ${poles}-pole, ${kind === 'gfci' ? 'GFCI' : 'standard'}, ${spaced}`;
}

function disconnectOf({ disconnect }: Run): string {
  if (!disconnect) return 'none of its own';
  const { at, ratingA, kind, because } = disconnect;
  return `${capital(DISCONNECTS[kind])} of ${number(ratingA)} A, ${at}. ${because.map(sentence).join(' ')}`;
}

function neutralOf({ neutral, neutralSize, conductor, separateNeutral }: Run): string {
  if (!neutral) return 'none';
  return `${conductorSize(neutralSize ?? conductor.size)}${separateNeutral ? ', kept apart from the ground' : ''}`;
}

/** What is landed where, and which ends take compound. */
export function terminations({ runs }: EstimateOption): Passage[] {
  const rows = runs.flatMap(({ name, terminations: ends }) =>
    ends.map(({ at, metal, size, compound }) => ({
      cells: [capital(name), at, `${conductorSize(size)} ${metal}`, compound ? 'brushed, with compound' : 'plain'],
    })),
  );
  if (rows.length === 0) return [];
  return [
    {
      title: 'Terminations',
      sentences: ['Each is tightened to the torque that its maker states.'],
      columns: [
        { head: 'Run', share: 1 },
        { head: 'At', share: 1 },
        { head: 'Conductor', share: 1 },
        { head: 'End', share: 1 },
      ],
      rows,
    },
  ];
}

const ELECTRODES: Readonly<Record<string, string>> = { rod: 'ground rod', plate: 'ground plate' };

/** Electrodes and the conductor to them. */
export function grounding({ grounding: found }: EstimateOption): Passage[] {
  if (!found) return [];
  const { electrodes, conductorSize: size, because } = found;
  const named = electrodes.map(({ kind, count }) => counted(count, ELECTRODES[kind] ?? kind));
  return [
    {
      title: 'Grounding',
      sentences: [`Electrodes: ${named.join(', ')}, on ${conductorSize(size)} copper.`, ...because.map(sentence)],
    },
  ];
}
