import { usableAmpacity } from '../../electrical/ampacity.ts';
import { groundInCable } from '../../electrical/cable-grounds.ts';
import { conductorSuffices } from '../../electrical/conductor.ts';
import { equipmentGroundSize } from '../../electrical/equipment-ground.ts';
import { BeyondTableError } from '../../electrical/errors.ts';
import { type Insulation, sizesOf } from '../../electrical/insulations.ts';
import { compareSizes } from '../../electrical/sizes.ts';
import type { Section } from '../plan-types.ts';
import type { Book } from '../price-book.ts';
import { CONDUCTOR_SIZES, type ConductorSize, type Metal } from '../vocabulary.ts';
import type { Circuit } from './circuit.ts';
import type { LaidPiece, Stretch, Wiring } from './wiring.ts';

/** Above it Chapter 9 Tables 5 and 8 end, and nobody lays a dwelling's circuit. */
const LARGEST_SIZE: ConductorSize = '500';

/** A stretch at a size, as shops sell it; `spare` is an insulated conductor in the cable that nothing needs. */
export interface Wired extends Pick<Section, 'insulation' | 'cable' | 'size' | 'groundSize' | 'groundMetal'> {
  spare: boolean;
}

interface StretchOf {
  circuit: Circuit;
  stretch: Stretch;
  metal: Metal;
}

/** The insulation that the ampacity of a wiring is looked up by: THWN-2 and XHHW-2 have the same columns. */
function ampacityInsulation(wiring: Wiring): Insulation {
  return wiring === 'singles' ? 'thwn-2' : wiring;
}

/** Around a piece, in °C; a tail has the temperature of the site. */
function pieceC({ placed }: LaidPiece, circuit: Circuit): number {
  return placed?.ambientC ?? circuit.tail?.ambientC ?? 30;
}

/** Two conductors of a circuit carry current: a neutral carries only what is not balanced. NEC 310.15(E)(1). */
const OF_ONE_CIRCUIT = 2;

/**
 * Conductors that carry current together: those of the circuit, and in a raceway that is there those of every circuit
 * that follows the route, and all insulated ones that it holds already, to be safe. NEC 310.15(C)(1).
 */
export function currentCarrying({ placed }: Pick<LaidPiece, 'placed'>, circuitsTogether = 1): number {
  if (placed?.stated.kind !== 'existing-raceway') return OF_ONE_CIRCUIT;
  const occupants = placed.stated.occupiedBy ?? [];
  return occupants.reduce(
    (sum, { insulation, count }) => sum + (insulation === 'bare' ? 0 : count),
    OF_ONE_CIRCUIT * circuitsTogether,
  );
}

/** How a piece's conductors lie, for the rules of ampacity. */
function laidAs({ circuit, stretch, metal }: StretchOf, piece: LaidPiece) {
  return {
    metal,
    insulation: ampacityInsulation(stretch.wiring),
    terminalsC: circuit.terminalsC,
    ambientC: pieceC(piece, circuit),
    currentCarrying: currentCarrying(piece, circuit.circuitsTogether),
  };
}

/** The different ways in which conductors lie along a stretch: most of its pieces are alike. */
function conditionsOf(of: StretchOf) {
  const seen = new Map<string, ReturnType<typeof laidAs>>();
  for (const piece of of.stretch.pieces) {
    const laid = laidAs(of, piece);
    seen.set(`${laid.ambientC} ${laid.currentCarrying}`, laid);
  }
  return [...seen.values()];
}

/** May a size carry the circuit as it lies? False, too, where it is too hot for the insulation. */
function suffices({ circuit }: StretchOf, laid: ReturnType<typeof laidAs>, size: ConductorSize): boolean {
  const { loadA, continuousA, ocpdA, role, severalReceptacles } = circuit;
  const supplies = role === 'feeder' ? 'feeder' : 'branch';
  try {
    return conductorSuffices({ size, loadA, continuousA, ocpdA, supplies, severalReceptacles, ...laid });
  } catch (error) {
    if (error instanceof BeyondTableError) return false;
    throw error;
  }
}

/**
 * Sizes that carry the circuit over all of a stretch, smallest first, sold or not. Ampacity grows with size, so what is
 * larger than one that suffices does too.
 */
export function sufficientSizes(of: StretchOf): ConductorSize[] {
  const sizes = plannedSizes(of);
  const conditions = conditionsOf(of);
  const first = sizes.findIndex((size) => conditions.every((laid) => suffices(of, laid, size)));
  return first < 0 ? [] : sizes.slice(first);
}

/** Sizes that a stretch's wiring comes in and that fit the terminals at its end, smallest first, whatever they carry. */
function plannedSizes({ circuit, stretch, metal }: StretchOf): ConductorSize[] {
  const largest = circuit.largestSize ?? LARGEST_SIZE;
  return sizesOf(ampacityInsulation(stretch.wiring), metal).filter(
    (size) => compareSizes(size, LARGEST_SIZE) <= 0 && compareSizes(size, largest) <= 0,
  );
}

