import { overnightInWords } from '../drawing/comparison-words.ts';
import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import { serviceVerdict } from './site-facts.ts';
import type { Column, Row } from './table.ts';
import {
  breakerAndWire,
  byWeight,
  capital,
  counted,
  dropInWords,
  feet,
  knownMoney,
  number,
  rangeInWords,
  wholeDollars,
  wiringMethod,
  workInWords,
} from './wording.ts';

/** Options that stand side by side in one table; more continue in the next. */
const MOST_SIDE_BY_SIDE = 4;

interface Choice {
  /** The option that the sheet itemizes; its head says so. */
  itemized?: string;
  /** Also which methods are used along the route. */
  detailed?: boolean;
  mostSideBySide?: number;
}

/** The options as columns of one schedule whose rows are what people decide by. */
export function optionsSchedules(estimate: Estimate, choice: Choice = {}): { columns: Column[]; rows: Row[] }[] {
  return sideBySide(estimate.options, choice.mostSideBySide ?? MOST_SIDE_BY_SIDE).map((beside) => ({
    columns: [
      { head: '', widthPt: 66 },
      ...beside.map(
        ({ id, label }): Column => ({
          head: id === choice.itemized ? `${label} (itemized)` : label,
          share: 1,
          set: 'heavy-head',
        }),
      ),
    ],
    rows: scheduleRows(estimate, beside, choice),
  }));
}

type Say = (option: EstimateOption) => string;

function scheduleRows(estimate: Estimate, beside: readonly EstimateOption[], { detailed = false }: Choice): Row[] {
  const says: [string, Say][] = [
    ['Range', rangeInWords],
    ['Likely total', (option) => [likelyTotal(option), comparedInWords(estimate, option)].filter(Boolean).join('; ')],
    ['Stops, warns', warningsInWords],
    ['Gives the car', chargingInWords],
    ...(estimate.comparison.rows.some(({ overnight }) => overnight)
      ? ([['A mile of a night', (option) => nightInWords(estimate, option)]] as [string, Say][])
      : []),
    ['More for it', (option) => buysInWords(estimate, option)],
    ['Breaker and wire', wiresInWords],
    ...(detailed ? ([['Along the route', methodsInWords]] as [string, Say][]) : []),
    ['Service', (option) => serviceVerdict(option, estimate.description)],
    ['Work', (option) => `${workInWords(option)}; ${waitingInWords(option)}`],
  ];
  return says.map(([head, say]) => ({ cells: [head, ...beside.map(say)] }));
}

function buysInWords({ comparison }: Estimate, { id }: EstimateOption): string {
  return comparison.rows.find(({ option }) => option === id)?.buys.join('; ') || 'nothing beyond the cheapest';
}

function wiresInWords({ runs, dropPercent }: EstimateOption): string {
  if (runs.length === 0) return 'the outlet that is there; the drop on its circuit is not known';
  const each = runs.map((run) => `${run.name}: ${breakerAndWire(run)}`);
  return [...each, `${dropInWords(dropPercent)} drop to the farthest outlet`].join('; ');
}

function likelyTotal({ complete, totals }: EstimateOption): string {
  return knownMoney({ amountCents: totals.totalCents, complete });
}

/** The difference to the cheapest; where prices are missing, the least that it can be, or nothing. */
function comparedInWords({ comparison, options }: Estimate, { id, complete }: EstimateOption): string {
  const row = comparison.rows.find(({ option }) => option === id);
  if (comparison.cheapest === id) return 'the least that can be built';
  if (!row) return '';
  const base = comparison.cheapest ?? options[0]?.id;
  if (id === base) return 'none can be built and is complete';
  if (!complete && row.differenceCents <= 0) return '';
  const difference = `${wholeDollars(Math.abs(row.differenceCents))} ${row.differenceCents < 0 ? 'less' : 'more'}`;
  return complete ? difference : `at least ${difference}`;
}

