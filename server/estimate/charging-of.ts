import { charging } from '../electrical/charging.ts';
import type { EstimateOption } from './answer.ts';
import { toFourDecimals } from './money.ts';
import { chargerGroups, holdsBack, is120V } from './plan/charger-load.ts';
import type { PlannedOption } from './plan-types.ts';

type ChargingAnswer = NonNullable<EstimateOption['charging']>;

/** What one charger can give, and which link of the chain holds it there. */
interface Link {
  amps: number;
  voltageV: number;
  limitedBy: string;
}

/** The charger's setting as planned, or less where its circuit is managed or its car takes less. */
function linkOf(plan: PlannedOption, at: number): Link | undefined {
  const charger = plan.option.chargers[at];
  if (!charger) return undefined;
  const run = plan.runs.find(({ chargers }) => chargers.includes(at));
  const receptacleA = plan.option.receptacle ? plan.option.receptacle.circuitA * 0.8 : undefined;
  const carA = plan.description.driving?.cars[at]?.maxA;
  const managedA = managedAt(plan.option, at);
  const links = [
    { amps: charger.amps, limitedBy: settledBy(plan, at) ?? 'charger' },
    ...(run && run.chargers.length === 1 ? [{ amps: run.ocpdA * 0.8, limitedBy: 'breaker' }] : []),
    ...(managedA === undefined ? [] : [{ amps: managedA, limitedBy: 'load management' }]),
    ...(receptacleA === undefined ? [] : [{ amps: receptacleA, limitedBy: 'outlet' }]),
    ...(carA === undefined ? [] : [{ amps: carA, limitedBy: 'car' }]),
  ];
  const weakest = links.reduce((least, link) => (link.amps < least.amps ? link : least));
  return { ...weakest, voltageV: is120V(charger) ? 120 : 240 };
}

/** What load management lets a charger draw at most, alone as much as all that it holds draw together. */
function managedAt({ loadManagement, chargers, feed }: PlannedOption['option'], at: number): number | undefined {
  if (!loadManagement || feed === 'existing-receptacle') return undefined;
  return holdsBack(loadManagement, chargerGroups(chargers), at) ? loadManagement.maxA : undefined;
}

/** What a charger set to `largest` was settled by, as its finding says. */
function settledBy({ description, option, findings }: PlannedOption, at: number): string | undefined {
  const stated = description.options.find(({ id }) => id === option.id);
  if (stated?.chargers[at]?.amps !== 'largest') return undefined;
  const by = findings.find(({ rule }) => rule === 'largest-setting')?.numbers.limitedBy;
  return typeof by === 'string' ? by : undefined;
}

/**
 * What the option charges a night: each charger alone, and all together where a managed circuit shares its amperes.
 * The first cars stated belong to the first chargers. Nothing where the option has no charger, or only roughs in for one.
 */
export function chargingOf(plan: PlannedOption): ChargingAnswer | undefined {
  if (plan.option.roughInOnly) return undefined;
  const links = plan.option.chargers.flatMap((_, at) => linkOf(plan, at) ?? []);
  if (links.length === 0) return undefined;
  const cars = plan.description.driving?.cars ?? [];
  const perCharger = links.map(({ amps, voltageV, limitedBy }, at) => ({
    ...chargingAt({ amps, voltageV }, cars.length === 1 || links.length > 1 ? cars[at] : sharedCar(cars)),
    limitedBy,
  }));
  const togetherA = togetherVA(plan.option, links) / 240;
  return { together: chargingAt({ amps: togetherA, voltageV: 240 }, sharedCar(cars)), perCharger };
}

/** What all chargers draw at once: chargers that share a managed circuit no more than its limit, a monitor holds all of them. */
function togetherVA({ chargers, loadManagement }: PlannedOption['option'], links: readonly Link[]): number {
  const limitVA = loadManagement ? loadManagement.maxA * 240 : Number.POSITIVE_INFINITY;
  const shares = loadManagement?.kind === 'shared-circuit';
  const perCircuitVA = chargerGroups(chargers).map((group) => {
    const sumVA = group.chargers.reduce((sum, at) => sum + voltAmperesOf(links[at]), 0);
    return shares && group.chargers.length > 1 ? Math.min(sumVA, limitVA) : sumVA;
  });
  const sumVA = perCircuitVA.reduce((sum, va) => sum + va, 0);
  return shares ? sumVA : Math.min(sumVA, limitVA);
}

function voltAmperesOf(link: Link | undefined): number {
  return link ? link.amps * link.voltageV : 0;
}

type Car = NonNullable<PlannedOption['description']['driving']>['cars'][number];

/** Several cars at one source: their miles add up, and the one that leaves first sets the hours. */
function sharedCar(cars: readonly Car[]): Car | undefined {
  const [first] = cars;
  if (!first) return undefined;
  const milesPerDay = cars.reduce((sum, car) => sum + car.milesPerDay, 0);
  const kWhPerDay = cars.reduce((sum, car) => sum + car.milesPerDay / car.milesPerKwh, 0);
  return {
    milesPerDay,
    milesPerKwh: kWhPerDay > 0 ? milesPerDay / kWhPerDay : first.milesPerKwh,
    parkedHours: Math.min(...cars.map(({ parkedHours }) => parkedHours)),
  };
}

function chargingAt({ amps, voltageV }: { amps: number; voltageV: number }, car: Car | undefined) {
  const { kW, milesPerHour, hoursForDailyMiles, ...rest } = charging({
    amps,
    voltageV,
    ...(car && { milesPerKwh: car.milesPerKwh, milesPerDay: car.milesPerDay, parkedHours: car.parkedHours }),
  });
  return {
    kW: toFourDecimals(kW),
    milesPerHour: toFourDecimals(milesPerHour),
    ...(hoursForDailyMiles !== undefined && { hoursForDailyMiles: toFourDecimals(hoursForDailyMiles) }),
    ...rest,
  };
}
