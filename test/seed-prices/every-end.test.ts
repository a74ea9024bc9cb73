import { describe, expect, it } from 'vitest';
import { InputError } from '../../server/estimate/input-problems.ts';
import { FEEDS, LEG_KINDS } from '../../server/estimate/vocabulary.ts';
import { withValue } from '../estimate/description-example.ts';
import { coveringRows, type Field, type Row } from './all-pairs.ts';
import { type Feed, legWith, wholeJob } from './ends-job.ts';
import { WORDS_ALONE } from './pair-fields.ts';
import { answerOf, faultsOf } from './sound-answer.ts';
import { type StatedField, statedFields } from './stated-fields.ts';

/*
 * The ends of every bound that the description's schema has, each alone and every two of them together, in a job that
 * leaves out nothing else: no exception, no number that is none, and no line without a price, but where a stop says why.
 */

const MINUTES = 180_000;

/** An option's own route has the shape of the description's. */
const FIELDS = statedFields().filter(({ path }) => !path.startsWith('options.0.route'));

/**
 * Ends that something else in the job forbids, and what is said then: sums stay below 100 million dollars, a discount
 * below the price, three points rise, and who works 36 seconds a day and must set up each morning never gets done.
 */
const REFUSED: Readonly<Record<string, RegExp>> = {
  'site.permit.feeCents 10000000000': /sums must stay below/,
  'terms.minimumCents 10000000000': /sums must stay below/,
  'terms.hoursPerDay 0.01': /sums must stay below/,
  'terms.discountCents 10000000000': /^terms\.discountCents /,
  'extras.0.unitPriceCents 10000000000': /^extras\.0\.(?:quantity|highCents) /,
  'extras.0.lowCents 10000000000': /^extras\.0\.lowCents /,
  'extras.0.highCents 10000000000': /^extras\.0\.quantity /,
};

function feedFor(path: string): Feed {
  if (path.startsWith('options.0.receptacle')) return 'existing-receptacle';
  return path.startsWith('options.0.subpanel') ? 'subpanel' : 'dedicated-circuit';
}

const loadFor = (path: string) => (/^site\.load\.(?:peakA|days)$/.test(path) ? 'measured' : 'listed');

/** Where a field stands in the whole job: a field of a leg stands at the leg that has a use for it. */
function placeOf(path: string): string {
  const name = /^route\.0\.([a-zA-Z]+)/.exec(path)?.[1];
  return name === undefined ? path : path.replace('route.0', `route.${legWith(name)}`);
}

/** The job with one value put where it belongs; a guessed length is put down whole, so that it still rises. */
function saying(job: unknown, path: string, value: unknown): unknown {
  if (path.startsWith('site.start.')) {
    const start = { feederA: 100, freeSpaces: 6, [path.slice('site.start.'.length)]: value };
    return withValue(job, 'site.start', start);
  }
  const guessed = /^(route\.0\.lengthFt)\.\w+$/.exec(path)?.[1];
  return guessed
    ? withValue(job, guessed, { low: value, likely: value, high: value })
    : withValue(job, placeOf(path), value);
}

/** So many of a list's own first element, each with an id of its own where they have one. */
function longest(job: unknown, { path, longest: count = 0 }: StatedField): unknown {
  const place = placeOf(path);
  const list = place.split('.').reduce<unknown>((inner, step) => (inner as Record<string, unknown>)[step], job);
  const first: unknown = Array.isArray(list) ? list[0] : undefined;
  const hasId = typeof first === 'object' && first !== null && 'id' in first;
  const copies = Array.from({ length: count }, (_, at) => (hasId ? { ...first, id: `option ${at}` } : first));
  const grown = withValue(job, place, copies);
  return path === 'options' ? withValue(grown, 'bids', []) : grown;
}

/** What is wrong with the answer to a job, in words; a refusal is wrong too, unless it was to be expected. */
function faults(job: unknown, about: string): string[] {
  const expected = REFUSED[about];
  try {
    const found = faultsOf(answerOf(job));
    return [...found, ...(expected ? ['is not refused'] : [])].map((fault) => `${about}: ${fault}`);
  } catch (error) {
    if (error instanceof InputError && expected?.test(error.message)) return [];
    return [`${about}: ${String(error)}`];
  }
}

/** The ends as things that a job may say, with feeds and kinds of a leg; not those that are refused in some jobs. */
function endFields(): Field[] {
  const refused = Object.keys(REFUSED).map((about) => about.split(' ')[0]);
  const ends = FIELDS.filter(
    (field) => field.ends.length > 0 && !refused.includes(field.path) && !/\.lengthFt\.|^extras|^bids/.test(field.path),
  );
  return [
    { name: 'feed', values: FEEDS },
    { name: 'kind', values: LEG_KINDS.filter((kind) => kind !== 'existing-raceway') },
    ...ends.map(({ path, ends: values }) => {
      const feed = feedFor(path);
      return { name: path, values, ...(feed !== 'dedicated-circuit' && { when: { field: 'feed', is: [feed] } }) };
    }),
  ];
}

function jobAtEnds({ feed, kind, ...ends }: Row): unknown {
  const job: unknown = wholeJob({ feed: feed as Feed, load: 'site.load.peakA' in ends ? 'measured' : 'listed' });
  const started = withValue(job, 'site.start', { feederA: 100, freeSpaces: 4 });
  return Object.entries(ends).reduce<unknown>(
    (said, [path, end]) => withValue(said, placeOf(path), end),
    withValue(started, 'route.1.kind', kind),
  );
}

describe('the starting price book', () => {
  it('answers the ends of every bound, and the words that no pair holds, each alone', { timeout: MINUTES }, () => {
    const wrong = FIELDS.flatMap(({ path, ends, words }) => {
      const job = wholeJob({ feed: feedFor(path), load: loadFor(path) });
      const said = [...ends, ...(WORDS_ALONE.test(path) ? words : [])];
      return said.flatMap((value) => faults(saying(job, path, value), `${path} ${value}`));
    });
    expect(wrong).toEqual([]);
  });

  it('answers the ends of every two bounds together', { timeout: MINUTES }, () => {
    const fields = endFields().filter(({ name }) => loadFor(name) === 'listed');
    const wrong = coveringRows(fields).flatMap((row) => faults(jobAtEnds(row), JSON.stringify(row)));
    expect(wrong).toEqual([]);
  });

  it('answers lists as long as they may be', { timeout: MINUTES }, () => {
    const isOfWords = (path: string) => FIELDS.some((field) => field.path === `${path}.0` && field.words.length > 0);
    const lists = FIELDS.filter((field) => field.longest !== undefined && !isOfWords(field.path));
    const wrong = lists.flatMap((field) => {
      const job = wholeJob({ feed: feedFor(field.path), load: 'listed' });
      return faults(longest(job, field), `${field.path} × ${field.longest}`);
    });
    expect(wrong).toEqual([]);
  });
});
