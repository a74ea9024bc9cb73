import { BeyondTableError, RefusedInputError } from './errors.ts';
import type { ConductorSize, Metal } from './sizes.ts';
import { circularMils, sizesBetween } from './sizes.ts';
import { CONDUCTOR_PROPERTIES_CH9_8 } from './tables/conductor-properties-ch9-8.ts';
import { IMPEDANCE_CH9_9 } from './tables/impedance-ch9-9.ts';

/** How the resistance of the way is had. */
export const DROP_METHODS = ['dc-resistance', 'k-factor', 'impedance'] as const;
export type DropMethod = (typeof DROP_METHODS)[number];
/** What the raceway is made of, for `impedance`. */
export const DROP_CONDUITS = ['pvc', 'aluminum', 'steel'] as const;
export type DropConduit = (typeof DROP_CONDUITS)[number];

/**
 * Ohms × circular mils per foot at 75 °C: Chapter 9 Table 8, stranded, times circular mils, rounded as the trade does.
 */
export const K_FACTOR = { copper: 12.9, aluminum: 21.2 } as const;
/**
 * Advice of the code's informational notes, in percent: a feeder or a branch circuit, and both together. NEC 210.19,
 * 215.2.
 */
export const ADVISED_DROP_PERCENT = { each: 3, together: 5 } as const;

/** A way and what flows in it. */
export interface DropQuestion {
  /** Between the conductors that carry the load, in volts. */
  voltageV: number;
  /** 1: two conductors there and back. 3: √3 between three lines. */
  phases?: 1 | 3 | undefined;
  currentA: number;
  /** One way, in feet. */
  lengthFt: number;
  metal: Metal;
  method: DropMethod;
  /** For `k-factor`, in ohm-circular-mils per foot. */
  kFactor?: number | undefined;
  conduit?: DropConduit | undefined;
  /** Cosine, 0 to 1, for `impedance`. */
  powerFactor?: number | undefined;
  /** Conductors in parallel on each line. */
  parallel?: number | undefined;
}

/** Volts lost on the way, in percent of the voltage, what is left at the end, and the size that gives it. */
export interface DropAnswer {
  dropV: number;
  percent: number;
  endV: number;
  size: ConductorSize;
}

/**
 * Volts lost over a size. Two conductors lose 2 × I × R × length, three lines √3 × I × R × length.
 * @throws {BeyondTableError} for a size that Table 8 or 9 does not have
 */
export function voltageDrop(question: DropQuestion & { size: ConductorSize }): DropAnswer {
  const { voltageV, phases = 1, currentA, lengthFt, parallel = 1, size } = question;
  const conductors = phases === 3 ? Math.sqrt(3) : 2;
  const dropV = (conductors * currentA * ohmPerKft(question) * (lengthFt / 1000)) / parallel;
  return { dropV, percent: (100 * dropV) / voltageV, endV: voltageV - dropV, size };
}

/**
 * The smallest size that keeps a drop, in percent of the voltage. Ampacity is another question.
 * @throws {BeyondTableError} where not even 500 kcmil keeps it
 */
export function smallestSizeForDrop(question: DropQuestion & { maxPercent: number }): DropAnswer {
  const sizes = sizesBetween({ from: question.metal === 'copper' ? '14' : '12', to: '500' });
  for (const size of sizes) {
    const drop = voltageDrop({ ...question, size });
    if (drop.percent <= question.maxPercent * (1 + 1e-12)) return drop;
  }
  const least = voltageDrop({ ...question, size: '500' });
  throw new BeyondTableError({
    table: question.method === 'impedance' ? 'Chapter 9 Table 9' : 'Chapter 9 Table 8',
    field: 'maxPercent',
    value: question.maxPercent,
    allowed: `at least ${Math.ceil(least.percent * 100) / 100} percent, which 500 kcmil ${question.metal} keeps here; or use more in parallel`,
  });
}

/**
 * The drop over a size that is given, or over the smallest that keeps `maxPercent`.
 * @throws {RefusedInputError} at `size` where neither is given
 */
export function dropOrSize(
  question: DropQuestion & { size?: ConductorSize | undefined; maxPercent?: number | undefined },
): DropAnswer {
  const { size, maxPercent } = question;
  if (size !== undefined) return voltageDrop({ ...question, size });
  if (maxPercent !== undefined) return smallestSizeForDrop({ ...question, maxPercent });
  throw new RefusedInputError({ field: 'size', value: size, allowed: 'given, or else maxPercent' });
}

/** Ohms of one conductor over 1,000 ft, by the method asked for. */
function ohmPerKft(question: DropQuestion & { size: ConductorSize }): number {
  const { metal, size, method } = question;
  if (method === 'dc-resistance') return dcOhmPerKft({ metal, size });
  if (method === 'k-factor') return ((question.kFactor ?? K_FACTOR[metal]) * 1000) / circularMils(size);
  return acOhmPerKft({ metal, size, conduit: question.conduit ?? 'pvc', powerFactor: question.powerFactor ?? 0.85 });
}

/**
 * Direct-current resistance at 75 °C of the stranded conductor, in ohms per 1,000 ft. NEC Chapter 9 Table 8.
 * @throws {BeyondTableError} above 500 kcmil
 */
export function dcOhmPerKft({ metal, size }: { metal: Metal; size: ConductorSize }): number {
  const row = CONDUCTOR_PROPERTIES_CH9_8.rows.find((one) => one[0] === size && one[1] === 'stranded');
  if (row) return metal === 'copper' ? row[6] : row[7];
  throw new BeyondTableError({
    table: 'Chapter 9 Table 8',
    field: 'size',
    value: size,
    allowed: '14 AWG to 500 kcmil',
  });
}

/**
 * Effective impedance at a power factor, R cos φ + X sin φ, in ohms to neutral per 1,000 ft. NEC Chapter 9 Table 9,
 * its R and X, not its printed Z: note 2 there gives this formula for other power factors.
 * @throws {BeyondTableError} above 500 kcmil, and for 14 AWG aluminum
 */
export function acOhmPerKft({
  metal,
  size,
  conduit,
  powerFactor,
}: {
  metal: Metal;
  size: ConductorSize;
  conduit: DropConduit;
  powerFactor: number;
}): number {
  const row = IMPEDANCE_CH9_9.rows.find(([rowSize]) => rowSize === size);
  const columns = { copper: { pvc: 3, aluminum: 4, steel: 5 }, aluminum: { pvc: 6, aluminum: 7, steel: 8 } } as const;
  const resistance = row?.[columns[metal][conduit]];
  if (!row || typeof resistance !== 'number') {
    const allowed = metal === 'copper' ? '14 AWG to 500 kcmil in copper' : '12 AWG to 500 kcmil in aluminum';
    throw new BeyondTableError({ table: 'Chapter 9 Table 9', field: 'size', value: size, allowed });
  }
  const reactance = conduit === 'steel' ? row[2] : row[1];
  return resistance * powerFactor + reactance * Math.sqrt(Math.max(0, 1 - powerFactor ** 2));
}