function chargingInWords({ charging }: EstimateOption): string {
  if (!charging) return 'no charger yet';
  const { kW, milesPerHour, hoursForDailyMiles, coversDailyMiles } = charging.together;
  const speed = `${number(kW, 1)} kW, ${number(milesPerHour, 0)} miles an hour`;
  if (hoursForDailyMiles === undefined) return speed;
  const covered = coversDailyMiles === false ? ': not enough' : '';
  return `${speed}; daily miles in ${number(hoursForDailyMiles, 1)} h${covered}`;
}

function nightInWords({ comparison }: Estimate, { id }: EstimateOption): string {
  const overnight = comparison.rows.find(({ option }) => option === id)?.overnight;
  return overnight ? overnightInWords(overnight) : '–';
}

function methodsInWords({ runs }: EstimateOption): string {
  return runs
    .filter(({ legs }) => legs.length > 0)
    .map((run) => `${run.name}, ${feet(run.lengthFt)}: ${[...new Set(run.legs.map(wiringMethod))].join(', ')}`)
    .join('; ');
}

function waitingInWords({ schedule, labor }: EstimateOption): string {
  const waitDays = schedule.reduce((sum, step) => sum + step.waitDays, 0);
  const visits = labor.visits.filter(({ why }) => why !== 'work').length;
  return `${counted(waitDays, 'day')} of waiting, ${counted(visits, 'visit')}`;
}

function warningsInWords({ findings, buildable }: EstimateOption): string {
  const stops = findings.filter(({ severity }) => severity === 'stop');
  const cautions = findings.filter(({ severity }) => severity === 'caution').length;
  const warned = cautions > 0 ? counted(cautions, 'caution') : 'no caution';
  if (buildable) return warned;
  const [first] = byWeight(stops);
  const others = stops.length - 1;
  const [firstSentence = ''] = (first?.message ?? '').split(/(?<=\.) (?=[A-Z])/);
  const more = others > 0 ? ` And ${counted(others, 'more stop', 'more stops')}.` : '';
  return `Cannot be built as stated. ${firstSentence}${more} ${capital(warned)}.`;
}

/** The steps from cost to net side by side, in whole dollars; steps that are zero everywhere are left out. */
export function moneySchedules(
  { options }: Estimate,
  { mostSideBySide }: { mostSideBySide: number },
): { columns: Column[]; rows: Row[] }[] {
  const some = (step: keyof EstimateOption['totals']) => options.some(({ totals }) => totals[step] !== 0);
  const shown = MONEY_STEPS.filter(([, step]) => some(step === 'netCents' ? 'incentiveCents' : step));
  return sideBySide(options, mostSideBySide).map((beside) => ({
    columns: [
      { head: 'In dollars', widthPt: 74 },
      ...beside.map(({ label }): Column => ({ head: label, share: 1, align: 'right', set: 'heavy-head' })),
    ],
    rows: shown.map(([head, step]) => ({
      kind: step === 'totalCents' || step === 'netCents' ? 'sum' : 'body',
      cells: [head, ...beside.map(({ totals }) => wholeDollars(totals[step]))],
    })),
  }));
}

/** Options in as few tables as will do, of about equal breadth. */
function sideBySide(options: readonly EstimateOption[], most: number): EstimateOption[][] {
  const tables = Math.ceil(options.length / most);
  const each = Math.ceil(options.length / tables);
  return Array.from({ length: tables }, (_, nth) => options.slice(nth * each, (nth + 1) * each));
}

const MONEY_STEPS = [
  ['Material', 'materialCents'],
  ['Labor', 'laborCents'],
  ['Equipment', 'equipmentCents'],
  ['Fees', 'feeCents'],
  ['Cost', 'costCents'],
  ['Markup', 'markupCents'],
  ['Overhead', 'overheadCents'],
  ['Contingency', 'contingencyCents'],
  ['Profit', 'profitCents'],
  ['Discount', 'discountCents'],
  ['Tax', 'taxCents'],
  ['Total', 'totalCents'],
  ['Incentives', 'incentiveCents'],
  ['Net', 'netCents'],
] as const;
