import type { Run } from '../answer.ts';
import type { Place, PlacedLeg } from '../plan-types.ts';
import type { ConductorSize, Metal } from '../vocabulary.ts';

/**
 * A set of conductors that the option needs, before anybody has chosen how it is laid: what it carries, what protects
 * it, and what it lands on. Currents in amperes, before the 125 % of what lasts three hours.
 */
export interface Circuit {
  name: string;
  role: Run['role'];
  from: string;
  to: string;
  poles: 1 | 2;
  voltageV: 120 | 240;
  loadA: number;
  continuousA: number;
  /** What the voltage drop is figured at: the chargers' amperes where there are any. */
  dropA: number;
  ocpdA: number;
  neutral: boolean;
  separateNeutral: boolean;
  breaker: Run['breaker'];
  disconnect?: Run['disconnect'];
  /** Metals that both ends take and the option asks for, in order of preference. */
  metals: Metal[];
  terminalsC: 60 | 75;
  /** The largest conductor that the equipment at its end takes. */
  largestSize?: ConductorSize;
  /** Does it supply several receptacles for portable loads? Then no device above the conductor's ampacity. */
  severalReceptacles: boolean;
  /** Legs of the route that it follows, from the start; none for a circuit from the subpanel. */
  legs: number[];
  /** Circuits that follow the same legs, itself included, where it is not alone: they share a raceway that is there. */
  circuitsTogether?: number;
  /** From the end of the route, or from the subpanel, to the outlet. */
  tail?: { lengthFt: number; place: Place; ambientC: number; because: string[] };
  /** The option's chargers that hang on it, by index. */
  chargers: number[];
  /** What one of the subpanel's other circuits is for. */
  otherUse?: string;
}

/**
 * The one-way length of a circuit in feet, at one point of what is guessed: its legs with the rises stated for them, and
 * from the end of the route to the outlet. Without makeup and without the climbs at the ends of a ditch.
 */
export function circuitFt(
  { legs, tail }: Pick<Circuit, 'legs' | 'tail'>,
  { route, point }: { route: readonly PlacedLeg[]; point: keyof PlacedLeg['feet'] },
): number {
  const alongFt = legs.reduce((sum, leg) => {
    const placed = route[leg];
    return placed ? sum + placed.feet[point] + placed.stated.riseFt : sum;
  }, 0);
  return alongFt + (tail?.lengthFt ?? 0);
}
