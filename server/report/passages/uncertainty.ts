import { factInWords, TELLERS } from '../../drawing/fact-words.ts';
import { driversDrawing, shapeDrawing } from '../../drawing/range-charts.ts';
import type { EstimateOption, Range } from '../../estimate/answer.ts';
import type { Description } from '../../estimate/description.ts';
import { capital, moreOrLess, number, rangeInWords, sentence, wholeDollars } from '../wording.ts';
import type { Passage } from './passage.ts';

/** The range with its shape, what moves it most, and what may come on top or fall away. */
export function uncertainty(option: EstimateOption, widthPt: number): Passage[] {
  const { range } = option;
  if (!range || !option.complete) return [];
  return [rangePassage(option, range, widthPt), ...drivers(option, range, widthPt), ...chances(range)];
}

function rangePassage(option: EstimateOption, range: Range, widthPt: number): Passage {
  const { contingencyCents } = option.totals;
  const humps = range.humps ?? [];
  return {
    title: 'What it may cost',
    sentences: [
      `${rangeInWords(option)}${contingencyCents === 0 ? '' : '; without the contingency'}.`,
      ...range.because.map(sentence),
      ...(humps.length > 0
        ? [
            `It is not one price with a margin but ${humps.length}: ${humps.map(({ chance, p50Cents }) => `about ${wholeDollars(p50Cents)} with a chance of ${number(chance * 100, 0)} %`).join(', ')}.`,
          ]
        : []),
    ],
    drawings: [
      shapeDrawing({
        title: 'How often the total lies where',
        shape: range.shape,
        p10Cents: range.p10Cents,
        p50Cents: range.p50Cents,
        p90Cents: range.p90Cents,
        likelyCents: range.likelyCents,
        widthPt,
      }),
    ],
  };
}

function drivers({ totals }: EstimateOption, range: Range, widthPt: number): Passage[] {
  if (range.drivers.length === 0) return [];
  const title = 'What moves it most';
  return [
    {
      title,
      sentences: [`With one cause alone low or high, and all else as likely, the total is:`],
      columns: [
        { head: 'Cause', share: 1 },
        { head: 'Low', widthPt: 70, align: 'right' },
        { head: 'High', widthPt: 70, align: 'right' },
      ],
      rows: range.drivers.map(({ name, lowCents, highCents }) => ({
        cells: [capital(inWords(name)), wholeDollars(lowCents), wholeDollars(highCents)],
      })),
      drawings: [
        driversDrawing({
          title,
          totalCents: totals.totalCents,
          drivers: range.drivers.map((driver) => ({ ...driver, name: inWords(driver.name) })),
          widthPt,
        }),
      ],
      isDrawn: true,
    },
  ];
}

/** A cause or a chance by its name in words: `lead paint`. */
function inWords(name: string): string {
  return name.replaceAll('-', ' ');
}

function chances({ chances: found }: Range): Passage[] {
  if (found.length === 0) return [];
  return [
    {
      title: 'What may be so or not so',
      columns: [
        { head: 'If', widthPt: 120 },
        { head: 'Chance', widthPt: 44, align: 'right' },
        { head: 'The total', widthPt: 76, align: 'right' },
        { head: 'Why', share: 1 },
      ],
      rows: found.map(({ name, chance, addsCents, because }) => ({
        cells: [capital(inWords(name)), `${number(chance * 100, 0)} %`, moreOrLess(addsCents), because ?? ''],
      })),
    },
  ];
}

/** What nobody knows yet, by the money that knowing it would take off the range, and how to find out. */
export function unknowns({ unknowns: found = [] }: EstimateOption, description: Description): Passage[] {
  if (found.length === 0) return [];
  return [
    {
      title: 'Worth finding out',
      sentences: ['By so much the range narrows, on average, once a fact is known.'],
      columns: [
        { head: 'Fact', widthPt: 124 },
        { head: 'Narrows by', widthPt: 54, align: 'right' },
        { head: 'How to find out', share: 1 },
        { head: 'Who can tell', widthPt: 90 },
      ],
      rows: found.map(({ path, swingCents, howToFindOut, whoCanTell }) => ({
        cells: [
          factInWords(path, description),
          swingCents === 0 ? 'none' : wholeDollars(swingCents),
          sentence(howToFindOut),
          TELLERS[whoCanTell],
        ],
      })),
    },
  ];
}
