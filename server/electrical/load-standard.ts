import type { Edition } from './citations.ts';
import { cookingDemandVA } from './cooking-load.ts';
import { BeyondTableError } from './errors.ts';
import type { AddedLoad, Appliance, Heating, ListedLoad, LoadStep, LoadSum } from './load-types.ts';
import { generalSteps, sumVA } from './load-types.ts';
import { DRYER_DEMAND_220_54, LIGHTING_DEMAND_220_45 } from './tables/dwelling-demand-220.ts';

/**
 * Lighting and receptacles of a dwelling, in volt-amperes a square foot. NEC 220.41 (2020: 220.14(J)); 2026: 2, from a
 * trade article.
 */
const LIGHTING_VA_PER_FT2 = { '2020': 3, '2023': 3, '2026': 2 } as const satisfies Record<Edition, number>;
/** So many fastened appliances, and more, count at 75 %. NEC 220.53. */
const APPLIANCES_AT_75_PERCENT = 4;
/** The largest motor counts a quarter more. NEC 220.50, 430.24. */
const LARGEST_MOTOR_SHARE = 0.25;

/**
 * The standard method: Article 220 Part III (2026: 120 Part III), step by step, in volt-amperes.
 * Lighting and circuits by Table 220.45; four or more fastened appliances at 75 % (220.53), motors kept apart and at
 * 100 %; dryers (220.54); cooking (220.55); the larger of heating and cooling (220.60); a quarter of the largest motor
 * (220.50). What is added and chargers count in full: 220.53 does not reduce chargers.
 * @throws {BeyondTableError} past the tables of dryers and ranges
 */
export function standardLoad(load: ListedLoad, { addedVA, chargerVA, edition }: AddedLoad): LoadSum {
  const general = generalSteps(load, LIGHTING_VA_PER_FT2[edition]);
  const appliances = load.appliances ?? [];
  const lightingVA = lightingDemandVA(sumVA(general));
  const climate = climateLoad(load);
  const motorsVA = ofKind(appliances, 'motor').map(({ va }) => va);
  const counted: LoadStep[] = [
    { name: 'lighting and circuits after the demand table', va: lightingVA },
    fastenedStep(ofKind(appliances, 'fastened')),
    { name: 'dryers', va: dryerDemandVA(ofKind(appliances, 'dryer').map(({ va }) => va)) },
    { name: 'cooking', va: cookingDemandVA(ofKind(appliances, 'range').map(({ va }) => va)) },
    { name: 'motors', va: motorsVA.reduce((sum, va) => sum + va, 0) },
    { name: climate.name, va: climate.va },
    { name: '25 % of the largest motor', va: largestMotorVA(motorsVA, climate) },
    { name: 'added, at 100 %', va: addedVA },
    { name: 'chargers, at 100 %', va: chargerVA },
  ].filter(({ va }) => va > 0);
  const demandVA = sumVA(counted);
  return { demandVA, steps: [...general, ...counted, { name: 'demand', va: demandVA }] };
}

function ofKind(appliances: readonly Appliance[], kind: NonNullable<Appliance['kind']>): Appliance[] {
  return appliances.filter((appliance) => (appliance.kind ?? 'fastened') === kind);
}

/** NEC Table 220.45 (2020: Table 220.42), in volt-amperes. */
export function lightingDemandVA(connectedVA: number): number {
  let fromVA = 0;
  let demandVA = 0;
  for (const [toVA, percent] of LIGHTING_DEMAND_220_45.rows) {
    demandVA += (Math.max(0, Math.min(connectedVA, toVA) - fromVA) * percent) / 100;
    fromVA = toVA;
  }
  return demandVA;
}

function fastenedStep(fastened: readonly Appliance[]): LoadStep {
  const reduced = fastened.length >= APPLIANCES_AT_75_PERCENT;
  const name = reduced ? `${fastened.length} fastened appliances, at 75 %` : 'fastened appliances, at 100 %';
  return { name, va: sumVA(fastened) * (reduced ? 0.75 : 1) };
}

/** NEC 220.54: each dryer at least 5,000 VA; the factors of Table 220.54 from five on. */
function dryerDemandVA(ratingsVA: readonly number[]): number {
  if (ratingsVA.length === 0) return 0;
  const percent = DRYER_DEMAND_220_54.percentByCount[ratingsVA.length - 1];
  if (percent === undefined) {
    const allowed = `at most ${DRYER_DEMAND_220_54.percentByCount.length} dryers`;
    throw new BeyondTableError({ table: '220.54', field: 'appliances', value: ratingsVA.length, allowed });
  }
  const countedVA = ratingsVA.reduce((sum, va) => sum + Math.max(va, DRYER_DEMAND_220_54.leastVA), 0);
  return (countedVA * percent) / 100;
}

interface Climate extends LoadStep {
  /** The motor in what was counted, at 100 %; 0 where it is no motor. */
  motorVA: number;
  /** A motor that was already counted a quarter more. */
  raisedMotorVA: number;
}

/**
 * Heating or cooling, whichever is larger, since they do not run together (220.60). Cooling that is not the larger
 * enters the comparison at 125 %, as that section asks of motors. A heat pump's strips run with its compressor.
 */
function climateLoad({ heating, cooling }: ListedLoad): Climate {
  const coolingVA = cooling?.va ?? 0;
  const heatingVA = wholeHeatingVA(heating);
  if (coolingVA >= heatingVA) return { name: 'cooling', va: coolingVA, motorVA: coolingVA, raisedMotorVA: 0 };
  if (coolingVA * 1.25 > heatingVA) {
    return { name: 'cooling, a motor, at 125 %', va: coolingVA * 1.25, motorVA: 0, raisedMotorVA: coolingVA };
  }
  const motorVA = heating?.kind === 'heat-pump' ? heating.va : 0;
  return { name: 'heating', va: heatingVA, motorVA, raisedMotorVA: 0 };
}

/** All of the heating, in volt-amperes, at 100 %. NEC 220.51. */
export function wholeHeatingVA(heating: Heating | undefined): number {
  if (!heating || heating.kind === 'none') return 0;
  return heating.va + (heating.supplementalVA ?? 0);
}

function largestMotorVA(motorsVA: readonly number[], { motorVA, raisedMotorVA }: Climate): number {
  const largestVA = Math.max(0, motorVA, ...motorsVA);
  return raisedMotorVA >= largestVA ? 0 : largestVA * LARGEST_MOTOR_SHARE;
}
