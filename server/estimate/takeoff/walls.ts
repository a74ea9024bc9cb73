import type { PlannedOption } from '../plan-types.ts';
import type { RacewayType, Scope, TradeSize } from '../vocabulary.ts';
import { type Demands, joined, materials, named, rental, work } from './demand.ts';
import { indoorFactors } from './factors.ts';
import { riserTradeSize, sleeveTradeSize } from './risers.ts';
import { tradeSizeIn } from './sizes.ts';
import { isInside, isOpened, type Joint, type Stretch, type Wall, type Way } from './way.ts';

/** Walls that ask for a masonry bit. */
const MASONRY: readonly Wall[] = ['brick', 'block', 'poured-concrete', 'stone'];
/** Walls in which an opening of 2 in and more is cored. Common practice, no source. */
const CORED: readonly Wall[] = ['poured-concrete', 'stone'];
const CORED_FROM_IN = 2;
/** Raceway through the wall behind an entry body, in feet. Common practice, no source. */
const NIPPLE_FT = 1;
/** A pound of duct seal, and a tube of sealant, for so many entries. Common practice, no source. */
const ENTRIES_PER = { ductSeal: 2, caulk: 4 };
const SCOPE: Scope = 'conduit';

/** Every wall that a run passes: entry body, sleeve and seal where it leaves or enters a house, else the hole. */
export function wallDemands({ plan, way }: { plan: PlannedOption; way: Way }): Demands {
  return joined(way.joints.map((joint) => wallAt({ plan, way, joint })));
}

/** The wall that is passed at a joint, if any. */
export function wallAt({ plan, way, joint }: { plan: PlannedOption; way: Way; joint: Joint }): Demands {
  const { wall } = joint;
  if (!wall) return joined([]);
  return joint.leavesHouse ? entry({ plan, way, joint, wall }) : innerWall(plan, joint, wall);
}

interface EntryParts {
  plan: PlannedOption;
  way: Way;
  joint: Joint;
  wall: Wall;
}

/** The raceway that an entry is made of: that of the outdoor side, its riser or sleeve; else that of the inside. */
function entryConduit(way: Way, { before, after }: Joint): { type: RacewayType; tradeSize: TradeSize } {
  const sides = [before, after].flatMap((stretch) => (stretch ? [stretch] : []));
  const outer = sides.find(({ place }) => !isInside(place));
  if (outer?.conduit) return outerConduit(way, outer, outer.conduit);
  if (outer) return { type: 'pvc-40', tradeSize: sleeveTradeSize(outer.section) };
  const inner = sides[0];
  return inner?.conduit ?? { type: 'pvc-40', tradeSize: sleeveTradeSize(inner?.section) };
}

function outerConduit(way: Way, stretch: Stretch, { type, tradeSize }: NonNullable<Stretch['conduit']>) {
  if (type === 'emt' || type === 'rmc') return { type, tradeSize };
  // An existing raceway has its riser already; a new one comes up in schedule 80, which may be a size larger.
  const comesUp = isOpened(stretch) && !stretch.existing;
  return { type: 'pvc-40' as const, tradeSize: comesUp ? riserTradeSize(way, stretch.section, tradeSize) : tradeSize };
}

function entry({ plan, way, joint, wall }: EntryParts): Demands {
  const { type, tradeSize } = entryConduit(way, joint);
  const fittingType = type === 'pvc-80' ? 'pvc-40' : type; // one line of fittings serves both schedules
  const { legs } = joint;
  const because = `through the ${wall} wall between inside and outside`;
  const fitting = (piece: string, description: string) =>
    materials({
      spec: { is: 'fitting', type: fittingType, tradeSize, piece },
      description: `${description} ${tradeSize} in`,
      scope: SCOPE,
      quantity: 1,
      legs,
      because,
    });
  return joined([
    fitting('lb', 'entry body (LB) with cover and gasket'),
    materials({
      spec: { is: 'raceway', type, tradeSize },
      description: `raceway ${tradeSize} in`,
      scope: SCOPE,
      unit: 'ft',
      quantity: NIPPLE_FT,
      legs,
      because: `${NIPPLE_FT} ft ${because}`,
    }),
    ...insideEnd(joint, fittingType).map(([piece, description]) => fitting(piece, description)),
    seals(joint, wall),
    entryWork({ plan, way, joint, wall }, tradeSize),
  ]);
}

/**
 * What the raceway through a wall ends in inside: PVC takes the thread of steel raceway that goes on there, or goes on in
 * PVC; where a box or panel stands behind the wall, or cable comes through, it ends in a locknut and bushing.
 */
