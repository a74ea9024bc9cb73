import type { EstimateOption, Finding, LevelledBid, Line } from './answer.ts';
import { offerFindings } from './bid-offers.ts';
import { scopeForPeople } from './bid-scope-words.ts';
import type { Description } from './description.ts';
import { MINIMUM_CHARGE } from './minimum-charge.ts';
import { wholeDollars } from './money.ts';
import type { OptionEstimate } from './option-estimate.ts';
import { isBareCost } from './terms-findings.ts';
import { totalsOf } from './totals.ts';
import { SCOPES, type Scope } from './vocabulary.ts';

type Bid = Description['bids'][number];

/** A price mostly holds for so many days; an older bid is asked about. Common practice, no source. */
const HOLDS_DAYS = 30;
const DAY_MS = 86_400_000;

/**
 * The bids that were received, levelled: each with its tax, and with what the estimate asks, at its own terms, for each
 * scope of its option that it leaves out. What it says will be built runs through the rules of a plan.
 * @param options  as they are answered: the place is told where an option has its range
 */
export function bidsOf(
  description: Description,
  planned: readonly OptionEstimate[],
  options: readonly EstimateOption[],
): LevelledBid[] {
  return description.bids.flatMap((bid) => {
    const one = planned.find(({ answer }) => answer.id === bid.optionId);
    const option = options.find(({ id }) => id === bid.optionId);
    return one && option ? [levelled({ bid, one, option, description })] : [];
  });
}

interface BidAt {
  bid: Bid;
  one: OptionEstimate;
  option: EstimateOption;
  description: Description;
}

function levelled(at: BidAt): LevelledBid {
  const { bid, option, description } = at;
  const missing = SCOPES.filter((scope) => !bid.covers.includes(scope) && linesOf(option, scope).length > 0);
  const added = missing.map((scope) => askedFor(linesOf(option, scope), description));
  const taxed = bid.totalCents + (bid.taxIncluded ? 0 : taxOnBid(at));
  const levelledCents = taxed + added.reduce((sum, cents) => sum + cents, 0);
  const place = placeOf(levelledCents, option);
  const unpriced = missing.filter((scope) => linesOf(option, scope).some(({ priced }) => !priced));
  const findings = [
    ...offerFindings(at),
    ...unpriced.map((scope) => notPriced(scope, scopeForPeople(scope, at.one.plan))),
  ];
  const { from, optionId, totalCents } = bid;
  const asked = { at, levelledCents, missing, place, findings };
  return {
    from,
    optionId,
    totalCents,
    levelledCents,
    ...(place && { place }),
    missing,
    findings,
    questions: questionsOf(asked),
  };
}

/** What makes a small job up to its minimum belongs to no scope that a bid could name. */
function linesOf({ lines }: EstimateOption, scope: Scope): Line[] {
  return lines.filter((line) => line.scope === scope && line.key !== MINIMUM_CHARGE);
}

/** What the estimate asks for some lines: their cost through markup, overhead, contingency, profit and tax, without what is taken off the whole. */
function askedFor(lines: readonly Line[], description: Description): number {
  const terms = { ...description.terms, discountCents: 0, incentives: [] };
  return totalsOf(lines, { ...description, terms }).totalCents;
}

/** The tax on a bid that states none: the share that tax has in the estimate's own price of the scopes that it covers. */
function taxOnBid({ bid, option, description }: BidAt): number {
  const covered = option.lines.filter(({ scope }) => bid.covers.includes(scope));
  const terms = { ...description.terms, discountCents: 0, incentives: [] };
  const { taxCents, totalCents } = totalsOf(covered, { ...description, terms });
  const beforeTax = totalCents - taxCents;
  return beforeTax > 0 ? Math.round((bid.totalCents * taxCents) / beforeTax) : 0;
}

function placeOf(cents: number, { range }: EstimateOption): LevelledBid['place'] {
  if (!range) return undefined;
  if (cents < range.p10Cents) return 'below';
  return cents > range.p90Cents ? 'above' : 'within';
}

function notPriced(scope: Scope, inWords: string): Finding {
  return {
    rule: 'bid-levelling',
    severity: 'caution',
    message: `The bid leaves out ${inWords}, and the price book lacks a price for part of it: the levelled amount is too low by that.`,
    numbers: { scope },
  };
}

interface Asked {
  at: BidAt;
  levelledCents: number;
  missing: readonly Scope[];
  place: LevelledBid['place'];
  findings: readonly Finding[];
}

/** What to ask about a bid, as one asks somebody whom one would like to work with. */
function questionsOf(asked: Asked): string[] {
  const { missing, findings } = asked;
  const { bid, one, option, description } = asked.at;
  const included = missing.map(
    (scope) => `Does your price include ${scopeForPeople(scope, one.plan)}? We did not find it named.`,
  );
  const built = findings
    .filter(({ rule, severity }) => rule !== 'bid-levelling' && (severity === 'stop' || severity === 'caution'))
    .map(({ message }) => `Could you help us understand this point: ${message}`);
  const { ocpdA, size, method, amps } = bid.offers ?? {};
  const isUnsaid = [ocpdA, size, method, amps].every((value) => value === undefined);
  return [
    ...included,
    ...(isUnsaid && option.runs.length > 0
      ? ['Which breaker, which size and kind of wire, and which setting of the charger do you plan?']
      : []),
    ...built,
    ...byPlace(asked),
    ...byAge(bid, description),
    ...(bid.covers.includes('permit') ? [] : ['Who takes out the permit and meets the inspector?']),
  ];
}

/** Above a range of bare costs a bid is no high one: what a contractor's price holds besides is asked for. */
function byPlace({ at: { option, description }, levelledCents, place }: Asked): string[] {
  if (place === 'below')
    return ['Your price is lower than we had expected, which is welcome: is any part of the work to be settled later?'];
  if (place !== 'above') return [];
  const { range } = option;
  if (range && isBareCost(description.terms)) {
    const beyond = `${wholeDollars(levelledCents - range.p90Cents)} above ${wholeDollars(range.p90Cents)}`;
    return [
      `Our range, ${wholeDollars(range.p10Cents)} to ${wholeDollars(range.p90Cents)}, holds no overhead or profit, and your price lies ${beyond}: what share of it is overhead and profit?`,
    ];
  }
  return ['Your price is higher than we had expected: is there something about the site that we have not seen?'];
}

function byAge({ date }: Bid, { asOf }: Description): string[] {
  if (date === undefined || asOf === undefined) return [];
  const days = (Date.parse(asOf) - Date.parse(date)) / DAY_MS;
  return days > HOLDS_DAYS ? [`Your bid is of ${date}: does the price still hold?`] : [];
}