/** Cool and alone, as a conductor mostly lies. */
const USUALLY = { ambientC: 30, currentCarrying: OF_ONE_CIRCUIT } as const;

/**
 * The size that a stop is said of where none carries the circuit as it lies: what would do cool and alone, else the
 * largest that the wiring comes in. Nothing where the terminals take none.
 */
export function usualSize(of: StretchOf): ConductorSize | undefined {
  const { metal, circuit, stretch } = of;
  const { terminalsC } = circuit;
  const laid = { metal, insulation: ampacityInsulation(stretch.wiring), terminalsC, ...USUALLY };
  const sizes = plannedSizes(of);
  return sizes.find((size) => suffices(of, laid, size)) ?? sizes.at(-1);
}

/** The least ampacity along a stretch at a size, in amperes; 0 where it is too hot for the insulation. */
export function stretchAmpacityA(of: StretchOf, size: ConductorSize): number {
  const ampacities = conditionsOf(of).map((laid) => {
    try {
      return usableAmpacity({ ...laid, size }).ampacityA;
    } catch (error) {
      if (error instanceof BeyondTableError) return 0; // a stop says so
      throw error;
    }
  });
  return Math.min(...ampacities);
}

/**
 * A stretch at a size as the book sells it, with its equipment ground by 250.122: the cable's own, or a conductor of its
 * own beside singles. Nothing where it is not sold, or where a cable's ground is too small for conductors enlarged
 * against voltage drop (250.122(B)).
 * @param fromSize  the smallest size that would do on this stretch
 */
export function wiredAt(
  of: StretchOf & { book: Book; fromSize: ConductorSize },
  size: ConductorSize,
): Wired | undefined {
  switch (of.stretch.wiring) {
    case 'singles':
      return singlesAt(of, size, of.metal === 'copper' ? ['thwn-2', 'xhhw-2'] : ['xhhw-2', 'thwn-2']);
    case 'use-2':
      return of.metal === 'aluminum' && of.circuit.neutral
        ? (cableAt(of, size, 'mhf') ?? singlesAt(of, size, ['use-2']))
        : (singlesAt(of, size, ['use-2']) ?? cableAt(of, size, 'mhf'));
    default:
      return cableAt(of, size, of.stretch.wiring);
  }
}

type At = StretchOf & { book: Book; fromSize: ConductorSize };

/** The least ground of a metal at a size of the circuit, never larger than the circuit's conductors. NEC 250.122(A), (B). */
function leastGround({ circuit, fromSize }: At, size: ConductorSize, metal: Metal): ConductorSize {
  const least = equipmentGroundSize({ ocpdA: circuit.ocpdA, metal, enlarged: { fromSize, toSize: size } });
  return compareSizes(least, size) > 0 ? size : least;
}

function cableAt(at: At, size: ConductorSize, form: NonNullable<Section['cable']>['form']): Wired | undefined {
  const { circuit, metal, book } = at;
  const groundSize = groundInCable({ form, size });
  if (!groundSize || compareSizes(groundSize, leastGround(at, size, metal)) < 0) return undefined;
  const needed = circuit.neutral && circuit.poles === 2 ? 3 : 2;
  const conductors = ([2, 3] as const).find(
    (count) => count >= needed && book.bySpec({ is: 'cable', form, metal, size, conductors: count }) !== undefined,
  );
  if (!conductors) return undefined;
  const insulation = form === 'mhf' ? 'use-2' : form;
  return { insulation, cable: { form, conductors }, size, groundSize, groundMetal: metal, spare: conductors > needed };
}

function singlesAt(
  at: At,
  size: ConductorSize,
  insulations: readonly ('thwn-2' | 'xhhw-2' | 'use-2')[],
): Wired | undefined {
  for (const insulation of insulations) {
    if (!at.book.bySpec({ is: 'conductor', insulation, metal: at.metal, size })) continue;
    const ground = groundBeside(at, size, insulation);
    if (ground) return { insulation, size, ...ground, spare: false };
  }
  return undefined;
}

/**
 * The ground beside single conductors: of their metal and insulation where that is sold no larger than they are, else of
 * copper.
 */
function groundBeside(at: At, size: ConductorSize, insulation: 'thwn-2' | 'xhhw-2' | 'use-2') {
  const metals: Metal[] = at.metal === 'copper' ? ['copper'] : ['aluminum', 'copper'];
  for (const groundMetal of metals) {
    const least = leastGround(at, size, groundMetal);
    const groundSize = CONDUCTOR_SIZES.find(
      (one) =>
        compareSizes(one, least) >= 0 &&
        compareSizes(one, size) <= 0 &&
        at.book.bySpec({ is: 'conductor', insulation, metal: groundMetal, size: one }) !== undefined,
    );
    if (groundSize) return { groundSize, groundMetal };
  }
  return undefined;
}
