import { cite, type RuleKey } from '../../electrical/citations.ts';
import type { MethodAnswer } from '../../electrical/wiring-methods.ts';
import type { Finding } from '../answer.ts';
import type { Description, DescriptionOption, PlacedCharger } from '../description.ts';
import type { PlacedLeg } from '../plan-types.ts';
import type { Book } from '../price-book.ts';
import type { Edition } from '../vocabulary.ts';

/** A charger whose amperes are settled: `largest` has become a number. */
export type SettledCharger = PlacedCharger & { amps: number };

/** An option whose chargers are settled. */
export type SettledOption = Omit<DescriptionOption, 'chargers'> & { chargers: SettledCharger[] };

/** What every part of the planner looks at: the option, its route with places, and what shops sell. */
export interface Job {
  description: Description;
  option: SettledOption;
  route: PlacedLeg[];
  book: Book;
  edition: Edition;
  /** Where the route begins: the main panel, or a subpanel that is there already. */
  start: 'main panel' | 'existing subpanel';
  /** Lowest rating of the terminations at the start and at the end of the route, in °C. */
  terminalsC: 60 | 75;
  /** Does the route end at a building or structure of its own, in the sense of Article 225? */
  separate: boolean;
  /** What has been asked of methods and places already: the same few questions come up for every leg of every plan. */
  verdicts: Map<string, MethodAnswer>;
}

/** Lowest rating of the terminations at the start and at the end of the route, in °C. NEC 110.14(C)(1). */
export function routeTerminalsC({ site }: Description): 60 | 75 {
  return site.start?.terminalsC === 60 ? 60 : site.code.terminalsC;
}

/** The parts of a finding, with the rule of the code book in place of its article. */
export interface FindingParts extends Omit<Finding, 'citation' | 'numbers'> {
  numbers?: Finding['numbers'];
  cites?: RuleKey;
}

/** Makes a finding that cites the edition asked for. */
export function findingOf(edition: Edition, { cites, numbers = {}, ...parts }: FindingParts): Finding {
  return { ...parts, numbers, ...(cites && { citation: cite(cites, edition) }) };
}

/** Amperes as people read them: at most one decimal. */
export function amperes(valueA: number): string {
  return `${Math.round(valueA * 10) / 10} A`;
}
