/*
 * A plan to beat: longest piece first, each into a coil that is open, by the foot, or into a new coil of one kind.
 */
import { fullest, heldBy, stockOf } from './fullest.ts';
import type { Coil, CuttingJob } from './job.ts';
import type { Cut, Cutting } from './plan.ts';

/** The cheapest of the plans that keep to one kind of coil where it is long enough. */
export function firstGuess(job: CuttingJob): Cutting {
  const guesses = [undefined, ...job.coils].map((coil) => guessWith(job, coil));
  return guesses.reduce((best, guess) => (guess.cents < best.cents ? guess : best));
}

function guessWith(job: CuttingJob, coil: Coil | undefined): Cutting {
  const open: { room: number; cut: Cut }[] = [];
  const cuts: Cut[] = [];
  let cents = 0;
  job.lengths.forEach((length, at) => {
    for (let piece = 0; piece < (job.counts[at] ?? 0); piece++) {
      const into = open.find(({ room }) => room >= length);
      if (into) {
        into.room -= length;
        into.cut.counts[at] = (into.cut.counts[at] ?? 0) + 1;
        continue;
      }
      const alone = job.singles[at];
      const opens = coil && coil.length >= length && !(alone && alone.cents <= coil.cents / 2);
      const cut = {
        offer: (opens ? coil.offer : alone?.offer) ?? 0,
        counts: job.lengths.map((_, of) => (of === at ? 1 : 0)),
      };
      cuts.push(cut);
      cents += (opens ? coil.cents : alone?.cents) ?? 0;
      if (opens) open.push({ room: coil.length - length, cut });
    }
  });
  return { cents, cuts };
}

/** How far a search for one fill goes. Ours. */
const FILL_STEPS = 2_000;

/**
 * A plan made fill by fill: the coil that holds the most worth for its price, as long as that beats the pieces by
 * themselves.
 * @param worths  what each length is worth, in any unit
 */
export function guessByWorths(job: CuttingJob, worths: readonly number[]): Cutting {
  const left = [...job.counts];
  const cuts: Cut[] = [];
  let cents = 0;
  for (let fill = bestFill(job, { left, worths }); fill; fill = bestFill(job, { left, worths })) {
    const { at, counts, coil } = fill;
    const held = left.map(() => 0);
    at.forEach((one, of) => {
      held[one] = counts[of] ?? 0;
      left[one] = (left[one] ?? 0) - (counts[of] ?? 0);
    });
    cuts.push({ offer: coil.offer, counts: held });
    cents += coil.cents;
  }
  left.forEach((count, at) => {
    const { offer = 0, cents: alone = 0 } = job.singles[at] ?? {};
    for (let piece = 0; piece < count; piece++) {
      cuts.push({ offer, counts: left.map((_, of) => (of === at ? 1 : 0)) });
      cents += alone;
    }
  });
  return { cents, cuts };
}

function bestFill(job: CuttingJob, { left, worths }: { left: readonly number[]; worths: readonly number[] }) {
  const stock = stockOf(job.lengths, { counts: left, worths });
  const fills = job.coils.flatMap((coil) => {
    const { fill } = fullest(stock, { room: coil.length, above: 0, steps: FILL_STEPS });
    if (!fill) return [];
    const held = heldBy(stock, fill);
    const alone = held.at.reduce((sum, at, of) => sum + (held.counts[of] ?? 0) * (job.singles[at]?.cents ?? 0), 0);
    const worth = held.at.reduce((sum, at, of) => sum + (held.counts[of] ?? 0) * (worths[at] ?? 0), 0);
    return alone > coil.cents ? { ...held, coil, worth: worth / coil.cents } : [];
  });
  return fills.reduce<(typeof fills)[number] | undefined>(
    (best, one) => (one.worth > (best?.worth ?? 0) ? one : best),
    undefined,
  );
}
