import type { Budget, EstimateOption, Range, Unknown } from './answer.ts';
import type { Description } from './description.ts';
import { wholeDollars } from './money.ts';
import { payment } from './money-calculations.ts';

/** Up to this width of p10 to p90, against the middle, a budget is of high and of medium confidence. Ours. */
const WIDTHS = { high: 0.4, medium: 0.8 };
/** A fact that swings more than this share of the middle takes a step of confidence away. Ours. */
const LARGE_SWING = 0.15;

interface Known {
  option: Pick<EstimateOption, 'complete' | 'buildable'>;
  range: Range;
  unknowns: readonly Unknown[];
  description: Description;
}

/**
 * What a buyer carries into the purchase: half of all cases cost less than the likely figure, nine of ten less than the
 * one to plan for; each also as its part of the monthly payment. The interest is that of the likely figure.
 * @returns nothing where no purchase is stated
 */
export function budgetOf(known: Known): Budget | undefined {
  const { purchase } = known.description;
  if (!purchase) return undefined;
  const { p50Cents, p90Cents } = known.range;
  const likely = payment({ principalCents: p50Cents, ...purchase.loan });
  const planFor = payment({ principalCents: p90Cents, ...purchase.loan });
  const { confidence, because } = confidenceOf(known);
  return {
    likelyCents: p50Cents,
    planForCents: p90Cents,
    monthlyCents: likely.monthlyCents,
    monthlyPlanForCents: planFor.monthlyCents,
    totalInterestCents: likely.totalInterestCents,
    confidence,
    because: [because, ...afterClosing(known.description)],
    askSeller: questionsToSeller(known),
  };
}

const LEVELS = ['low', 'medium', 'high'] as const;

/**
 * High where the range is no wider than 40 % of its middle, medium up to 80 %, low beyond; one step less where a single
 * fact that nobody knows swings more than 15 %; always low where a price is missing or the option cannot be built.
 */
function confidenceOf({ option, range, unknowns }: Known): { confidence: Budget['confidence']; because: string } {
  const { p10Cents, p50Cents, p90Cents } = range;
  if (!option.complete)
    return { confidence: 'low', because: 'Low: prices are missing, so that it will cost more than shown.' };
  if (!option.buildable) return { confidence: 'low', because: 'Low: it may not be built like this.' };
  const width = p50Cents > 0 ? (p90Cents - p10Cents) / p50Cents : 0;
  const swing = p50Cents > 0 ? (unknowns[0]?.swingCents ?? 0) / p50Cents : 0;
  const byWidth = width <= WIDTHS.high ? 2 : width <= WIDTHS.medium ? 1 : 0;
  const level = LEVELS[Math.max(0, byWidth - (swing > LARGE_SWING ? 1 : 0))] ?? 'low';
  const percent = (share: number) => `${Math.round(share * 100)} %`;
  const [first = ''] = level;
  const widthWords =
    `eight of ten cases lie between ${wholeDollars(p10Cents)} and ${wholeDollars(p90Cents)}, ` +
    `${percent(width)} of the middle apart`;
  const swingWords = swing > LARGE_SWING ? `, and ${unknowns[0]?.path} alone swings ${percent(swing)}` : '';
  return { confidence: level, because: `${first.toUpperCase()}${level.slice(1)}: ${widthWords}${swingWords}.` };
}

/** What changes because nothing is built before the house is bought. */
function afterClosing({ asOf, purchase, terms }: Description): string[] {
  const closing = purchase?.closing;
  if (closing === undefined) return [];
  const lost = terms.incentives
    .filter(({ until }) => until !== undefined && until < closing && (asOf === undefined || until >= asOf))
    .map(({ name, until }) => `${name} ends on ${until}`);
  const past = asOf !== undefined && closing < asOf ? ' That day has passed.' : '';
  const ended = lost.length > 0 ? ` Before it ${lost.join(', ')}: do not count on it.` : '';
  return [`Work begins after closing on ${closing}, at the prices of then.${past}${ended}`];
}

/** What a seller can tell, by what is not known; the papers of the house in any case. */
function questionsToSeller({ unknowns }: Known): string[] {
  const asked = unknowns.map(({ path }) => path);
  const about = (start: string, question: string) => (asked.some((path) => path.startsWith(start)) ? [question] : []);
  return [
    'May we see the permits of electrical work on the house, and the reports of earlier inspections?',
    ...about('site.load', 'May we see the electricity bills of the last 12 months, or the interval data of the meter?'),
    ...about('site.service.ratingA', 'What is the service rated, and when was it last changed?'),
    ...about('site.service.panel', 'How old is the panel, who made it, and has it ever been looked at for that?'),
    ...about('site.hazards', 'Is anything known of lead paint, asbestos or old wiring in the house?'),
    ...about('route', 'Do you know of pipes, cables or tanks in the ground between the house and the parking place?'),
  ];
}
