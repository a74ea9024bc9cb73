import { smallestConduit } from '../../electrical/conduit-fill.ts';
import type { Section } from '../plan-types.ts';
import type { TradeSize } from '../vocabulary.ts';
import { type Demands, joined, materials, named, shown, withWaste, work } from './demand.ts';
import { type Climb, climbsOf } from './segments.ts';
import { isUpTo, largerTradeSize } from './sizes.ts';
import { ABOVE_GRADE_FT, type Conduit, isInside, isNewRaceway, legsOf, type Stretch, type Way } from './way.ts';
import { conductorCounts } from './wire.ts';

/** A buried cable is protected from 18 in below grade, or from its cover where that is less. NEC 300.5(D)(1). Feet. */
const SLEEVE_BELOW_FT = 1.5;
/** Above grade to the enclosure that takes it; where the cable goes on in the open, to 8 ft. NEC 300.5(D)(1). Feet. */
const SLEEVE_UP_TO_FT = 8;

/** Between straps of a sleeve above ground, in feet: no more than schedule 80 of any size asks for. NEC Table 352.30(B). */
const SLEEVE_STRAP_FT = 3;

/** Where a way comes out of the ground: schedule 80 or metal, held and free to move with frost and settlement. */
export function riserDemands(way: Way, conduitWastePercent: number): Demands {
  return joined(climbsOf(way).map((climb) => riserAt(way, climb, conduitWastePercent)));
}

/** One place where a way comes out of the ground. */
export function riserAt(way: Way, climb: Climb, conduitWastePercent: number): Demands {
  const { conduit, existing } = climb.stretch;
  if (existing) return joined([]);
  return conduit ? racewayRiser({ way, climb, conduit, conduitWastePercent }) : sleeve(way, climb, conduitWastePercent);
}

interface RiserParts {
  way: Way;
  climb: Climb;
  conduit: Conduit;
  conduitWastePercent: number;
}

function racewayRiser({ way, climb, conduit, conduitWastePercent }: RiserParts): Demands {
  const legs = legsOf([climb.stretch]);
  const isPvc = conduit.type === 'pvc-40' || conduit.type === 'pvc-80';
  const scope = 'conduit';
  const tradeSize = isPvc ? riserTradeSize(way, climb.stretch.section, conduit.tradeSize) : conduit.tradeSize;
  const type = isPvc ? 'pvc-80' : conduit.type;
  const turns = climb.goesOn ? 2 : 1;
  const fittings = isPvc ? ('pvc-40' as const) : conduit.type;
  const verticalWords = `(${shown(climb.coverIn / 12)} + 1.5) ft out of the ground`;
  return joined([
    isPvc
      ? materials({
          spec: { is: 'raceway', type: 'pvc-80', tradeSize },
          description: `PVC schedule 80 conduit ${tradeSize} in`,
          scope,
          unit: 'ft',
          quantity: withWaste(climb.verticalFt, conduitWastePercent),
          legs,
          because: `${verticalWords}, where it can be damaged, ${shown(conduitWastePercent)} % waste`,
        })
      : joined([]),
    materials({
      spec: { is: 'fitting', type, tradeSize, piece: 'elbow-90' },
      description: `${tradeSize} in elbow, 90 degrees`,
      scope,
      quantity: turns,
      legs,
      because: climb.goesOn ? 'up out of the ditch, and on again above ground' : 'up out of the ditch',
    }),
    strapAndExpansion({ type: fittings, tradeSize, expansions: isPvc ? 1 : 0, legs }),
    named({
      name: 'pvc-reducer',
      description: 'PVC reducing bushing',
      scope,
      quantity: tradeSize === conduit.tradeSize ? 0 : 1 + Number(climb.goesOn && !goesOnAs(way, climb, tradeSize)),
      legs,
      because: `from ${conduit.tradeSize} in to the riser’s ${tradeSize} in: schedule 80 has a thicker wall and holds less`,
    }),
    riserWork(turns, legs),
  ]);
}

function riserWork(turns: number, legs: number[]): Demands {
  return joined([
    work({ task: 'riser', scope: 'conduit', quantity: 1, legs, because: 'where it comes out of the ground' }),
    work({ task: 'elbow-fit', scope: 'conduit', quantity: turns, legs, because: 'elbows of the riser' }),
  ]);
}

function strapAndExpansion({
  type,
  tradeSize,
  expansions,
  legs,
}: {
  type: Conduit['type'];
  tradeSize: TradeSize;
  expansions: number;
  legs: number[];
}): Demands {
  const description = (piece: string) => `${tradeSize} in ${piece}`;
  return joined([
    materials({
      spec: { is: 'fitting', type, tradeSize, piece: 'strap' },
      description: description('strap'),
      scope: 'conduit',
      quantity: 1,
      legs,
      because: 'holds the riser',
    }),
    materials({
      spec: { is: 'fitting', type, tradeSize, piece: 'expansion' },
      description: description('expansion fitting'),
      scope: 'conduit',
      quantity: expansions,
      legs,
      because: 'lets the riser move with frost and settling ground',
    }),
  ]);
}

/**
 * The schedule 80 riser that holds the conductors: at least the raceway's trade size, larger where the thicker wall
 * leaves too little room. NEC Chapter 9 Tables 1 and 4. Above 500 kcmil no areas are known: the raceway's size stays.
 */
