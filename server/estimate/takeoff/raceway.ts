import type { PlannedOption } from '../plan-types.ts';
import { counted, type Demands, joined, materials, named, shown, withWaste, work } from './demand.ts';
import { isFished, stretchFactors } from './factors.ts';
import { expansionFittings } from './fastening.ts';
import { fishing } from './fishing.ts';
import { isPvc, segmentEnds, TYPE_NAMES } from './raceway-ends.ts';
import { laidAs } from './risers.ts';
import { type Segment, segmentsOf } from './segments.ts';
import { racewayClass, tradeSizeIn } from './sizes.ts';
import { strapSpacing, strapsOf } from './straps.ts';
import { type Conduit, isInside, isNewRaceway, isOpened, legsOf, type Stretch, verticalsFt, type Way } from './way.ts';

/** Feet of a stick of raceway, as shops sell it. */
const STICK_FT = 10;
/** Up to this trade size EMT is bent by hand on the spot; larger elbows come from the factory. Common practice, no source. */
const HAND_BENT_UP_TO_IN = 1;
/** Feet of pull line beyond the raceway, so that one can take hold of it at both ends. Common practice, no source. */
const PULL_LINE_SPARE_FT = 6;

/** Raceway of one run that is laid anew: sticks, joints, elbows, supports, ends, pull line, and the work of it. */
export function racewayDemands({ plan, way }: { plan: PlannedOption; way: Way }): Demands {
  const { conduit: wastePercent } = plan.description.terms.makeup.wastePercent;
  return joined(
    segmentsOf(way).flatMap((segment) => [
      ...segment.stretches.map((_, at) => racewayAlong({ plan, way, at: segment.from + at })),
      strapDemands(way, segment),
      racewayOfSegment({ way, segment, wastePercent }),
      segmentEnds(way, segment),
    ]),
  );
}

/** What one stretch of new raceway takes by its length; nothing where the stretch is none. */
export function racewayAlong({ plan, way, at }: { plan: PlannedOption; way: Way; at: number }): Demands {
  const stretch = way.stretches[at];
  if (!stretch || !isNewRaceway(stretch)) return joined([]);
  const { conduit: wastePercent } = plan.description.terms.makeup.wastePercent;
  return stretchOfRaceway({ plan, way, at, stretch, wastePercent });
}

/** What raceway between two pull points takes as a whole but for straps: couplings, bends, pull line. */
export function racewayOfSegment(parts: { way: Way; segment: Segment; wastePercent: number }): Demands {
  const { way, segment } = parts;
  return joined([segmentFittings(parts), bends(segment), pullLine(way, segment)]);
}

interface StretchParts {
  plan: PlannedOption;
  way: Way;
  at: number;
  stretch: Stretch & { conduit: Conduit };
  wastePercent: number;
}

/** Feet of a stretch as this raceway: a climb of PVC out of the ground is schedule 80, and taken off with the riser. */
function ownFt(way: Way, at: number, { conduit, lengthFt, riseFt }: Stretch & { conduit: Conduit }): number {
  return lengthFt + riseFt + (isPvc(conduit.type) ? 0 : verticalsFt(way, at));
}

function stretchOfRaceway({ plan, way, at, stretch, wastePercent }: StretchParts): Demands {
  const { type, tradeSize } = laidAs(way, stretch);
  const isThicker = type !== stretch.conduit.type;
  const legs = legsOf([stretch]);
  const ft = ownFt(way, at, stretch);
  const climbs = ft - stretch.lengthFt - stretch.riseFt;
  const words = `${stretch.words}${climbs > 0 ? ` + ${shown(climbs)} ft out of the ground` : ''}`;
  return joined([
    materials({
      spec: { is: 'raceway', type, tradeSize },
      description: `${TYPE_NAMES[type]} ${tradeSize} in`,
      scope: 'conduit',
      unit: 'ft',
      quantity: withWaste(ft, wastePercent),
      legs,
      because: [
        `${words}, ${shown(wastePercent)} % waste`,
        ...(isThicker ? ['schedule 80, for cars come near it'] : []),
      ],
    }),
    isThicker ? widening(way, at, stretch) : joined([]),
    expansions({ plan, stretch, ft }),
    racewayWork({ plan, stretch, ft }),
  ]);
}

