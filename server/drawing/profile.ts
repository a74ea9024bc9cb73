import type { Leg } from '../estimate/description/leg.ts';
import { likelyFt } from '../estimate/leg-costs.ts';
import { isDitch, type LegKind } from '../estimate/vocabulary.ts';

/** What is below the floor of an indoor stretch. */
export type Under = 'basement' | 'crawl' | 'slab';

/** A leg as it lies in the section: horizontally to scale, its height in feet above the ground. */
export interface Stretch {
  index: number;
  leg: Leg;
  lengthFt: number;
  x0: number;
  x1: number;
  place: 'house' | 'outdoors' | 'end-building';
  under: Under;
  /** Where the route runs, in feet above the ground; below it negative. */
  routeFt: number;
  /** Cover over the run in inches, where it lies in the ground. */
  coverIn?: number;
}

/** The route laid out on the sheet. */
export interface Profile {
  stretches: Stretch[];
  x0: number;
  x1: number;
  ptPerFtAlong: number;
  /** Does the house have a floor above a basement or crawlspace, and which, where the route starts? */
  startUnder: Under;
}

/** Heights in feet above the ground. Where nobody states one, these are what a house of common make has: no source. */
export const HEIGHT_FT = {
  floor: 1,
  joistBottom: 0.1,
  basementFloor: -7,
  crawlFloor: -2.6,
  underJoists: -0.4,
  outlet: 2.2,
  surface: 4.6,
  atticFloor: 9,
  roof: 13.4,
  deck: 2.6,
  deckRoute: 1.9,
  wallOutside: 3,
  span: 12,
  bore: -3,
} as const;

/** What a cover is taken to be where the plan says none, in inches: the common one for plastic conduit. */
const USUAL_COVER_IN = 18;
/** Points a foot along the route at most, so that a short route does not fill the sheet with nothing. */
const MOST_PT_PER_FT = 12;

const OUTDOORS: readonly LegKind[] = ['exterior-wall', 'under-deck', 'bore', 'overhead-span'];

/** Does the leg run outdoors? */
export function isOutdoors({ kind, place }: Pick<Leg, 'kind' | 'place'>): boolean {
  if (kind === 'existing-raceway') return place === 'outdoor' || place === 'underground';
  return isDitch(kind) || OUTDOORS.includes(kind);
}

/** Does the run lie in the ground there? */
export function isBuried({ kind, place }: Pick<Leg, 'kind' | 'place'>): boolean {
  return isDitch(kind) || kind === 'bore' || (kind === 'existing-raceway' && place === 'underground');
}

interface Layout {
  route: readonly Leg[];
  /** Cover in inches by leg, as planned. */
  coverIn: ReadonlyMap<number, number>;
  leftX: number;
  rightX: number;
}

/** Lays the legs out between two abscissas, to one scale. */
export function profileOf({ route, coverIn, leftX, rightX }: Layout): Profile {
  const wholeFt = route.reduce((sum, leg) => sum + likelyFt(leg), 0);
  const ptPerFtAlong = wholeFt > 0 ? Math.min((rightX - leftX) / wholeFt, MOST_PT_PER_FT) : MOST_PT_PER_FT;
  const unders = undersOf(route);
  const outdoors = route.map(isOutdoors);
  const firstOut = outdoors.indexOf(true);
  const lastOut = outdoors.lastIndexOf(true);
  const sparePt = rightX - leftX - wholeFt * ptPerFtAlong;
  const startX = leftX + sparePt / 2;
  let x = startX;
  const stretches = route.map((leg, index): Stretch => {
    const lengthFt = likelyFt(leg);
    const x0 = x;
    x += lengthFt * ptPerFtAlong;
    const beyond = firstOut >= 0 && index > lastOut;
    const place = outdoors[index] ? 'outdoors' : beyond ? 'end-building' : 'house';
    const under = place === 'end-building' ? 'slab' : (unders[index] ?? 'slab');
    const buried = isBuried(leg);
    const coverHereIn = buried ? (coverIn.get(index) ?? leg.coverIn ?? USUAL_COVER_IN) : undefined;
    return {
      index,
      leg,
      lengthFt,
      x0,
      x1: x,
      place,
      under,
      routeFt: routeHeightFt({ leg, under, ...(coverHereIn !== undefined && { coverIn: coverHereIn }) }),
      ...(coverHereIn !== undefined && coverIn.has(index) && { coverIn: coverHereIn }),
    };
  });
  return { stretches, x0: startX, x1: x, ptPerFtAlong, startUnder: unders[0] ?? 'slab' };
}

/** What is below each leg's floor: some kinds tell, the others are like the one before them, or else the next. */
function undersOf(route: readonly Leg[]): Under[] {
  const told = route.map(({ kind }): Under | undefined => {
    if (kind === 'joists' || kind === 'finished-ceiling') return 'basement';
    return kind === 'crawlspace' ? 'crawl' : undefined;
  });
  const first = told.find((under) => under !== undefined) ?? 'slab';
  let last = first;
  return told.map((under) => {
    last = under ?? last;
    return last;
  });
}

function routeHeightFt({ leg, under, coverIn }: { leg: Leg; under: Under; coverIn?: number }): number {
  switch (leg.kind) {
    case 'joists':
    case 'finished-ceiling':
      return 0.5;
    case 'crawlspace':
      return HEIGHT_FT.underJoists;
    case 'attic':
      return HEIGHT_FT.atticFloor + 0.4;
    case 'finished-wall':
      return HEIGHT_FT.outlet;
    case 'interior-surface':
      return under === 'basement' ? HEIGHT_FT.underJoists - 0.6 : HEIGHT_FT.surface;
    case 'exterior-wall':
      return HEIGHT_FT.wallOutside;
    case 'under-deck':
      return HEIGHT_FT.deckRoute;
    case 'overhead-span':
      return HEIGHT_FT.span;
    case 'bore':
      return coverIn === undefined ? HEIGHT_FT.bore : -coverIn / 12;
    case 'existing-raceway':
      if (leg.place === 'underground') return -(coverIn ?? USUAL_COVER_IN) / 12;
      return leg.place === 'outdoor' ? HEIGHT_FT.wallOutside : HEIGHT_FT.surface;
    default:
      return -(coverIn ?? USUAL_COVER_IN) / 12;
  }
}
