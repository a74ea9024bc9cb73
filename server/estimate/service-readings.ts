import { cite, type RuleKey } from '../electrical/citations.ts';
import { evseLoadVA } from '../electrical/evse-load.ts';
import type { ChargerReading } from '../electrical/load-optional.ts';
import { CONTINUOUS_FACTOR as CONTINUOUS, reaches } from '../electrical/overcurrent.ts';
import { LEAST_MEASURED_DAYS, SERVICE_V, serviceLoad } from '../electrical/service-load.ts';
import type { ServiceCheck } from './answer.ts';
import type { Description } from './description.ts';
import { chargerA, chargerGroups, is120V } from './plan/charger-load.ts';
import { otherLoad } from './plan/feeder-load.ts';
import type { SettledCharger, SettledOption } from './plan/job.ts';
import { otherCircuitsOf } from './plan/other-circuit.ts';

type Reading = ServiceCheck['readings'][number];

/** An option whose chargers are settled, at the house that it is for. */
export interface AtService {
  description: Description;
  option: SettledOption;
}

/** What an option adds to the service, in volt-amperes, before any factor for continuous loads. */
export interface AddedVA {
  /** By 220.57 and its like: each circuit for charging at not less than the code's least. */
  chargerVA: number;
  /** Other circuits of a subpanel. */
  otherVA: number;
}

/** A house's demand before the option, what the option adds, and the demand with it by every lawful reading. Amperes at 240 V. */
export interface ServiceReadings {
  ratingA: number | null;
  demandA: number;
  /** By the reading that counts the charger in full at 125 %. */
  strictA: number;
  /** The strictest first. */
  readings: Reading[];
}

/** The rating that counts: what the option's upgrade makes of the service, or what is there. */
export function serviceRatingA({ option, description }: AtService): number | null {
  return option.serviceUpgrade?.toA ?? description.site.service.ratingA;
}

/** The rule that a house's load is figured by: one of the two parts of 220.83 by whether heating or cooling is added. */
export function loadRule({ site: { load, work } }: Description): RuleKey {
  if (load.method !== 'listed') return 'measured-demand';
  if (work === 'new-construction') return 'optional-new-dwelling';
  return load.addingHeatOrCooling ? 'optional-existing-b' : 'optional-existing-a';
}

/** 220.87 bars a measurement that is too short or that local generation hides; the reason, or nothing. */
export function whyBarred({ site: { load, service } }: Description): string | undefined {
  if (load.method !== 'measured') return undefined;
  if (load.days < LEAST_MEASURED_DAYS)
    return `${load.days} days are measured; the code asks for at least ${LEAST_MEASURED_DAYS}.`;
  if ((service.backfeedA ?? 0) > 0)
    return 'Solar or storage hides part of the load from the meter: list the loads instead.';
  return undefined;
}

/**
 * What an option adds to the service. Each charger counts 7,200 VA at least in the edition of 2023 (220.57); those that
 * share a managed circuit no more than its setpoint together; a monitor of the service holds all of them at its own. At
 * 120 V a charger counts what it draws. Other circuits of a subpanel count as they do on its feeder.
 */
export function addedTo({ description, option }: AtService): AddedVA {
  const { edition } = description.site.code;
  const { loadManagement } = option;
  const monitored = loadManagement?.kind === 'service-monitor';
  const perCircuitVA = chargerGroups(option.chargers).map(({ chargers }) => {
    const members = chargers.flatMap((at) => option.chargers[at] ?? []);
    const eachVA = members.map((member) => {
      const nameplateVA = drawnVA(member, edition);
      return is120V(member) ? nameplateVA : evseLoadVA({ nameplateVA, managed: monitored, edition });
    });
    const togetherVA = eachVA.reduce((sum, va) => sum + va, 0);
    const isShared = loadManagement?.kind === 'shared-circuit' && members.length > 1;
    return isShared ? Math.min(togetherVA, loadManagement.maxA * SERVICE_V) : togetherVA;
  });
  const sumVA = perCircuitVA.reduce((sum, va) => sum + va, 0);
  const others = option.feed === 'subpanel' ? otherCircuitsOf({ description, option, edition }).others : [];
  return {
    chargerVA: monitored ? Math.min(sumVA, loadManagement.maxA * SERVICE_V) : sumVA,
    otherVA: otherLoad(others).loadA * SERVICE_V,
  };
}

