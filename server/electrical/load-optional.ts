import type { Edition } from './citations.ts';
import { wholeHeatingVA } from './load-standard.ts';
import type { AddedLoad, Heating, ListedLoad, LoadStep, LoadSum } from './load-types.ts';
import { generalSteps, sumVA } from './load-types.ts';

/**
 * Does the charger count in full beside the tier, or among the other loads in it? The editions of 2020 and 2023 leave
 * it open.
 */
export type ChargerReading = 'full' | 'in-tier';

/** Volt-amperes at 100 %, and a square foot's lighting, in 220.82. 2026: from articles on 120.82(B). */
const NEW_DWELLING = {
  '2020': { firstVA: 10_000, lightingVAPerFt2: 3 },
  '2023': { firstVA: 10_000, lightingVAPerFt2: 3 },
  '2026': { firstVA: 8_000, lightingVAPerFt2: 2 },
} as const satisfies Record<Edition, { firstVA: number; lightingVAPerFt2: number }>;

/**
 * NEC 220.83: what counts at 100 %, and a square foot's lighting; for 2026 not verified, so the larger figure stays.
 */
const EXISTING_DWELLING = { firstVA: 8_000, lightingVAPerFt2: 3 } as const;
/** What lies above the first step counts so much. NEC 220.82(B), 220.83. */
const REST_SHARE = 0.4;

/**
 * Which reading of the charger an edition leaves open. The edition of 2026 counts it at 100 % beside the tier
 * (120.82(D), not verified): there the reading is always `full`.
 */
export function chargerReadingOf(asked: ChargerReading, edition: Edition): ChargerReading {
  return edition === '2026' ? 'full' : asked;
}

/**
 * The optional method for dwellings with a service or feeder of 100 A or more: 220.82 (2026: 120.82), in volt-amperes.
 * The first 10 kVA (2026: 8 kVA) of everything but climate at 100 %, the rest at 40 %, and the largest of cooling and
 * heating by 220.82(C).
 */
export function newDwellingLoad(load: ListedLoad, added: AddedLoad, reading: ChargerReading): LoadSum {
  const { firstVA, lightingVAPerFt2 } = NEW_DWELLING[added.edition];
  const parts = [...generalSteps(load, lightingVAPerFt2), ...nameplateSteps(load), ...addedSteps(added, reading)];
  const climate = largestOf([{ name: 'cooling, at 100 %', va: load.cooling?.va ?? 0 }, heatingStep(load.heating)]);
  return tierSum({ parts, firstVA, beside: [climate, ...besideSteps(added, reading)] });
}

/**
 * The optional method for existing dwellings: 220.83 (2026: 120.83, not verified), in volt-amperes. (A) where no
 * heating or cooling is added: everything in the tier, 8 kVA at 100 % and the rest at 40 %; heating and cooling that
 * exist both count, since nothing in (A) drops the smaller, except that a heat pump is one machine. (B) where some is
 * added: the larger of them at 100 % beside the tier.
 */
export function existingDwellingLoad(load: ListedLoad, added: AddedLoad, reading: ChargerReading): LoadSum {
  const { firstVA, lightingVAPerFt2 } = EXISTING_DWELLING;
  const cooling = { name: 'cooling', va: load.cooling?.va ?? 0 };
  const heating = { name: 'heating', va: wholeHeatingVA(load.heating) };
  const oneMachine = load.heating?.kind === 'heat-pump';
  const climateInTier = oneMachine ? [largestOf([cooling, heating])] : [cooling, heating];
  const parts = [
    ...generalSteps(load, lightingVAPerFt2),
    ...nameplateSteps(load),
    ...(load.addingHeatOrCooling ? [] : climateInTier),
    ...addedSteps(added, reading),
  ];
  const beside = load.addingHeatOrCooling ? [largestOf([cooling, heating])] : [];
  return tierSum({ parts, firstVA, beside: [...beside, ...besideSteps(added, reading)] });
}

function nameplateSteps({ appliances = [] }: ListedLoad): LoadStep[] {
  return appliances.map(({ name, va }) => ({ name, va }));
}

function addedSteps({ addedVA, chargerVA }: AddedLoad, reading: ChargerReading): LoadStep[] {
  return [
    { name: 'added', va: addedVA },
    { name: 'chargers', va: reading === 'in-tier' ? chargerVA : 0 },
  ];
}

function besideSteps({ chargerVA }: AddedLoad, reading: ChargerReading): LoadStep[] {
  return reading === 'full' ? [{ name: 'chargers, at 100 %', va: chargerVA }] : [];
}

/**
 * NEC 220.82(C): heat pump 100 % and its strips 65 %; central electric heat 65 %; fewer than four separate units 65 %,
 * four or more 40 %; thermal storage 100 %.
 */
function heatingStep(heating: Heating | undefined): LoadStep {
  if (!heating || heating.kind === 'none') return { name: 'no electric heating', va: 0 };
  const { kind, va, supplementalVA = 0, units = 1 } = heating;
  if (kind === 'heat-pump') {
    return { name: 'heat pump, at 100 %, and its strips, at 65 %', va: va + 0.65 * supplementalVA };
  }
  const wholeVA = va + supplementalVA;
  if (kind === 'thermal-storage') return { name: 'thermal storage, at 100 %', va: wholeVA };
  if (kind === 'separate-units' && units >= 4) {
    return { name: `${units} separate heating units, at 40 %`, va: 0.4 * wholeVA };
  }
  const name = kind === 'central-electric' ? 'central electric heat' : 'separate heating units';
  return { name: `${name}, at 65 %`, va: 0.65 * wholeVA };
}

function largestOf(steps: readonly [LoadStep, LoadStep]): LoadStep {
  return steps[1].va > steps[0].va ? steps[1] : steps[0];
}

function tierSum({
  parts,
  firstVA,
  beside,
}: {
  parts: readonly LoadStep[];
  firstVA: number;
  beside: readonly LoadStep[];
}): LoadSum {
  const present = (steps: readonly LoadStep[]) => steps.filter(({ va }) => va > 0);
  const tierVA = sumVA(parts);
  const first = { name: `the first ${firstVA} VA, at 100 %`, va: Math.min(tierVA, firstVA) };
  const rest = { name: 'the rest, at 40 %', va: Math.max(0, tierVA - firstVA) * REST_SHARE };
  const demandVA = first.va + rest.va + sumVA(beside);
  return {
    demandVA,
    steps: [
      ...present(parts),
      { name: 'together', va: tierVA },
      first,
      ...present([rest, ...beside]),
      { name: 'demand', va: demandVA },
    ],
  };
}
