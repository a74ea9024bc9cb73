import type { Edition } from './citations.ts';
import { cite } from './citations.ts';
import type { Finding } from './findings.ts';
import type { BurialLocation, BuriedWiring } from './tables/cover-300-5.ts';
import { COVER_300_5 } from './tables/cover-300-5.ts';

export { BURIED_WIRINGS } from './tables/cover-300-5.ts';
export type { BurialLocation, BuriedWiring };
/** The rows of Table 300.5(A) that a dwelling meets. */
export const BURIAL_LOCATIONS = Object.keys(COVER_300_5.rows) as BurialLocation[];

/**
 * Least cover over buried wiring, in inches, from its top to the finished surface. NEC Table 300.5(A).
 */
export function coverDepthIn({ wiring, location }: { wiring: BuriedWiring; location: BurialLocation }): number {
  return COVER_300_5.rows[location][wiring];
}

/**
 * Which column of Table 300.5(A) a wiring method belongs to. EMT is named in the third only since 2023; it is put
 * there for 2020 too.
 */
export function buriedWiringOf(method: 'uf-b' | 'direct-burial' | 'pvc' | 'emt' | 'rmc'): BuriedWiring {
  if (method === 'rmc') return 'rmc';
  return method === 'pvc' || method === 'emt' ? 'pvc' : 'cable';
}

/**
 * Decides the cover where several rows of Table 300.5(A) could hold: the table does not say which wins, so the deepest
 * does. A local minimum raises it and never lowers it. Inches.
 */
export function deepestCoverIn({
  wiring,
  locations,
  minimumCoverIn = 0,
}: {
  wiring: BuriedWiring;
  locations: readonly BurialLocation[];
  minimumCoverIn?: number | undefined;
}): number {
  return Math.max(minimumCoverIn, ...locations.map((location) => coverDepthIn({ wiring, location })));
}

/**
 * Checks the cover over a buried leg: `ok`, or `stop` and what would do. Inches; legs count from 0. NEC Table
 * 300.5(A).
 */
export function checkCover({
  leg,
  wiring,
  location,
  coverIn,
  edition,
}: {
  leg?: number | undefined;
  wiring: BuriedWiring;
  location: BurialLocation;
  coverIn: number;
  edition: Edition;
}): Finding {
  const leastIn = coverDepthIn({ wiring, location });
  const rule = 'cover';
  const about = {
    rule,
    numbers: { coverIn, leastIn },
    citation: cite(rule, edition),
    ...(leg !== undefined && { leg }),
  };
  if (coverIn >= leastIn) {
    return { ...about, severity: 'ok', message: `${coverIn} in of cover; at least ${leastIn} in is required here.` };
  }
  const message = `${coverIn} in of cover is too little: at least ${leastIn} in is required here. Dig deeper, or choose another wiring method for this leg.`;
  return { ...about, severity: 'stop', message };
}
