import { supportCount, supportRule } from '../../electrical/supports.ts';
import type { PlannedOption, PlannedRun, Section } from '../plan-types.ts';
import { counted, type Demands, joined, named, shown, work } from './demand.ts';
import { isFished, stretchFactors } from './factors.ts';
import { framingCrossed } from './fastening.ts';
import { fishing } from './fishing.ts';
import { cableTask, isThick, isUpTo } from './sizes.ts';
import { enclosuresPassed, isOpened, legsOf, type Stretch, verticalsFt, type Way } from './way.ts';

/** Fasteners of a bored stretch: one within 12 in of each end; the holes hold the rest. NEC 334.30(A). */
const END_FASTENERS = 2;
/** Bored holes of which one comes too near to an edge and gets a plate. Common practice, no source. */
const HOLES_PER_PLATE = 10;

/** Kinds of leg where cable crosses joists or studs. */
const FRAMED = ['joists', 'finished-ceiling', 'finished-wall', 'crawlspace', 'attic', 'under-deck'];

/** Cable of one run, and conductors that lie bare in the earth: fastening, drilling, and the work of running it. */
export function cableDemands({ plan, way }: { plan: PlannedOption; way: Way }): Demands {
  return joined([
    ...way.stretches.map((_, at) => cableAlong({ plan, way, at })),
    ...way.run.sections.map((section) => cableConnectors({ plan, way, section })),
  ]);
}

/** What one stretch of cable, or of conductors that lie bare in the earth, takes by its length; nothing of another one. */
export function cableAlong({ plan, way, at }: { plan: PlannedOption; way: Way; at: number }): Demands {
  const stretch = way.stretches[at];
  if (!stretch?.section || stretch.conduit || stretch.existing) return joined([]);
  return cableStretch({ plan, way, at, stretch, section: stretch.section });
}

interface CableParts {
  plan: PlannedOption;
  way: Way;
  at: number;
  stretch: Stretch;
  section: Section;
}

function cableStretch(parts: CableParts): Demands {
  const { plan, way, at, stretch } = parts;
  const ft = stretch.lengthFt + stretch.riseFt;
  if (isOpened(stretch)) {
    const alongFt = ft + verticalsFt(way, at);
    return work({
      task: 'cable-in-trench',
      scope: 'wire',
      unit: 'ft',
      quantity: alongFt,
      factors: stretchFactors(plan, stretch),
      legs: legsOf([stretch]),
      because: `${shown(alongFt)} ft laid in the ground, climbs included`,
    });
  }
  if (stretch.kind === 'overhead-span') return overheadSpan(parts, ft);
  if (isFished(plan, stretch)) return joined([fishing(plan, stretch), plates(parts, ft)]);
  return joined([runCable(parts, ft), drilling(parts, ft), fasteners(parts, ft), plates(parts, ft)]);
}

/** Is the stretch bored through framing, rather than stapled along it or on a surface? */
function isBored({ stretch }: CableParts): boolean {
  return FRAMED.includes(stretch.kind) && (stretch.stated?.across ?? true);
}

function runCable({ plan, stretch, section }: CableParts, ft: number): Demands {
  return work({
    task: runTask(stretch, section),
    scope: 'wire',
    unit: 'ft',
    quantity: ft,
    factors: stretchFactors(plan, stretch),
    legs: legsOf([stretch]),
    because: stretch.words,
  });
}

/** The way to the outlet is no leg of the route: it has a task of its own, so that no leg is charged with it. */
function runTask({ kind }: Stretch, section: Section): string {
  switch (kind) {
    case 'tail':
      return 'cable-to-outlet';
    case 'interior-surface':
    case 'exterior-wall':
      return 'surface-cable';
    case 'under-deck':
      return 'under-deck';
    default:
      return cableTask(section);
  }
}

function overheadSpan({ plan, stretch }: CableParts, ft: number): Demands {
  const legs = legsOf([stretch]);
  return joined([
    work({
      task: 'overhead-span',
      scope: 'wire',
      unit: 'ft',
      quantity: ft,
      factors: [...stretchFactors(plan, stretch), 'factor-ladder-work'],
      legs,
      because: `${shown(ft)} ft on a messenger between two supports`,
    }),
    named({
      name: 'span-hardware',
      description: 'messenger, dead ends and eye bolts of one span',
      scope: 'wire',
      quantity: 1,
      legs,
      because: 'one span in the air',
    }),
  ]);
}

function drilling(parts: CableParts, ft: number): Demands {
  if (!isBored(parts)) return joined([]);
  const { plan, stretch, section } = parts;
  const holes = framingCrossed(ft);
  return work({
    task: isThick(section) ? 'drill-joist-large' : 'drill-joist-small',
    scope: 'wire',
    unit: 'hole',
    quantity: holes,
    factors: stretchFactors(plan, stretch),
    legs: legsOf([stretch]),
    because: `${shown(ft)} ft across framing at 16 in: ${counted(holes, 'hole')}`,
  });
}

