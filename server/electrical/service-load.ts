import type { Edition } from './citations.ts';
import { RefusedInputError } from './errors.ts';
import { evseLoadVA } from './evse-load.ts';
import type { ChargerReading } from './load-optional.ts';
import { chargerReadingOf, existingDwellingLoad, newDwellingLoad } from './load-optional.ts';
import { standardLoad } from './load-standard.ts';
import type { AddedLoad, ListedLoad, LoadStep, LoadSum } from './load-types.ts';
import { reaches } from './overcurrent.ts';

export type { ChargerReading };

/** Article 220 Part III, 220.82, 220.83 and 220.87. */
export const LOAD_METHODS = ['standard', 'new-dwelling', 'existing-dwelling', 'measured'] as const;
export type LoadMethod = (typeof LOAD_METHODS)[number];

/** Volts between the hots of a dwelling's service, which all demands in amperes stand on. */
export const SERVICE_V = 240;
/** Days that a measurement must cover at least. NEC 220.87 exception. */
export const LEAST_MEASURED_DAYS = 30;
/** A measured peak counts so many times. NEC 220.87(1). */
export const MEASURED_FACTOR = 1.25;
/** Least service that 220.82 is for, in amperes. */
const OPTIONAL_FROM_A = 100;

interface Common {
  serviceA: number;
  /** Volt-amperes added: inside the tier of 220.82 and 220.83, at 100 % elsewhere. */
  addedVA?: number | undefined;
  /** Chargers in volt-amperes, by nameplate or setting; 220.57 of 2023 lifts them to 7,200. */
  chargerVA?: number | undefined;
  chargerReading?: ChargerReading | undefined;
  edition?: Edition | undefined;
}

/** A dwelling's load, by one of the four methods. */
export type ServiceLoadQuestion =
  | (Common & ListedLoad & { method: 'standard' | 'new-dwelling' | 'existing-dwelling' })
  | (Common & { method: 'measured'; peakA: number; days: number });

/** A demand against the service. Amperes at 240 V; `spareA` below 0 where it does not fit. */
export interface Demand {
  demandVA: number;
  demandA: number;
  fits: boolean;
}

/** The demand with its steps; the other lawful reading of the charger's share where there is one. */
export interface ServiceLoadAnswer extends Demand {
  spareA: number;
  steps: LoadStep[];
  otherReading?: Demand & { reading: ChargerReading };
  /** What bears on how far the figure may be trusted; sentences for a reader. */
  notes: string[];
}

/**
 * Decides what a dwelling's service carries, by the method asked for, in volt-amperes and in amperes at 240 V. NEC
 * Article 220 Part III, 220.82, 220.83, 220.87 (2026: Article 120). Chargers count by 220.57, at 100 %: breaker and
 * wire of the charger still take 125 %.
 * @throws {RefusedInputError} for a measurement of less than 30 days
 * @throws {BeyondTableError} past the tables of the standard method
 */
export function serviceLoad(question: ServiceLoadQuestion): ServiceLoadAnswer {
  const { serviceA, edition = '2023', method } = question;
  const nameplateVA = question.chargerVA ?? 0;
  const chargerVA = nameplateVA > 0 ? evseLoadVA({ nameplateVA, edition }) : 0;
  const added = { addedVA: question.addedVA ?? 0, chargerVA, edition };
  const reading = chargerReadingOf(question.chargerReading ?? 'full', edition);
  const { demandVA, steps } = loadBy(question, added, reading);
  const against = (va: number): Demand => ({
    demandVA: va,
    demandA: va / SERVICE_V,
    fits: reaches(serviceA, va / SERVICE_V),
  });
  const { demandA, fits } = against(demandVA);
  const answer = { demandVA, demandA, fits, spareA: serviceA - demandA, steps, notes: notesOf(question) };
  const hasTier = method === 'new-dwelling' || method === 'existing-dwelling';
  if (!hasTier || chargerVA === 0 || edition === '2026') return answer;
  const other = reading === 'full' ? 'in-tier' : 'full';
  return { ...answer, otherReading: { ...against(loadBy(question, added, other).demandVA), reading: other } };
}

function loadBy(question: ServiceLoadQuestion, added: AddedLoad, reading: ChargerReading): LoadSum {
  if (question.method === 'measured') return measuredLoad(question, added);
  if (question.method === 'standard') return standardLoad(question, added);
  if (question.method === 'new-dwelling') return newDwellingLoad(question, added, reading);
  return existingDwellingLoad(question, added, reading);
}

/**
 * NEC 220.87: 125 % of the measured peak, and what is added, in volt-amperes.
 * @throws {RefusedInputError} for less than 30 days
 */
function measuredLoad({ peakA, days }: { peakA: number; days: number }, { addedVA, chargerVA }: AddedLoad): LoadSum {
  if (days < LEAST_MEASURED_DAYS) {
    const allowed = `at least ${LEAST_MEASURED_DAYS} days of measurement`;
    throw new RefusedInputError({ field: 'days', value: days, allowed });
  }
  const peakVA = peakA * SERVICE_V;
  const raisedVA = peakVA * MEASURED_FACTOR;
  const demandVA = raisedVA + addedVA + chargerVA;
  const steps = [
    { name: `measured peak of ${peakA} A`, va: peakVA },
    { name: 'the same, at 125 %', va: raisedVA },
    { name: 'added, at 100 %', va: addedVA },
    { name: 'chargers, at 100 %', va: chargerVA },
    { name: 'demand', va: demandVA },
  ];
  return { demandVA, steps: steps.filter(({ name, va }) => va > 0 || name === 'demand') };
}

function notesOf(question: ServiceLoadQuestion): string[] {
  const notes: string[] = [];
  if (question.method === 'new-dwelling' && question.serviceA < OPTIONAL_FROM_A) {
    notes.push(
      `The optional method for dwellings is for ${OPTIONAL_FROM_A} A and more, not for ${question.serviceA} A.`,
    );
  }
  if (question.method === 'measured' && question.days < 365) {
    notes.push(
      'Less than a year was measured: the 30 days must be occupied ones in 15-minute averages on the most loaded leg, and the larger of heating and cooling is added where they do not show it.',
    );
  }
  if (question.method === 'existing-dwelling' && !question.addingHeatOrCooling && bothClimates(question)) {
    notes.push('Existing heating and existing cooling both count here; some inspectors let the smaller one go.');
  }
  return notes;
}

function bothClimates({ heating, cooling }: ListedLoad): boolean {
  const heats = heating !== undefined && heating.kind !== 'none' && heating.kind !== 'heat-pump' && heating.va > 0;
  return heats && (cooling?.va ?? 0) > 0;
}