/** Straps of a segment, each stretch with its own. */
export function strapDemands(way: Way, segment: Segment): Demands {
  const feet = segment.stretches.map((stretch, at) => ownFt(way, segment.from + at, stretch));
  const { everyFt, firstWithinFt } = strapSpacing(segment);
  const straps = strapsOf(way, segment, feet);
  return joined(
    segment.stretches.map((stretch, at) => {
      const { type, tradeSize } = laidAs(way, stretch);
      return materials({
        spec: { is: 'fitting', type: isPvc(type) ? 'pvc-40' : type, tradeSize, piece: 'strap' },
        description: `${tradeSize} in strap`,
        scope: 'conduit',
        quantity: straps[at] ?? 0,
        legs: legsOf([stretch]),
        because: `${shown(feet[at] ?? 0)} ft, held every ${everyFt} ft and within ${firstWithinFt} ft of each box${underFraming(stretch)}`,
      });
    }),
  );
}

/** What takes schedule 40 to the next trade size of schedule 80, where that holds less; behind a riser it is that size already. */
function widening(way: Way, at: number, stretch: Stretch & { conduit: Conduit }): Demands {
  const { tradeSize } = laidAs(way, stretch);
  const before = way.stretches[at - 1];
  const isWide = tradeSize === stretch.conduit.tradeSize || before === undefined || isOpened(before);
  return named({
    name: 'pvc-reducer',
    description: 'PVC reducing bushing',
    scope: 'conduit',
    quantity: isWide ? 0 : 1,
    legs: legsOf([stretch]),
    because: `from ${stretch.conduit.tradeSize} in to ${tradeSize} in of schedule 80, whose thicker wall leaves less room`,
  });
}

/** Framing that stays open, which cable would be bored through. */
const OPEN_FRAMING: readonly Stretch['kind'][] = ['joists', 'crawlspace', 'attic'];

/** Stiff raceway cannot be threaded through bored holes from joist to joist: it is strapped to them, and that is said. */
function underFraming({ kind, stated }: Stretch): string {
  const isAcross = stated?.across ?? true;
  if (!OPEN_FRAMING.includes(kind) || !isAcross) return '';
  return `, strapped to the ${kind === 'attic' ? 'top' : 'underside'} of the joists: stiff raceway cannot be threaded through bored holes`;
}

/** Expansion fittings of PVC out of doors above ground, where the swing of temperature asks for them. */
function expansions({
  plan,
  stretch,
  ft,
}: {
  plan: PlannedOption;
  stretch: StretchParts['stretch'];
  ft: number;
}): Demands {
  const { type, tradeSize } = stretch.conduit;
  if (!isPvc(type) || isInside(stretch.place) || isOpened(stretch)) return joined([]);
  const swingF = plan.description.site.temperatureSwingF;
  const { count, changeIn } = expansionFittings({ lengthFt: ft, swingF });
  return materials({
    spec: { is: 'fitting', type: 'pvc-40', tradeSize, piece: 'expansion' },
    description: `${tradeSize} in expansion fitting`,
    scope: 'conduit',
    quantity: count,
    legs: legsOf([stretch]),
    because: `${shown(ft)} ft out of doors change by ${shown(changeIn)} in over ${shown(swingF)} °F; from 0.25 in on a fitting takes it up`,
  });
}