function insideEnd(
  { before, after, splice }: Joint,
  type: Exclude<RacewayType, 'pvc-80'>,
): [piece: string, description: string][] {
  const nut: [string, string] = ['locknut-bushing', 'locknut and bushing'];
  if (type !== 'pvc-40') return [nut];
  const inner = [before, after].find((stretch) => stretch && isInside(stretch.place));
  const goesOn = splice ? undefined : inner?.conduit?.type;
  if (goesOn === 'emt' || goesOn === 'rmc') return [['female-adapter', 'PVC adapter for the thread of steel raceway']];
  if (goesOn) return [['coupling', 'PVC coupling']];
  return [['male-adapter', 'PVC adapter'], nut];
}

function seals({ legs }: Joint, wall: Wall): Demands {
  const because = 'keeps water, air and gas out of the house';
  return joined([
    named({
      name: 'duct-seal',
      description: 'duct seal, 1 lb',
      scope: SCOPE,
      quantity: 1 / ENTRIES_PER.ductSeal,
      legs,
      because: `${because}: a pound for ${ENTRIES_PER.ductSeal} entries`,
    }),
    named({
      name: 'caulk-exterior',
      description: 'exterior sealant, tube',
      scope: SCOPE,
      quantity: 1 / ENTRIES_PER.caulk,
      legs,
      because: `${because}: a tube for ${ENTRIES_PER.caulk} entries`,
    }),
    firestop(wall, legs),
  ]);
}

function firestop(wall: Wall, legs: number[]): Demands {
  return named({
    name: 'firestop-putty',
    description: 'fire-stop sealant, tube',
    scope: SCOPE,
    quantity: wall === 'fire-rated' ? 1 : 0,
    legs,
    because: 'the wall between garage and house keeps its fire rating',
  });
}

function entryWork({ plan, joint, wall }: EntryParts, tradeSize: TradeSize): Demands {
  const { legs } = joint;
  const factors = indoorFactors(plan);
  const because = `through a ${wall} wall`;
  if (!MASONRY.includes(wall))
    return work({ task: 'wall-entry-wood', scope: SCOPE, quantity: 1, factors, legs, because });
  return joined([
    work({ task: 'wall-entry-masonry', scope: SCOPE, quantity: 1, factors, legs, because }),
    work({
      task: 'core-drill-foundation',
      scope: SCOPE,
      unit: 'hole',
      quantity: isCored(wall, tradeSize) ? 1 : 0,
      legs,
      because: `${because}, cored for ${tradeSize} in`,
    }),
  ]);
}

/** Is the opening cored with a rig rather than drilled by hand? */
function isCored(wall: Wall, tradeSize: TradeSize): boolean {
  return CORED.includes(wall) && tradeSizeIn(tradeSize) >= CORED_FROM_IN;
}

/** Masonry walls that are drilled in a day. Common practice, no source. */
const WALLS_A_DAY = 4;

/** A masonry wall that is drilled, or cored with a rig. */
export interface DrilledWall {
  legs: number[];
  cored: boolean;
}

/** Is the wall drilled with a masonry bit? */
export function isMasonry(wall: Wall | undefined): boolean {
  return wall !== undefined && MASONRY.includes(wall);
}

/** How the wall at a joint is drilled; nothing where none is, or none of masonry. */
export function drilledWall(way: Way, joint: Joint): DrilledWall | undefined {
  const { wall, leavesHouse, legs } = joint;
  if (!wall || !MASONRY.includes(wall)) return undefined;
  return { legs, cored: leavesHouse && isCored(wall, entryConduit(way, joint).tradeSize) };
}

/** The drills that all masonry walls of the job need, by the day. */
export function drillRentals(ways: readonly Way[]): Demands {
  return drillDays(ways.flatMap((way) => way.joints.flatMap((joint) => drilledWall(way, joint) ?? [])));
}

/** Days of the drills for so many walls. */
export function drillDays(walls: readonly DrilledWall[]): Demands {
  return joined(
    [
      { cored: false, name: 'rotary-hammer-day', description: 'rotary hammer' },
      { cored: true, name: 'core-drill-day', description: 'core drill with bit' },
    ].map(({ cored, name, description }) => {
      const drilled = walls.filter((wall) => wall.cored === cored);
      return rental({
        name,
        description,
        scope: SCOPE,
        unit: 'day',
        quantity: Math.ceil(drilled.length / WALLS_A_DAY),
        legs: drilled.flatMap(({ legs }) => legs),
        because: `${drilled.length} masonry walls, ${WALLS_A_DAY} a day`,
      });
    }),
  );
}

function innerWall(plan: PlannedOption, { legs }: Joint, wall: Wall): Demands {
  const factors = indoorFactors(plan);
  const because = `through a ${wall} wall on the way`;
  if (MASONRY.includes(wall)) {
    return work({ task: 'wall-entry-masonry', scope: SCOPE, quantity: 1, factors, legs, because });
  }
  return joined([
    work({ task: 'drill-joist-large', scope: SCOPE, unit: 'hole', quantity: 1, factors, legs, because }),
    firestop(wall, legs),
  ]);
}
