import { overnightInWords } from '../drawing/comparison-words.ts';
import type { Estimate, EstimateOption, Finding, Line, Totals } from '../estimate/answer.ts';
import { routeOf } from '../estimate/description.ts';
import { printRouteLine } from '../estimate/route-line.ts';
import { SCOPES } from '../estimate/vocabulary.ts';
import { notIncluded } from '../report/not-included.ts';
import { decisionPassages, planPassages, workPassages } from '../report/passages/option-passages.ts';
import type { Passage } from '../report/passages/passage.ts';
import { purchaseBudget } from '../report/passages/purchase.ts';
import { wireTable } from '../report/run-tables.ts';
import { serviceVerdict, siteFacts } from '../report/site-facts.ts';
import {
  breakerAndWire,
  byWeight,
  citationInWords,
  counted,
  dayInWords,
  exactDollars,
  number,
  SCOPE_WORDS,
  unitPrice,
  wholeDollars,
  workInWords,
} from '../report/wording.ts';
import { passageLines } from './passage-text.ts';
import { columns, wrapped } from './text-columns.ts';

/** Nothing is printed wider, so that it fits a terminal and a sheet of paper. */
const WIDTH = 100;
/** The first column of the comparison, and what each option's column takes with its gap. */
const NAME_WIDTH = 20;
const OPTIONS_ABREAST = 3;

/**
 * An estimate as plain text, at most 100 characters wide: the options side by side, then one of them in full: its lines
 * by scope, its totals, what stops or warns, how sure its price is, its plan with the reasons, its work, and the cautions
 * that stand on every output.
 */