/**
 * Staples, or straps for thick cable: within 12 in of both ends and at the support distance between, or only at both ends
 * where bored holes hold the cable. Each leg by itself, so that it may begin and end in a box. NEC 334.30.
 */
function fasteners(parts: CableParts, ft: number): Demands {
  const { stretch, section } = parts;
  const form = section.cable?.form;
  const method = form === 'ser' || form === 'uf-b' ? form : 'nm-b';
  const { everyFt, firstWithinFt } = supportRule({ method });
  const bored = isBored(parts);
  const count = bored ? END_FASTENERS : supportCount({ method, lengthFt: ft, boxes: 2 });
  const isStrapped = form === 'ser' || form === 'mhf' || !isUpTo(section.size, '2');
  const small = isUpTo(section.size, '10');
  return named({
    name: isStrapped ? 'straps-ser' : small ? 'staples-nm-small' : 'staples-nm-large',
    description: isStrapped ? 'cable straps' : 'cable staples',
    scope: 'wire',
    quantity: count,
    legs: legsOf([stretch]),
    because: bored
      ? 'within 12 in of both ends; the bored holes hold the rest'
      : `${shown(ft)} ft: within ${shown(firstWithinFt * 12)} in of both ends, and no more than ${everyFt} ft apart`,
  });
}

/** Steel plates where a hole comes nearer than 1-1/4 in to an edge: NEC 300.4(A)(1). In studs thick cable always does. */
function plates(parts: CableParts, ft: number): Demands {
  if (!isBored(parts)) return joined([]);
  const { stretch, section } = parts;
  const holes = framingCrossed(ft);
  const everyHole = stretch.kind === 'finished-wall' && isThick(section);
  const count = everyHole ? holes : Math.ceil(holes / HOLES_PER_PLATE);
  return named({
    name: 'nail-plates',
    description: 'steel protection plates',
    scope: 'wire',
    quantity: count,
    legs: legsOf([stretch]),
    because: everyHole
      ? `${counted(holes, 'stud')}, a plate on each: the hole leaves less than 1-1/4 in`
      : `${counted(holes, 'hole')}, of which one in ${HOLES_PER_PLATE} comes near an edge`,
  });
}

/** The largest size of a nonmetallic cable, some 0.85 in thick, that a connector of 1 in holds. Common practice, no source. */
const UP_TO_INCH_CONNECTOR = '4';

/** Does the run end in a box of plastic, which clamps the cable itself or is entered beside a staple? NEC 314.17(B). */
export function endsInPlastic({ outlets }: PlannedOption, run: PlannedRun): boolean {
  const outlet = outlets.find((one) => one.run === run.name);
  if (!outlet) return false;
  return outlet.connection === 'light' || (outlet.connection !== 'hardwired' && !outlet.outdoors);
}

/** What a cable enters metal boxes and panels by, at both ends of its section. */
function cableConnectors({ plan, way, section }: { plan: PlannedOption; way: Way; section: Section }): Demands {
  const stretches = way.stretches.filter((stretch) => stretch.section === section);
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (!first || !last) return joined([]);
  const endsHere = way.stretches.at(-1) === last;
  return joined([
    cableEnd({ plan, way, stretch: first, isRunEnd: false }),
    cableEnd({ plan, way, stretch: last, isRunEnd: endsHere }),
  ]);
}

/** One end of a cable, which enters by a connector; not where a sleeve, an entry body or the box itself takes it. */
export function cableEnd({
  plan,
  way,
  stretch,
  isRunEnd,
}: {
  plan: PlannedOption;
  way: Way;
  stretch: Stretch;
  isRunEnd: boolean;
}): Demands {
  const { section } = stretch;
  if (!section?.cable || stretch.conduit || isOpened(stretch)) return joined([]);
  if (isRunEnd && endsInPlastic(plan, way.run)) return joined([]);
  const passed = isRunEnd ? 2 * enclosuresPassed(way) : 0;
  const isSmall = isNonmetallic(section) && isUpTo(section.size, UP_TO_INCH_CONNECTOR);
  return named({
    name: isSmall ? 'cable-connector-nm-3_4' : 'cable-connector-ser',
    description: isSmall ? 'cable connector, 3/4 to 1 in' : 'cable connector, 1-1/4 to 2 in',
    scope: 'boxes',
    quantity: 1 + passed,
    legs: section.legs,
    because: `one at an end of the cable${passed > 0 ? `, ${passed} in and out of what it passes before` : ''}`,
  });
}

function isNonmetallic({ cable }: Section): boolean {
  return cable?.form === 'nm-b' || cable?.form === 'uf-b';
}
