import { LEAST_EVSE_VA_2023 } from '../electrical/evse-load.ts';
import { CONTINUOUS_FACTOR } from '../electrical/overcurrent.ts';
import { SERVICE_V } from '../electrical/service-load.ts';
import type { OptionEstimate } from './option-estimate.ts';
import { BOUNDS, isDitch } from './vocabulary.ts';

/** An option, and the one that it is set beside. */
export interface Pair {
  option: OptionEstimate;
  base: OptionEstimate;
}

/** What an option gives that the other one does not, in sentences that can be read aloud. */
export function whatItBuys(pair: Pair): string[] {
  return [
    ...fasterInWords(pair),
    ...dayInWords(pair),
    ...carsInWords(pair),
    ...panelInWords(pair),
    ...spareInWords(pair),
    ...dutiesInWords(pair),
    ...serviceInWords(pair),
    ...diggingInWords(pair),
    ...daysInWords(pair),
  ];
}

function fasterInWords({ option, base }: Pair): string[] {
  const together = option.answer.charging?.together;
  const moreKw = (together?.kW ?? 0) - (base.answer.charging?.together.kW ?? 0);
  if (moreKw <= 0.05) return [];
  return [`charges ${moreKw.toFixed(1)} kW faster, ${Math.round(together?.milesPerHour ?? 0)} miles of range an hour`];
}

/** Are the miles of the day back by the morning here, and not there? */
function dayInWords({ option, base }: Pair): string[] {
  const covers = ({ answer }: OptionEstimate) => answer.charging?.together.coversDailyMiles;
  return covers(option) === true && covers(base) === false
    ? ['gives back the miles of every day while the car is parked']
    : [];
}

/** A second car now, or the ones that come later. */
function carsInWords({ option, base }: Pair): string[] {
  const count = ({ answer }: OptionEstimate) => answer.charging?.perCharger.length ?? 0;
  const more = count(option) - count(base);
  const chargers = more <= 0 ? [] : [more === 1 ? 'one more charger' : `${more} more chargers`];
  const carriesLater = isMet(option, 'later-cars') && !isMet(base, 'later-cars');
  return carriesLater ? [...chargers, 'carries the later cars too'] : chargers;
}

function isMet({ answer }: OptionEstimate, rule: string): boolean {
  return answer.findings.some((finding) => finding.rule === rule && finding.severity === 'ok');
}

const feederOf = ({ answer }: OptionEstimate) => answer.runs.find(({ role }) => role === 'feeder');

/** The panel that is bought, by its rating and spaces, and the breaker that feeds it; spaces kept for what is listed are not left. */
function panelInWords({ option, base }: Pair): string[] {
  const feeder = feederOf(option);
  const panel = option.answer.findings.find(({ rule }) => rule === 'subpanel-spaces')?.numbers;
  if (!feeder || !panel || feederOf(base)) return [];
  const left = Number(panel.spaces) - Number(panel.usedSpaces);
  return [
    `a panel of ${panel.panelA} A at the parking place, fed by ${feeder.ocpdA} A, with ${left} of ${panel.spaces} spaces left for later`,
  ];
}

/** What the load leaves of a feeder, where it is more than the other one leaves, and the second car that it would charge. */
function spareInWords({ option, base }: Pair): string[] {
  const spareA = feederSpareA(option);
  if (spareA <= feederSpareA(base)) return [];
  const setA = Math.min(BOUNDS.maxChargingA, Math.floor(spareA / CONTINUOUS_FACTOR));
  const leastA = option.plan.description.site.code.edition === '2023' ? LEAST_EVSE_VA_2023 / SERVICE_V : 0;
  const car =
    setA >= BOUNDS.minChargingA && spareA >= leastA
      ? `, enough for another charger at ${setA} A where the service carries that`
      : '';
  return [`leaves ${spareA} A of its feeder unused${car}`];
}

/** Whole amperes between a feeder's breaker and the load calculated for it; 0 without a feeder. */
function feederSpareA(option: OptionEstimate): number {
  const load = option.answer.findings.find(
    ({ rule, severity }) => rule === 'feeder-load' && severity === 'ok',
  )?.numbers;
  const feederA = feederOf(option)?.ocpdA;
  return load === undefined || feederA === undefined ? 0 : Math.max(0, Math.floor(feederA - Number(load.neededA)));
}

/** What the code asks of a detached garage with power, where this option builds it and the other one lacks it. */
function dutiesInWords({ option, base }: Pair): string[] {
  // Receptacles that may not share their circuit as they do are not yet what the code asks.
  if (option.answer.findings.some(({ rule }) => rule === 'garage-circuit')) return [];
  const built = Object.entries(DUTIES).flatMap(([duty, words]) =>
    isMet(option, duty) && !isMet(base, duty) ? [words] : [],
  );
  return built.length > 0 ? [`includes what the code asks of a garage with power: ${built.join(' and ')}`] : [];
}

const DUTIES = { 'garage-receptacles': 'the receptacles', 'garage-light': 'the light' } as const;

/** A larger or a new service, or one that is kept within its rating. */
function serviceInWords({ option, base }: Pair): string[] {
  const toA = option.plan.option.serviceUpgrade?.toA;
  const larger = toA !== undefined && base.plan.option.serviceUpgrade?.toA !== toA ? [`a service of ${toA} A`] : [];
  const monitors = ({ plan }: OptionEstimate) => plan.option.loadManagement?.kind === 'service-monitor';
  return monitors(option) && !monitors(base)
    ? [...larger, 'keeps the whole house within its service by itself, whatever else is on']
    : larger;
}

/** What need not be dug or opened again: a spare conduit, or a panel that later circuits start at. */
function diggingInWords({ option, base }: Pair): string[] {
  const { emptyRaceways = [], route } = option.plan;
  const spare = emptyRaceways.find(({ use }) => use === 'spare');
  const hasSpare = base.plan.emptyRaceways?.some(({ use }) => use === 'spare') ?? false;
  const again = route.some(({ stated }) => isDitch(stated.kind)) ? 'dug' : 'opened';
  const conduit =
    spare && !hasSpare ? [`a spare conduit for ${spare.run.ocpdA} A: nothing is ${again} again for it`] : [];
  const startsThere = feederOf(option) !== undefined && feederOf(base) === undefined && route.length > 0;
  return startsThere
    ? [...conduit, `later circuits start at the parking place: the way there is not ${again} again`]
    : conduit;
}

function daysInWords({ option, base }: Pair): string[] {
  const fewer = base.answer.labor.workingDays - option.answer.labor.workingDays;
  return fewer > 0 ? [`${fewer} working ${fewer === 1 ? 'day' : 'days'} less in the house`] : [];
}
