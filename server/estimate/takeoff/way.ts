import type { Leg } from '../description.ts';
import type { Place, PlannedOption, PlannedRun, Section } from '../plan-types.ts';
import {
  isDitch,
  type LegKind,
  type RacewayType,
  type TradeSize,
  type WALLS,
  type WiringMethod,
} from '../vocabulary.ts';
import { shown } from './demand.ts';

/** What is passed on the way from one place to the next. */
export type Wall = (typeof WALLS)[number];

/** A raceway by what it is sold as. */
export interface Conduit {
  type: RacewayType;
  tradeSize: TradeSize;
}

/** One leg of a run's way, or the stretch from the end of the route to the outlet (`leg` undefined). Feet. */
export interface Stretch {
  leg: number | undefined;
  stated: Leg | undefined;
  kind: LegKind | 'tail';
  lengthFt: number;
  riseFt: number;
  place: Place;
  method: WiringMethod;
  conduit: Conduit | undefined;
  /** Is the raceway there already? Then only conductors are pulled into it. */
  existing: boolean;
  section: Section | undefined;
  /** What it adds up to when read aloud. */
  words: string;
}

/** Where one stretch meets the next, or an end of the run (then one side is missing). */
export interface Joint {
  /** Index of the stretch behind it; the number of stretches at the run's end. */
  at: number;
  before: Stretch | undefined;
  after: Stretch | undefined;
  /** Do other conductors begin here? Then they are joined in a box. */
  splice: boolean;
  /** What is passed here, and whether it lies between inside and outside. */
  wall: Wall | undefined;
  leavesHouse: boolean;
  legs: number[];
}

/** Consecutive stretches in the ground that we open. Both ends come up to the surface and 1.5 ft above it. */
export interface BuriedSpan {
  from: number;
  to: number;
  coverIn: number;
  /** From the bottom of the ditch to where it is worked on, at each end, in feet. */
  verticalFt: number;
}

/** The way of one run, from its start to its end. */
export interface Way {
  run: PlannedRun;
  stretches: Stretch[];
  joints: Joint[];
  spans: BuriedSpan[];
  /** How often the circuit divides on the way to its chargers: at each but the last, where they are wired. */
  divisions: number;
}

/** Above grade, at each end of a ditch, in feet: to a box or an entry that one can work at. Common practice, no source. */
export const ABOVE_GRADE_FT = 1.5;
/** Cover where a plan states none, in inches: the deepest that cable asks for, NEC Table 300.5(A), column 1. */
const UNSTATED_COVER_IN = 24;

const INSIDE: readonly Place[] = ['dry-concealed', 'dry-exposed', 'damp', 'attic'];

/** Is the place in the house, and not out of doors or in the ground? */
export function isInside(place: Place): boolean {
  return INSIDE.includes(place);
}

/** Does somebody open the ground for this stretch, by a ditch or by a bore? */
export function isOpened(stretch: Stretch): boolean {
  return stretch.kind !== 'tail' && (isDitch(stretch.kind) || stretch.kind === 'bore');
}

/** Is it a stretch of raceway that is laid anew? */
export function isNewRaceway(stretch: Stretch): stretch is Stretch & { conduit: Conduit } {
  return stretch.conduit !== undefined && !stretch.existing;
}

/** The legs of some stretches; the way to the outlet has none. */
export function legsOf(stretches: readonly Stretch[]): number[] {
  const legs: number[] = [];
  for (const { leg } of stretches) if (leg !== undefined) legs.push(leg);
  return legs;
}

/** Does a stretch begin or end a buried span: how many of its two ends come up? */
export function risersAt(way: Way, at: number): number {
  return way.spans.reduce((sum, { from, to }) => sum + Number(from === at) + Number(to === at), 0);
}

/** Feet of raceway or cable that climb out of the ground at the ends of a stretch. */
export function verticalsFt(way: Way, at: number): number {
  const span = way.spans.find(({ from, to }) => from <= at && at <= to);
  return span ? risersAt(way, at) * span.verticalFt : 0;
}

/** The ways of all runs of a plan. */
export function waysOf(plan: PlannedOption): Way[] {
  return plan.runs.map((run) => wayOf(plan, run));
}

/** The way of one run: its legs in order, then the stretch to the outlet. */
export function wayOf(plan: PlannedOption, run: PlannedRun): Way {
  const stretches = [...legStretches(plan, run), ...tailStretch(run)];
  return {
    run,
    stretches,
    joints: jointsOf(plan, run, stretches),
    spans: spansOf(plan, run, stretches),
    divisions: divisionsOf(plan, run),
  };
}

/** A circuit of wired chargers is joined at each of them but the last; those that plug in hang on a splitter. */
export function divisionsOf({ option }: PlannedOption, { chargers }: PlannedRun): number {
  const isWired = chargers.every((at) => option.chargers[at]?.connection === 'hardwired');
  return isWired ? Math.max(0, chargers.length - 1) : 0;
}

