import { standardRatingsA } from '../electrical/overcurrent.ts';
import { sizeInWords } from '../electrical/sizes.ts';
import type { EstimateOption, Run, Step } from './answer.ts';
import { highestA, isNoWorse, type TryChanged, withChargingA, withFeederA } from './changed-option.ts';
import { COMPARED_SETTINGS_A } from './curves.ts';
import type { OptionEstimate } from './option-estimate.ts';
import { BOUNDS } from './vocabulary.ts';

/** So many ratings are tried for a feeder that is sold: shops skip some. */
const MOST_RATINGS_TRIED = 3;
/** Settings of a charger, in whole amperes. */
const SETTINGS_A = Array.from(
  { length: BOUNDS.maxChargingA - BOUNDS.minChargingA + 1 },
  (_, at) => BOUNDS.minChargingA + at,
);

/**
 * Where a little less or more changes the price: the settings next below and next above at which a breaker or conductor
 * is another one, and the feeders of a subpanel next below and above, each planned anew. What something forbids that
 * does not forbid the option itself, or what lacks a price, is no step. Charging comes first, lower before higher;
 * differences are whole cents against the option's own total.
 */
export function stepsOf(own: OptionEstimate, tryChanged: TryChanged): Step[] {
  return [...chargingSteps(own, tryChanged), ...feederSteps(own, tryChanged)];
}

function chargingSteps(own: OptionEstimate, tryChanged: TryChanged): Step[] {
  const { option } = own.plan;
  const topA = highestA(option);
  if (topA === 0 || option.feed === 'existing-receptacle') return [];
  const at = (amps: number) => {
    const changed = withChargingA(option, amps);
    return changed && tryChanged(changed);
  };
  const isSame = (amps: number) => {
    const found = at(amps);
    return found !== undefined && signature(found.answer) === signature(own.answer);
  };
  const below = SETTINGS_A.filter((amps) => amps < topA).reverse();
  const above = SETTINGS_A.filter((amps) => amps > topA);
  const belowA = firstOther(below, { isSame, probedA: [...COMPARED_SETTINGS_A].reverse() });
  const aboveA = firstOther(above, { isSame, probedA: [...above.slice(0, 1), ...COMPARED_SETTINGS_A] });
  return [belowA, aboveA].flatMap((amps) => {
    const found = amps === undefined ? undefined : at(amps)?.answer;
    if (amps === undefined || !found || !isNoWorse(found, own.answer)) return [];
    return [step({ own: own.answer, found, amps, of: 'charging', because: chargingInWords(own, found, amps) })];
  });
}

function chargingInWords(own: OptionEstimate, found: EstimateOption, amps: number): string {
  const topA = highestA(own.plan.option);
  const isLess = amps < topA;
  const [less, more] = isLess ? [found, own.answer] : [own.answer, found];
  const mostA = isLess ? amps : Math.max(topA, amps - 1);
  const firstA = isLess ? Math.min(topA, amps + 1) : amps;
  return `${mostA} A is the most ${forEach(own)}on ${differing(less, more)}; from ${firstA} A on it takes ${differing(more, less)}.`;
}

/** Several chargers rise and fall together. */
function forEach({ plan }: OptionEstimate): string {
  return plan.option.chargers.length > 1 ? 'for each charger ' : '';
}

function feederSteps(own: OptionEstimate, tryChanged: TryChanged): Step[] {
  const feeder = feederOf(own.answer);
  if (!feeder) return [];
  const ratingsA = standardRatingsA(own.plan.description.site.code.edition);
  const below = ratingsA.filter((ratingA) => ratingA < feeder.ocpdA).reverse();
  const above = ratingsA.filter((ratingA) => ratingA > feeder.ocpdA);
  return [below, above].flatMap((ratings) =>
    feederStep({ own, feeder, ratingsA: ratings.slice(0, MOST_RATINGS_TRIED) }, tryChanged),
  );
}