function drawnVA(charger: SettledCharger, edition: Description['site']['code']['edition']): number {
  return chargerA(charger, edition) * (is120V(charger) ? 120 : SERVICE_V);
}

/**
 * The demand on the service with the option, by every lawful reading: the charger in full or in the tier where the
 * method has one, at 125 or 100 %. NEC 220.57, 220.82, 220.83, 220.87.
 * @returns nothing where the house's load is not known, or its measurement may not be used
 */
export function serviceReadings(at: AtService): ServiceReadings | undefined {
  const { description } = at;
  const { load, code } = description.site;
  if (load.method === 'unknown' || whyBarred(description) !== undefined) return undefined;
  const ratingA = serviceRatingA(at);
  const added = addedTo(at);
  const demandA = demandVA(at, 0) / SERVICE_V;
  const fullAt = (factor: number) => demandA + (added.chargerVA * factor + added.otherVA) / SERVICE_V;
  const inTierAt = (factor: number) => demandVA(at, added.chargerVA * factor + added.otherVA) / SERVICE_V;
  const method = cite(loadRule(description), code.edition).article;
  const held = (withA: number) => monitoredA(at, { withA, demandA });
  const hasTier = load.method === 'listed' && code.edition !== '2026';
  const readings = waysOf({ fullAt, inTierAt, hasTier, asked: code.chargerReading }).map(({ reading, withA }) => ({
    method,
    reading,
    withA: round(held(withA)),
    fits: ratingA !== null && reaches(ratingA, held(withA)),
  }));
  return { ratingA, demandA, strictA: held(fullAt(CONTINUOUS)) - demandA, readings };
}

interface Ways {
  fullAt: (factor: number) => number;
  inTierAt: (factor: number) => number;
  hasTier: boolean;
  asked: ChargerReading | 'both';
}

/** Every lawful way to count the charger, the strictest first; a stated reading keeps its own, at 125 %. */
function waysOf({ fullAt, inTierAt, hasTier, asked }: Ways) {
  const ways = [
    { reading: 'the charger in full, at 125 %', withA: fullAt(CONTINUOUS), keptBy: 'full' },
    { reading: 'the charger in full, at 100 %', withA: fullAt(1), keptBy: 'both' },
    ...(hasTier
      ? [
          { reading: 'the charger in the tier, at 125 %', withA: inTierAt(CONTINUOUS), keptBy: 'in-tier' },
          { reading: 'the charger in the tier, at 100 %', withA: inTierAt(1), keptBy: 'both' },
        ]
      : []),
  ];
  const kept = ways.filter(({ keptBy }) => asked === 'both' || keptBy === asked);
  return kept.length > 0 ? kept : ways.slice(0, 1);
}

/** What the house draws, with so many volt-amperes among its other loads, by the method that its load is stated for. */
function demandVA(at: AtService, addedVA: number): number {
  const { load, work, code } = at.description.site;
  const common = { serviceA: serviceRatingA(at) ?? 100, edition: code.edition, addedVA };
  if (load.method === 'unknown') throw new Error('An unknown load has no demand.');
  if (load.method === 'measured')
    return serviceLoad({ ...common, method: 'measured', peakA: load.peakA, days: load.days }).demandVA;
  const method = work === 'new-construction' ? 'new-dwelling' : 'existing-dwelling';
  return serviceLoad({ ...load, ...common, method }).demandVA;
}

/** A monitor of the service keeps the whole house at its limit, but cannot take away what the house draws without the car. */
function monitoredA(at: AtService, { withA, demandA }: { withA: number; demandA: number }): number {
  const { loadManagement } = at.option;
  if (loadManagement?.kind !== 'service-monitor') return withA;
  const limitA = loadManagement.houseLimitA ?? serviceRatingA(at) ?? withA;
  return Math.max(demandA, Math.min(withA, limitA));
}

/** Does the service carry the option by every lawful reading? Not known: undefined. */
export function fitsByEveryReading(at: AtService): boolean | undefined {
  const found = serviceReadings(at);
  if (!found || found.ratingA === null) return undefined;
  return found.readings.every(({ fits }) => fits);
}

/** The option with no charger set higher than so many amperes. */
export function setToAtMost(option: SettledOption, mostA: number): SettledOption {
  return { ...option, chargers: option.chargers.map((one) => ({ ...one, amps: Math.min(one.amps, mostA) })) };
}

/** Amperes to a hundredth: finer than any meter, and the same on every machine. */
function round(amperes: number): number {
  return Math.round(amperes * 100) / 100;
}
