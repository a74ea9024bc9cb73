import { crossingsNote, nowOrLaterRows } from '../../drawing/comparison-words.ts';
import { curvesDrawing } from '../../drawing/curves.ts';
import { type PriceCurves, priceCurves } from '../../drawing/price-curves.ts';
import type { Estimate, EstimateOption } from '../../estimate/answer.ts';
import { findingInWords } from '../finding-words.ts';
import type { Column } from '../table.ts';
import { number, SCOPE_WORDS, wholeDollars } from '../wording.ts';
import type { Passage } from './passage.ts';

/** How the totals grow with the distance and with the amperes, each option planned anew at each step. */
export function curves(estimate: Estimate, widthPt: number): Passage[] {
  return priceCurves(estimate).map((drawn) =>
    curve(drawn, { left: estimate.options.length - drawn.options.length, widthPt }),
  );
}

function curve(drawn: PriceCurves, { left, widthPt }: { left: number; widthPt: number }): Passage {
  const { title, axisWords, unit, points, options } = drawn;
  return {
    title,
    sentences: [
      ...crossingSentences(drawn),
      left > 0
        ? `${left} of the options cannot be built or priced at any of these, and ${left === 1 ? 'is' : 'are'} left out.`
        : '',
    ],
    drawings: [curvesDrawing({ ...drawn, widthPt })],
    columns: [
      { head: axisWords.replace(/, (?:ft|A)$/, ''), share: 1 },
      ...points.map(({ at }): Column => ({ head: `${number(at, 1)} ${unit}`, widthPt: 48, align: 'right' })),
    ],
    rows: options.map(({ id, label }) => ({
      cells: [label, ...points.map(({ totals }) => moneyOr(totals[id]))],
    })),
  };
}

/** What was said of crossings, each in its sentence; nothing where there is only one line, or where nobody looked. */
function crossingSentences({ crossings, options }: PriceCurves): string[] {
  if (!crossings || options.length < 2) return [];
  return [[...crossings.map(({ sentence }) => sentence), crossingsNote(crossings)].join(' ')];
}

/** Doing it once, prepared, or twice: what is paid now and what later. Of one option, or of all of them by their names. */
export function nowAgainstLater({ comparison, options }: Estimate, optionId?: string): Passage[] {
  const found = (comparison.nowOrLater ?? []).filter(({ option }) => optionId === undefined || option === optionId);
  return found.map((one) => {
    const label = options.find(({ id }) => id === one.option)?.label;
    return {
      title: optionId === undefined && options.length > 1 ? `Once or twice: ${label}` : 'Once or twice',
      sentences: [one.because, 'Sums at today’s prices; what is not built later is not paid later.'],
      columns: [
        { head: '', share: 1 },
        { head: 'Now', widthPt: 64, align: 'right' },
        { head: 'Later', widthPt: 64, align: 'right' },
        { head: 'Together', widthPt: 64, align: 'right' },
      ],
      rows: nowOrLaterRows(one).map(({ words, nowCents, laterCents, sumCents }) => ({
        cells: [words, wholeDollars(nowCents), moneyOr(laterCents), wholeDollars(sumCents)],
      })),
    };
  });
}

function moneyOr(cents: number | undefined): string {
  return cents === undefined ? '–' : wholeDollars(cents);
}

/** Bids made comparable with the option that each is for, what they leave out, and what to ask about them. */
export function bids(estimate: Estimate): Passage[] {
  return estimate.bids.flatMap((bid) => bidPassage(bid, estimate));
}

const PLACES = { below: 'below the range', within: 'within the range', above: 'above the range' } as const;

function bidPassage(
  { from, optionId, totalCents, levelledCents, place, missing, findings, questions }: Estimate['bids'][number],
  estimate: Estimate,
): Passage {
  const option: EstimateOption | undefined = estimate.options.find(({ id }) => id === optionId);
  const range = option?.range;
  const against =
    place && range
      ? `, ${PLACES[place]} of ${wholeDollars(range.p10Cents)} to ${wholeDollars(range.p90Cents)} for "${option.label}"`
      : '';
  return {
    title: `The bid of ${from}`,
    sentences: [
      `It asks ${wholeDollars(totalCents)}; with its tax, and with what it leaves out at the estimate's own terms, ${wholeDollars(levelledCents)}${against}.`,
      missing.length > 0
        ? `It does not say that it covers: ${missing.map((scope) => SCOPE_WORDS[scope].toLowerCase()).join(', ')}.`
        : 'It covers all that the estimate counts.',
    ],
    list: [
      ...findings.filter(({ severity }) => severity !== 'ok').map(findingInWords),
      ...questions.map((question) => `To ask: ${question}`),
    ],
  };
}