/** Switch and boxes near its end that a run goes in and out of. */
export function enclosuresPassed({ run, divisions }: Way): number {
  return divisions + Number(run.disconnect?.kind === 'non-fused-switch');
}

function legStretches(plan: PlannedOption, run: PlannedRun): Stretch[] {
  return run.legs.flatMap(({ leg, method, conduit }): Stretch[] => {
    const placed = plan.route[leg];
    if (!placed) return [];
    const { stated, feet, place } = placed;
    return [
      {
        leg,
        stated,
        kind: stated.kind,
        lengthFt: feet.likely,
        riseFt: stated.riseFt,
        place,
        method,
        conduit: conduit && { type: conduit.type, tradeSize: conduit.tradeSize },
        existing: stated.kind === 'existing-raceway',
        section: run.sections.find(({ legs }) => legs.includes(leg)),
        words: `${shown(feet.likely)} ft${stated.riseFt > 0 ? ` + ${shown(stated.riseFt)} ft rise` : ''}`,
      },
    ];
  });
}

function tailStretch(run: PlannedRun): Stretch[] {
  const { tail } = run;
  if (!tail || tail.lengthFt <= 0) return [];
  const end = run.chargers.length > 0 ? 'the charger' : 'the outlet';
  return [
    {
      leg: undefined,
      stated: undefined,
      kind: 'tail',
      lengthFt: tail.lengthFt,
      riseFt: 0,
      place: tail.place,
      method: tail.method,
      conduit: tail.conduit && { type: tail.conduit.type, tradeSize: tail.conduit.tradeSize },
      existing: false,
      section: run.sections.find((section) => section.tail),
      words: `${shown(tail.lengthFt)} ft to ${end}`,
    },
  ];
}

/** Is the panel that the run leaves indoors? Main panels are taken to be; a subpanel says so. */
function startsInside(plan: PlannedOption, run: PlannedRun): boolean {
  return run.from !== 'subpanel' || plan.panel?.enclosure !== 'outdoor';
}

/** Is what the run ends at indoors: the subpanel's enclosure, or the outlet? */
function endsInside(plan: PlannedOption, run: PlannedRun): boolean {
  if (run.role === 'feeder') return plan.panel?.enclosure !== 'outdoor';
  const outlet = plan.outlets.find((one) => one.run === run.name);
  return outlet ? !outlet.outdoors : run.tail === undefined || isInside(run.tail.place);
}

/** Where the stretches of a run meet, and its two ends. */
export function jointsOf(plan: PlannedOption, run: PlannedRun, stretches: readonly Stretch[]): Joint[] {
  if (stretches.length === 0) return [];
  const starts = startsInside(plan, run);
  const ends = endsInside(plan, run);
  return Array.from({ length: stretches.length + 1 }, (_, at) => {
    const before = stretches[at - 1];
    const after = stretches[at];
    const insideBefore = before ? isInside(before.place) : starts;
    const insideAfter = after ? isInside(after.place) : ends;
    const leavesHouse = insideBefore !== insideAfter;
    // What stands in the way is stated of the leg before it; of the last leg of the route, also for the way to the outlet.
    const wall = before?.stated?.through ?? (leavesHouse ? 'wood' : undefined);
    const splice = before !== undefined && after !== undefined && before.section !== after.section;
    const legs = legsOf([before, after].flatMap((stretch) => (stretch ? [stretch] : [])));
    return { at, before, after, splice, wall, leavesHouse, legs };
  });
}

function spansOf(plan: PlannedOption, run: PlannedRun, stretches: readonly Stretch[]): BuriedSpan[] {
  const spans: BuriedSpan[] = [];
  stretches.forEach((stretch, at) => {
    if (!isOpened(stretch)) return;
    const coverIn = coverOf(plan, run, stretch);
    const last = spans.at(-1);
    if (last?.to === at - 1) {
      last.to = at;
      last.coverIn = Math.max(last.coverIn, coverIn);
    } else spans.push({ from: at, to: at, coverIn, verticalFt: 0 });
  });
  return spans.map((span) => ({ ...span, verticalFt: span.coverIn / 12 + ABOVE_GRADE_FT }));
}

/** Inches of cover over a stretch: of the ditch that it lies in, and no less than its leg's own. */
function coverOf(plan: PlannedOption, run: PlannedRun, { leg }: Stretch): number {
  const ditch = plan.ditches.find(({ legs }) => leg !== undefined && legs.includes(leg));
  const own = run.legs.find((one) => one.leg === leg)?.coverIn;
  const known = [ditch?.coverIn, own].filter((coverIn) => coverIn !== undefined);
  return known.length > 0 ? Math.max(...known) : UNSTATED_COVER_IN;
}

/** `(2 + 1.5) ft` for 24 in of cover. */
export function verticalInWords({ coverIn }: BuriedSpan): string {
  return `(${shown(coverIn / 12)} + ${ABOVE_GRADE_FT}) ft`;
}
