/*
 * What is to be cut and what it can be cut of, in the numbers that the search works with: whole millionths of a foot,
 * so that no sum of pieces misses a coil by binary dust.
 */

/** A coil of so many feet at the price of the coil, or sold by the foot (`null`) at the price of a foot. */
export interface LengthOffer {
  lengthFt: number | null;
  priceCents: number;
}

/** So many parts of a foot is a length counted in. */
export const PARTS_OF_A_FOOT = 1_000_000;

export interface Coil {
  /** Index of the offer. */
  offer: number;
  length: number;
  cents: number;
}
/** What a piece costs by itself: by the foot, or in the cheapest coil that holds it. */
export interface Single {
  offer: number;
  cents: number;
}
export interface CuttingJob {
  /** Distinct lengths, longest first. */
  lengths: number[];
  /** How many of each. */
  counts: number[];
  /** Shortest first, each dearer than the one before. */
  coils: Coil[];
  /** The price of a foot, where it is sold by the foot. */
  footCents?: number;
  /** By the foot, each length; empty where nothing is sold by the foot. */
  byFoot: Single[];
  singles: Single[];
  /** Are all prices whole cents? Then so is every cost. */
  wholeCents: boolean;
}

/**
 * Reads lengths in feet and prices in cents.
 * @returns nothing where a piece is longer than every coil and none is sold by the foot
 */
export function cuttingJob(pieces: readonly number[], offers: readonly LengthOffer[]): CuttingJob | undefined {
  const all = pieces.map((feet) => Math.round(feet * PARTS_OF_A_FOOT));
  const lengths = [...new Set(all)].sort((a, b) => b - a);
  const coils = usefulCoils(offers);
  const foot = cheapestFoot(offers);
  const byFoot = foot ? lengths.map((length) => byTheFoot(foot, length)) : [];
  const singles = lengths.flatMap(
    (length, at) =>
      single(
        byFoot[at],
        coils.find((coil) => coil.length >= length),
      ) ?? [],
  );
  if (singles.length < lengths.length) return undefined;
  return {
    lengths,
    counts: lengths.map((length) => all.filter((piece) => piece === length).length),
    coils,
    ...(foot && { footCents: foot.cents }),
    byFoot,
    singles,
    wholeCents: offers.every(({ priceCents }) => Number.isInteger(priceCents)),
  };
}

/** The coils that are worth a look: no other one is as long for no more money. Of equal ones, the first stated. */
function usefulCoils(offers: readonly LengthOffer[]): Coil[] {
  const coils = offers.flatMap(({ lengthFt, priceCents }, offer): Coil[] =>
    lengthFt === null ? [] : [{ offer, length: Math.round(lengthFt * PARTS_OF_A_FOOT), cents: priceCents }],
  );
  const longestFirst = coils.sort((a, b) => b.length - a.length || a.cents - b.cents || a.offer - b.offer);
  let cheapest = Number.POSITIVE_INFINITY;
  const useful = longestFirst.filter(({ cents }) => {
    const saves = cents < cheapest;
    cheapest = Math.min(cheapest, cents);
    return saves;
  });
  return useful.reverse();
}

/** Of equal ones, the first stated. */
function cheapestFoot(offers: readonly LengthOffer[]): Single | undefined {
  const feet = offers.flatMap(({ lengthFt, priceCents }, offer) =>
    lengthFt === null ? [{ offer, cents: priceCents }] : [],
  );
  return feet.sort((a, b) => a.cents - b.cents || a.offer - b.offer)[0];
}

/** A piece by the foot is cut in whole feet. */
function byTheFoot({ offer, cents }: Single, length: number): Single {
  return { offer, cents: Math.ceil(length / PARTS_OF_A_FOOT) * cents };
}

function single(byFoot: Single | undefined, coil: Coil | undefined): Single | undefined {
  return coil && !(byFoot && byFoot.cents <= coil.cents) ? { offer: coil.offer, cents: coil.cents } : byFoot;
}