/** The nearest of some ratings that is sold, where nothing forbids it: what forbids one forbids those beyond it. */
function feederStep(
  { own, feeder, ratingsA }: { own: OptionEstimate; feeder: Run; ratingsA: readonly number[] },
  tryChanged: TryChanged,
): Step[] {
  for (const feederA of ratingsA) {
    const changed = withFeederA(own.plan.option, feederA);
    const found = changed && tryChanged(changed)?.answer;
    if (!found) return [];
    if (!found.complete) continue;
    const run = feederOf(found);
    if (run?.ocpdA !== feederA || !isNoWorse(found, own.answer)) return [];
    return [step({ own: own.answer, found, amps: feederA, of: 'feeder', because: feederInWords(feeder, run) })];
  }
  return [];
}

function feederInWords(own: Run, found: Run): string {
  const [less, more] = own.ocpdA < found.ocpdA ? [own, found] : [found, own];
  const conductor = conductorInWords(less);
  return conductor === conductorInWords(more)
    ? `A feeder of ${found.ocpdA} A goes on the same ${conductor} as one of ${own.ocpdA} A.`
    : `${less.ocpdA} A is the last feeder on ${conductor} here; one of ${more.ocpdA} A takes ${conductorInWords(more)}.`;
}

const feederOf = ({ runs }: EstimateOption) => runs.find(({ role }) => role === 'feeder');

interface StepParts {
  own: EstimateOption;
  found: EstimateOption;
  amps: number;
  of: Step['of'];
  because: string;
}

function step({ own, found, amps, of, because }: StepParts): Step {
  return { amps, of, differenceCents: found.totals.totalCents - own.totals.totalCents, because };
}

/** Breakers and conductors of all runs, as one text to compare by. */
function signature({ runs }: EstimateOption): string {
  return runs
    .map((run) =>
      [run.name, run.ocpdA, ...currentCarrying(run).map((wire) => Object.values(wire).join(' '))].join(', '),
    )
    .join('; ');
}

/** What carries a run's current, piece by piece, whatever its length. */
function currentCarrying({ wire }: Run) {
  return wire
    .filter(({ use }) => use === 'cable' || use === 'ungrounded')
    .map(({ use, metal, size, insulation }) => ({ use, metal, size, insulation }));
}

/** Breaker and conductor of the runs that another plan has otherwise, as `6 AWG copper cable behind a breaker of 60 A`. */
function differing({ runs }: EstimateOption, { runs: others }: EstimateOption): string {
  const changed = runs.filter((run) => {
    const other = others.find(({ name }) => name === run.name);
    return !other || inWords(other) !== inWords(run);
  });
  const parts = changed.map((run) => (runs.length > 1 ? `${inWords(run)} (${run.name})` : inWords(run)));
  return parts.join(' and ');
}

function inWords(run: Run): string {
  return `${conductorInWords(run)} behind a breaker of ${run.ocpdA} A`;
}

/** Both parts of a run that changes its conductors on the way, else what it is throughout. */
function conductorInWords(run: Run): string {
  const { begins, conductor } = run;
  const parts = [...(begins ? [begins.conductor] : []), conductor];
  const sizes = parts.map(({ size, metal }) => `${sizeInWords(size)} ${metal}`).join(', then ');
  const uses = new Set(currentCarrying(run).map(({ use }) => use));
  const made = uses.has('cable') ? (uses.size > 1 ? ' cable and single conductors' : ' cable') : ' single conductors';
  return `${sizes}${made}`;
}

interface Search {
  isSame: (amps: number) => boolean;
  /** Settings that are looked at first, from near to far: those that are priced anyhow, or that mostly end a plan. */
  probedA: readonly number[];
}

/**
 * The first setting at which the plan is another one; they go away from the option's own. More amperes only ever forbid
 * plans and cost the same with each of them, so that the settings with the same plan lie side by side: it is enough to
 * look at a few, and then to halve what is left.
 */
function firstOther(settings: readonly number[], { isSame, probedA }: Search): number | undefined {
  let same = -1;
  let other = settings.length;
  for (const at of probedA.map((amps) => settings.indexOf(amps)).filter((index) => index >= 0)) {
    const amps = settings[at];
    if (amps === undefined || at <= same) continue;
    if (!isSame(amps)) {
      other = at;
      break;
    }
    same = at;
  }
  while (other - same > 1) {
    const middle = Math.floor((same + other) / 2);
    const amps = settings[middle];
    if (amps !== undefined && isSame(amps)) same = middle;
    else other = middle;
  }
  return settings[other];
}