function racewayWork({
  plan,
  stretch,
  ft,
}: {
  plan: PlannedOption;
  stretch: StretchParts['stretch'];
  ft: number;
}): Demands {
  const { type, tradeSize } = stretch.conduit;
  const legs = legsOf([stretch]);
  const factors = stretchFactors(plan, stretch);
  const fished = isFished(plan, stretch) ? [fishing(plan, stretch)] : [];
  if (stretch.kind === 'under-deck') {
    const because = `${shown(ft)} ft of ${TYPE_NAMES[type]} under a deck`;
    return work({ task: 'under-deck', scope: 'conduit', unit: 'ft', quantity: ft, factors, legs, because });
  }
  const family = isPvc(type) ? 'pvc' : type;
  const inDitch = family === 'pvc' && isOpened(stretch) ? ['factor-pvc-in-trench'] : [];
  return joined([
    ...fished,
    work({
      task: `conduit-${family}-${racewayClass(tradeSize)}`,
      scope: 'conduit',
      unit: '10-ft stick',
      quantity: ft / STICK_FT,
      factors: [...factors, ...inDitch],
      legs,
      because: `${shown(ft)} ft of ${TYPE_NAMES[type]} ${tradeSize} in, in sticks of ${STICK_FT} ft${underFraming(stretch)}`,
    }),
  ]);
}

/** Couplings: steel has one at each joint of two sticks; PVC sticks have a bell of their own. */
function segmentFittings({
  way,
  segment,
  wastePercent,
}: {
  way: Way;
  segment: Segment;
  wastePercent: number;
}): Demands {
  const { type, tradeSize } = segment.conduit;
  if (isPvc(type)) return joined([]);
  const ft = segment.stretches.reduce((sum, stretch, at) => sum + ownFt(way, segment.from + at, stretch), 0);
  const sticks = Math.ceil(withWaste(ft, wastePercent) / STICK_FT);
  const isDry = segment.stretches.every(({ place }) => isInside(place));
  const piece = type === 'emt' && !isDry ? 'coupling-rt' : 'coupling';
  return materials({
    spec: { is: 'fitting', type, tradeSize, piece },
    description: `${TYPE_NAMES[type]} ${tradeSize} in coupling`,
    scope: 'conduit',
    quantity: sticks - 1,
    legs: legsOf(segment.stretches),
    because: `${counted(sticks, 'stick')}, one at each joint`,
  });
}

/** Elbows outside of the climbs out of the ground; those are the risers'. */
function bends({ conduit, elbows, stretches }: Segment): Demands {
  const { type, tradeSize } = conduit;
  const legs = legsOf(stretches);
  const because = `${counted(elbows, 'turn')} of 90 degrees between legs, or stated of a leg`;
  if (type === 'emt' && tradeSizeIn(tradeSize) <= HAND_BENT_UP_TO_IN) {
    return work({ task: 'bend-field-emt', scope: 'conduit', quantity: elbows, legs, because });
  }
  return joined([
    materials({
      spec: { is: 'fitting', type, tradeSize, piece: 'elbow-90' },
      description: `${TYPE_NAMES[type]} ${tradeSize} in elbow, 90 degrees`,
      scope: 'conduit',
      quantity: elbows,
      legs,
      because,
    }),
    work({ task: 'elbow-fit', scope: 'conduit', quantity: elbows, legs, because }),
  ]);
}

function pullLine(way: Way, segment: Segment): Demands {
  const ft = segment.stretches.reduce(
    (sum, { lengthFt, riseFt }, at) => sum + lengthFt + riseFt + verticalsFt(way, segment.from + at),
    PULL_LINE_SPARE_FT,
  );
  const legs = legsOf(segment.stretches);
  return joined([
    named({
      name: 'pull-string',
      description: 'pull line',
      scope: 'conduit',
      unit: 'ft',
      quantity: ft,
      legs,
      because: `${shown(ft - PULL_LINE_SPARE_FT)} ft of raceway and ${PULL_LINE_SPARE_FT} ft to hold`,
    }),
    work({
      task: 'fish-line',
      scope: 'conduit',
      unit: 'run',
      quantity: 1,
      legs,
      because: 'pull line through one run of raceway',
    }),
  ]);
}
