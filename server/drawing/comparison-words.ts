import type { Crossings, EstimateOption, NowOrLater, Overnight } from '../estimate/answer.ts';
import { exactDollars, number, wholeDollars } from './wording.ts';

/*
 * How the comparison of options is said, on paper, on the page and in the terminal alike.
 */

/** What a night gives, and what a mile of it costs: `$10.27 for each of 312 miles in 10 h`. */
export function overnightInWords({ hours, miles, centsPerMile }: Overnight): string {
  const night = `${number(miles, 0)} miles in ${number(hours, 1)} h`;
  return centsPerMile === undefined
    ? `${night}; no price of a mile`
    : `$${exactDollars(centsPerMile)} for each of ${night}`;
}

/** A place where two curves cross, as a drawing marks it and a sentence says it. */
export interface CrossingWords {
  at: number;
  totalCents: number;
  /** Beside the mark: `85 ft`. */
  mark: string;
  sentence: string;
}

type Crossing = Omit<Crossings['byAmps'][number], 'amps'> & { at: number };
type Named = Pick<EstimateOption, 'id' | 'label'>;

/** Where curves cross, each as a mark and a sentence. To the whole foot or ampere, below ten to a tenth: no more is known. */
export function crossingWords(
  crossings: readonly Crossing[],
  unit: 'ft' | 'A',
  options: readonly Named[],
): CrossingWords[] {
  const labelOf = (id: string) => options.find((option) => option.id === id)?.label ?? id;
  return crossings.map(({ at, totalCents, cheaperBelow, cheaperAbove, isLeast }) => {
    const mark = `${number(at, at < 10 ? 1 : 0)} ${unit}`;
    const [before, after] = [labelOf(cheaperBelow), labelOf(cheaperAbove)];
    const turn = isLeast
      ? `“${after}” is the cheapest, before it “${before}”`
      : `“${after}” costs less than “${before}”`;
    return {
      at,
      totalCents,
      mark,
      sentence: `From about ${mark} on ${turn}; there both cost ${wholeDollars(totalCents)}.`,
    };
  });
}

/** What is said once of all crossings along one axis, or that there are none. */
export function crossingsNote(crossings: readonly CrossingWords[]): string {
  return crossings.length > 0
    ? 'Straight lines are drawn between what was planned; prices go up in steps, so that a crossing is about there.'
    : 'No two of the lines cross: what costs less does so all along.';
}

const PREPARED_WORDS = {
  'rough-in': { prepared: 'Roughed in now, finished later', unprepared: 'Nothing now, all of it later' },
  'spare-conduit': { prepared: 'Once, with the spare conduit', unprepared: 'Twice, without it' },
} as const;

/** One line of money now and money later. */
export interface NowAndThenRow {
  words: string;
  nowCents: number;
  /** Nothing where all of it is built now. */
  laterCents?: number;
  sumCents: number;
}

/** Preparing against not preparing, and of a rough-in all of it at once, as rows of one schedule. */
export function nowOrLaterRows({ kind, prepared, unprepared, atOnceCents }: NowOrLater): NowAndThenRow[] {
  const words = PREPARED_WORDS[kind];
  return [
    { words: words.prepared, ...prepared },
    { words: words.unprepared, ...unprepared },
    ...(atOnceCents === undefined ? [] : [{ words: 'All of it now', nowCents: atOnceCents, sumCents: atOnceCents }]),
  ];
}