export function riserTradeSize(way: Way, section: Section | undefined, tradeSize: TradeSize): TradeSize {
  if (!section || section.cable || !isUpTo(section.size, '500')) return tradeSize;
  const { insulation, size, neutralSize = size, groundSize } = section;
  const sold = insulation === 'xhhw-2' || insulation === 'use-2' ? insulation : 'thwn-2';
  const counts = conductorCounts(way);
  const conductors = [
    { insulation: sold, size, count: counts.ungrounded },
    { insulation: sold, size: neutralSize, count: counts.neutral },
    { insulation: sold, size: groundSize, count: counts.ground },
  ] as const;
  const { tradeSize: needed } = smallestConduit({
    type: 'pvc-80',
    conductors: conductors.filter(({ count }) => count > 0),
  });
  return largerTradeSize(tradeSize, needed);
}

/**
 * A new raceway as it is laid. Out of doors cars come near what leads to a charger: schedule 80, in the trade size that its
 * thicker wall asks for. NEC 352.10(K), 300.5(D)(4).
 */
export function laidAs(way: Way, { kind, place, conduit, section }: Stretch & { conduit: Conduit }): Conduit {
  const isNearCars = kind === 'tail' && way.run.chargers.length > 0 && !isInside(place);
  if (!isNearCars || conduit.type !== 'pvc-40') return conduit;
  return { type: 'pvc-80', tradeSize: riserTradeSize(way, section, conduit.tradeSize) };
}

/** Is what goes on above a climb of the riser's own trade size? */
function goesOnAs(way: Way, { stretch, joint }: Climb, tradeSize: TradeSize): boolean {
  const beyond = joint.before === stretch ? joint.after : joint.before;
  return beyond !== undefined && isNewRaceway(beyond) && laidAs(way, beyond).tradeSize === tradeSize;
}

/** Trade size of a sleeve over a buried cable, or over single conductors bound together. Common practice, no source. */
export function sleeveTradeSize(section: Section | undefined): TradeSize {
  if (!section) return '1';
  const { size, cable } = section;
  const isQuadruplex = cable === undefined || cable.form === 'mhf';
  if (isUpTo(size, '10')) return '3/4';
  if (isUpTo(size, '6')) return isQuadruplex ? '1-1/4' : '1';
  if (isUpTo(size, '2')) return isQuadruplex ? '1-1/2' : '1-1/4';
  if (isUpTo(size, '2/0')) return '2';
  return isUpTo(size, '4/0') ? '2-1/2' : '3';
}

/**
 * Trade size of the raceway that would hold a cable's conductors: by it a box counts the cable that enters. NEC 314.28(A).
 * The ground is bare.
 */
export function cableTradeSize(section: Section | undefined): TradeSize {
  if (!section?.cable) return sleeveTradeSize(section);
  const { cable, size, neutralSize = size, groundSize } = section;
  const insulation = cable.form === 'ser' ? 'xhhw-2' : cable.form === 'mhf' ? 'use-2' : 'thwn-2';
  const hot = { insulation, size, count: 2 } as const;
  const third = { insulation, size: neutralSize, count: 1 } as const;
  const ground = { insulation: 'bare', size: groundSize, count: 1 } as const;
  const conductors = [hot, ...(cable.conductors === 3 ? [third] : []), ground];
  return smallestConduit({ type: 'pvc-40', conductors }).tradeSize;
}

/** Feet of the same cable that go on above ground, out of doors and without raceway, beyond the climb. */
function openCableFt({ stretch, joint }: Climb): number {
  const beyond = joint.before === stretch ? joint.after : joint.before;
  if (!beyond || joint.splice || joint.leavesHouse || beyond.conduit || beyond.existing) return 0;
  return beyond.lengthFt + beyond.riseFt;
}

function sleeve(way: Way, climb: Climb, conduitWastePercent: number): Demands {
  const legs = legsOf([climb.stretch]);
  const tradeSize = sleeveTradeSize(climb.stretch.section);
  const belowFt = Math.min(SLEEVE_BELOW_FT, climb.coverIn / 12);
  const openFt = openCableFt(climb);
  const aboveFt = Math.min(SLEEVE_UP_TO_FT, ABOVE_GRADE_FT + openFt);
  const lengthFt = belowFt + aboveFt;
  const upTo = openFt > 0 ? 'along the cable that goes on in the open' : 'to the enclosure that takes the cable';
  const fitting = (piece: string, because: string, quantity = 1) =>
    materials({
      spec: { is: 'fitting', type: 'pvc-40', tradeSize, piece },
      description: `PVC ${piece} ${tradeSize} in`,
      scope: 'conduit',
      quantity,
      legs,
      because,
    });
  // The entry body takes the sleeve's upper end where it goes through a wall; else a box does, unless the cable goes on.
  const intoBox = climb.joint.leavesHouse || openFt > 0 ? 0 : 1;
  return joined([
    materials({
      spec: { is: 'raceway', type: 'pvc-80', tradeSize },
      description: `PVC schedule 80 conduit ${tradeSize} in`,
      scope: 'conduit',
      unit: 'ft',
      quantity: withWaste(lengthFt, conduitWastePercent),
      legs,
      because: `sleeve over buried conductors of ${way.run.name} from ${shown(belowFt * 12)} in below grade to ${shown(aboveFt)} ft above, ${upTo}, ${shown(conduitWastePercent)} % waste`,
    }),
    fitting('end-bell', 'each open end of the sleeve', openFt > 0 ? 2 : 1),
    fitting('strap', 'hold the sleeve above ground, one for every 3 ft begun', Math.ceil(aboveFt / SLEEVE_STRAP_FT)),
    fitting('box-adapter', 'the upper end of the sleeve', intoBox),
    work({
      task: 'riser',
      scope: 'conduit',
      quantity: 1,
      legs,
      because: 'sleeve where the cable comes out of the ground',
    }),
  ]);
}