export function estimateText(estimate: Estimate, option: EstimateOption): string {
  const { description, bookRevision } = estimate;
  const day = description.asOf ? `${dayInWords(description.asOf)}, price` : 'Price';
  const blocks = [
    [
      ...wrapped(description.title, WIDTH),
      ...wrapped(siteFacts(description).join(' '), WIDTH),
      `${day} book ${bookRevision}.`,
    ],
    ...comparisonBlocks(estimate),
    [option.label, ...wrapped(`Route: ${routeText(estimate, option)}`, WIDTH)],
    lineBlock(option),
    totalsBlock(option.totals),
    findingBlock(option.findings),
    ...passagesOf(estimate, option).map((passage) => passageLines(passage, WIDTH)),
    estimate.notices.flatMap((notice) => wrapped(notice, WIDTH)),
  ];
  return `${blocks.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

/** All that the papers say of an option, in their order; the wire list and the budget among it. */
function passagesOf(estimate: Estimate, option: EstimateOption): Passage[] {
  const stated = estimate.description.options.find(({ id }) => id === option.id);
  if (!stated) return [];
  const answered = { estimate, option, stated };
  return [
    ...decisionPassages(answered, WIDTH),
    ...purchaseBudget(option, estimate.description),
    ...planPassages(answered),
    ...wireList(option),
    ...workPassages(answered),
    { title: 'Not included', list: notIncluded({ description: estimate.description, stated, option }) },
  ];
}

function wireList(option: EstimateOption): Passage[] {
  return option.runs.length === 0 ? [] : [{ title: 'Wire list', ...wireTable(option) }];
}

function routeText({ description }: Estimate, { id }: EstimateOption): string {
  const stated = description.options.find((option) => option.id === id);
  const route = stated ? routeOf(description, stated) : description.route;
  return route.length > 0 ? printRouteLine(route) : 'none, nothing is run';
}

/** The options side by side, a few abreast. */
function comparisonBlocks(estimate: Estimate): string[][] {
  const { options } = estimate;
  const blocks: string[][] = [];
  const abreast = Math.min(OPTIONS_ABREAST, options.length);
  const width = Math.floor((WIDTH - NAME_WIDTH) / abreast) - 2;
  for (let from = 0; from < options.length; from += abreast) {
    const shown = options.slice(from, from + abreast);
    const widths = [NAME_WIDTH - 2, ...shown.map(() => width)];
    blocks.push(
      ROWS.flatMap(([name, cell]) => columns([name, ...shown.map((option) => cell(option, estimate))], widths)),
    );
  }
  return blocks;
}

/** What people decide by. */
const ROWS: [string, (option: EstimateOption, estimate: Estimate) => string][] = [
  ['', ({ label }) => label],
  ['Total', ({ totals, complete }) => `${wholeDollars(totals.totalCents)}${complete ? '' : ' and what has no price'}`],
  ['In 8 of 10 cases', rangeText],
  ['Compared', comparedText],
  ['Charges', chargingText],
  ['A mile of a night', nightText],
  ['Breaker and wire', wireText],
  ['Voltage drop', ({ runs, dropPercent }) => (runs.length === 0 ? 'not known' : `${number(dropPercent)} %`)],
  ['Work', workInWords],
  ['Service', (option, { description }) => serviceVerdict(option, description)],
  ['Stops or warns', warningText],
];

function rangeText({ range, complete }: EstimateOption): string {
  if (!range || !complete) return 'not known while prices are missing';
  return `${wholeDollars(range.p10Cents)} to ${wholeDollars(range.p90Cents)}`;
}

function comparedText({ id }: EstimateOption, { comparison, options }: Estimate): string {
  if (options.length === 1) return 'nothing to compare with';
  if (comparison.cheapest === id) return 'the cheapest that can be built';
  const row = comparison.rows.find(({ option }) => option === id);
  if (!row) return '';
  const { differenceCents, buys } = row;
  const more =
    differenceCents >= 0 ? `${wholeDollars(differenceCents)} more` : `${wholeDollars(-differenceCents)} less`;
  return [more, ...buys].join('; ');
}

function chargingText({ charging }: EstimateOption): string {
  if (!charging) return 'no charger yet';
  return `${number(charging.together.kW, 1)} kW, ${number(charging.together.milesPerHour, 0)} miles an hour`;
}

function nightText({ id }: EstimateOption, { comparison }: Estimate): string {
  const overnight = comparison.rows.find(({ option }) => option === id)?.overnight;
  return overnight ? overnightInWords(overnight) : '–';
}

function wireText({ runs }: EstimateOption): string {
  if (runs.length === 0) return 'nothing is run';
  return runs.map((run) => `${run.name}: ${breakerAndWire(run)}`).join('; ');
}

function warningText({ buildable, findings }: EstimateOption): string {
  const of = (severity: string) => findings.filter((finding) => finding.severity === severity).length;
  const stops = buildable ? 'can be built' : `cannot be built: ${counted(of('stop'), 'stop')}`;
  return `${stops}, ${counted(of('caution'), 'caution')}`;
}

const LINE_WIDTHS = [45, 9, 12, 11, 13];

/** The lines of an option by scope; a line without a price says so, and is never 0. */
function lineBlock({ lines }: EstimateOption): string[] {
  const right = [1, 3, 4];
  const heads = columns(['', 'quantity', 'unit', 'each $', 'amount $'], LINE_WIDTHS, { right });
  const groups = SCOPES.flatMap((scope) => {
    const inScope = lines.filter((line) => line.scope === scope);
    if (inScope.length === 0) return [];
    return [SCOPE_WORDS[scope], ...inScope.flatMap((line) => columns(lineCells(line), LINE_WIDTHS, { right }))];
  });
  const stale = lines.some((line) => line.stale) ? ['* a price older than its shelf life'] : [];
  return [...heads, ...groups, ...stale];
}

function lineCells({ description, quantity, unit, unitPriceCents, amountCents, priced, stale }: Line): string[] {
  const price = priced ? unitPrice(unitPriceCents) : 'no price';
  return [
    `  ${description}${stale ? ' *' : ''}`,
    number(quantity, 4),
    unit,
    price,
    priced ? exactDollars(amountCents) : 'no price',
  ];
}

const TOTAL_ROWS: [keyof Totals, string][] = [
  ['materialCents', 'Material'],
  ['laborCents', 'Labor'],
  ['equipmentCents', 'Equipment'],
  ['feeCents', 'Fees'],
  ['costCents', 'Cost'],
  ['markupCents', 'Markup'],
  ['overheadCents', 'Overhead'],
  ['contingencyCents', 'Contingency'],
  ['profitCents', 'Profit'],
  ['discountCents', 'Less discount'],
  ['taxCents', 'Tax'],
  ['totalCents', 'Total'],
  ['incentiveCents', 'Less incentives'],
  ['netCents', 'Net'],
];
/** These are printed even when they are nothing. */
const ALWAYS_PRINTED: readonly (keyof Totals)[] = ['costCents', 'totalCents'];

function totalsBlock(totals: Totals): string[] {
  const hasIncentive = totals.incentiveCents !== 0;
  return TOTAL_ROWS.filter(([field]) =>
    field === 'netCents' ? hasIncentive : totals[field] !== 0 || ALWAYS_PRINTED.includes(field),
  ).flatMap(([field, name]) => columns([name, exactDollars(totals[field])], [20, 14], { right: [1] }));
}

const SEVERITY_WORDS = { stop: 'STOP', caution: 'Caution', note: 'Note', ok: 'ok' };

/** What stops, warns or is worth a note, the weightiest first; checks that passed are counted. */
function findingBlock(findings: readonly Finding[]): string[] {
  const open = byWeight(findings).filter(({ severity }) => severity !== 'ok');
  const said = open.flatMap((finding) =>
    columns([SEVERITY_WORDS[finding.severity], findingText(finding)], [8, WIDTH - 10]),
  );
  return [...said, `${counted(findings.length - open.length, 'check')} passed.`];
}

function findingText({ message, citation, leg, run }: Finding): string {
  const where = [...(run === undefined ? [] : [run]), ...(leg === undefined ? [] : [`leg ${leg + 1}`])].join(', ');
  return `${where ? `${where}: ` : ''}${message}${citation ? ` (${citationInWords(citation)})` : ''}`;
}
