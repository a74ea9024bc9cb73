/*
 * What there is to choose for one circuit: for each leg and the tail, in a metal and size, the methods that are lawful
 * there, sold, and large enough. Nothing here has a price.
 */
import type { FillConductor } from '../../electrical/conduit-fill.ts';
import { WIRING_METHODS } from '../../electrical/wiring-methods.ts';
import type { RunLeg } from '../answer.ts';
import type { Circuit } from '../plan/circuit.ts';
import { conductorsIn, filled, racewayFor } from '../plan/conduit.ts';
import { isDug, leastCoverIn, thicknessIn } from '../plan/ditches.ts';
import type { Job } from '../plan/job.ts';
import { allowedAt, fixedMethod, isClosed } from '../plan/methods.ts';
import { sufficientSizes, wiredAt } from '../plan/section.ts';
import { type Beginning, carriesOn, isRaceway, type LaidPiece, type Wiring } from '../plan/wiring.ts';
import type { PlacedLeg, Section } from '../plan-types.ts';
import type { Stretch } from '../takeoff/way.ts';
import type { ConductorSize, Metal, WiringMethod } from '../vocabulary.ts';
import { idOf } from './workshop.ts';

/**
 * Where conductors for burial go on through raceway beside them, both are one stretch: `carried-in` comes before the
 * buried leg, `carried-out` after it.
 */
export type Phase = 'plain' | 'carried-in' | 'carried-out';

/** One way to lay a leg or the tail at a metal and size. */
export interface Choice {
  /** Of its piece. */
  at: number;
  method: WiringMethod;
  wiring: Wiring;
  phase: Phase;
  /** Is it new raceway that conductors for burial would go on through? */
  carries: boolean;
  section: Section;
  conduit?: NonNullable<RunLeg['conduit']>;
  stretch: Stretch;
  /** In a ditch or a bore: the cover it asks for and how thick it is, in inches; else 0. */
  coverIn: number;
  thickIn: number;
  /** One number for all that a stretch's part of the take-off looks at, and one for what a joint looks at. */
  id: number;
  sideId: number;
  /** One number for its conductors. */
  wireId: number;
  /** One number for all that is stated of its leg, or for its tail. */
  legId: number;
  /** The smallest size that would carry the circuit here, and the one that its ground is figured from. */
  leastSize: ConductorSize;
  fromSize: ConductorSize;
}

/** A leg of a circuit, or its tail, before anything is chosen. */
export interface Piece {
  at: number;
  laid: Omit<LaidPiece, 'method'>;
  methods: WiringMethod[];
  legId: number;
}

/** A circuit in one metal and size, or in one that changes at a splice, with what may be chosen for each piece. */
export interface Sized {
  circuit: Circuit;
  /** At its end. */
  metal: Metal;
  size: ConductorSize;
  /** What it begins as, where it changes. */
  begins?: Beginning;
  dropPercent: number;
  choices: Choice[][];
  /** The order in which equals are preferred: copper first, then the smaller size; what changes last. */
  order: number;
}

/** A circuit in a metal and size; pieces that it cannot be laid along have no choice. */
export type Row = Pick<Sized, 'metal' | 'size' | 'choices' | 'order'>;

/** A circuit with its pieces, and what was found out of wirings and sizes so far. */
export interface Space {
  job: Job;
  circuit: Circuit;
  pieces: Piece[];
  sections: Map<string, Section | undefined>;
  enough: Map<string, ConductorSize[]>;
  loosely: Map<string, ConductorSize>;
  choices: Map<string, Choice | undefined>;
  raceways: Map<string, ReturnType<typeof racewayFor>>;
  rows?: Row[];
  changedDropPercent?: number;
  /** Numbers for texts, shared by all circuits of an option. */
  ids: Map<string, number>;
}

/** The pieces of a circuit. A tail of no length is laid as what comes before it. */
export function spaceOf(
  job: Job,
  circuit: Circuit,
  { ids, opensFinishes }: { ids: Map<string, number>; opensFinishes: boolean },
): Space {
  const legs = circuit.legs.flatMap((leg) => job.route[leg] ?? []);
  const spots = legs.map((placed) => ({ placed, spot: placed, fixed: fixedMethod(placed) }));
  const pieces = spots.map(({ placed, spot, fixed }, at): Piece => {
    const lawful = WIRING_METHODS.filter((method) => allowedAt(job, spot, method).allowed);
    const { stated, feet, place } = placed;
    const legId = idOf(ids, `leg ${JSON.stringify([stated, feet, place])}`);
    return { at, laid: { placed }, methods: fixed ? [fixed] : behindFinishes(plannable(job, lawful), placed), legId };
  });

  /** Stiff raceway does not go through closed framing: only where nothing else is to be had is the finish opened for it. */
  function behindFinishes(methods: WiringMethod[], placed: PlacedLeg): WiringMethod[] {
    const fished = opensFinishes || !isClosed(job, placed) ? [] : methods.filter((method) => !isRaceway(method));
    return fished.length > 0 ? fished : methods;
  }

  const { tail } = circuit;
  if (tail && (tail.lengthFt > 0 || pieces.length === 0)) {
    const lawful = WIRING_METHODS.filter((method) => allowedAt(job, tail, method).allowed);
    const legId = idOf(
      ids,
      `tail ${tail.lengthFt} ${tail.place} ${circuit.chargers.length > 0} ${circuit.poles}${circuit.neutral}`,
    );
    pieces.push({ at: pieces.length, laid: {}, methods: plannable(job, lawful), legId });
  }
  return {
    job,
    circuit,
    pieces,
    sections: new Map(),
    enough: new Map(),
    loosely: new Map(),
    choices: new Map(),
    raceways: new Map(),
    ids,
  };
}

/** Where only the rough-in is built now, conductors are pulled later: raceways alone. */
function plannable({ option }: Job, methods: WiringMethod[]): WiringMethod[] {
  return option.roughInOnly ? methods.filter(isRaceway) : methods;
}

/** Sizes that carry the circuit over one piece, sold or not. */
export function enoughSizes(space: Space, { laid }: Piece, wiring: Wiring, metal: Metal): ConductorSize[] {
  const { placed } = laid;
  const company = placed?.stated.occupiedBy?.length ? placed.leg : '';
  const text = `${wiring} ${metal} ${placed?.ambientC ?? 'tail'} ${company}`;
  const known = space.enough.get(text);
  if (known) return known;
  const piece: LaidPiece = { ...laid, method: 'pvc' };
  const sizes = sufficientSizes({ circuit: space.circuit, stretch: { wiring, pieces: [piece] }, metal });
  space.enough.set(text, sizes);
  return sizes;
}

/** How a wiring is sold at a size, its ground figured from the smallest size that would do. */
function sectionOf(
  space: Space,
  { wiring, metal, size, fromSize }: { wiring: Wiring; metal: Metal; size: ConductorSize; fromSize: ConductorSize },
): Section | undefined {
  const text = `${wiring} ${metal} ${size} ${fromSize}`;
  if (space.sections.has(text)) return space.sections.get(text);
  const { circuit, job } = space;
  const wired = wiredAt({ circuit, stretch: { wiring, pieces: [] }, metal, book: job.book, fromSize }, size);
  const neutral = circuit.neutral ? { neutralSize: size } : {};
  const section = wired && { ...withoutSpare(wired), metal, ...neutral, legs: [], tail: false };
  space.sections.set(text, section);
  return section;
}

function withoutSpare<Wired extends { spare: boolean }>({ spare: _spare, ...wired }: Wired) {
  return wired;
}

interface Wish {
  piece: Piece;
  method: WiringMethod;
  wiring: Wiring;
  phase: Phase;
  metal: Metal;
  size: ConductorSize;
  fromSize: ConductorSize;
}

/** A method at a size on a piece, or nothing where it does not carry the circuit, is not sold or does not fit. */
export function choiceAt(space: Space, wish: Wish): Choice | undefined {
  const { piece, method, wiring, phase, metal, size, fromSize } = wish;
  const text = `${piece.at} ${method} ${wiring} ${phase} ${metal} ${size} ${fromSize}`;
  if (space.choices.has(text)) return space.choices.get(text);
  const choice = makeChoice(space, wish);
  space.choices.set(text, choice);
  return choice;
}

function makeChoice(space: Space, { piece, method, wiring, phase, metal, size, fromSize }: Wish): Choice | undefined {
  const { job, circuit } = space;
  const enough = enoughSizes(space, piece, wiring, metal);
  if (!enough.includes(size)) return undefined;
  const section = sectionOf(space, { wiring, metal, size, fromSize });
  if (!section) return undefined;
  const laid: LaidPiece = { ...piece.laid, method };
  const there = thereAlready(piece.laid.placed);
  if (there && !fitsThere(piece.laid.placed, conductorsIn(section, circuit))) return undefined;
  const raceway = isRaceway(method) && !there ? racewayOf(space, section, laid) : undefined;
  if (raceway?.problem) return undefined;
  const conduit = there ?? raceway?.conduit;
  const { placed } = piece.laid;
  const dug = placed !== undefined && isDug(placed);
  const stretch = stretchOf(space, laid, section, conduit);
  const { type = '', tradeSize = '' } = conduit ?? {};
  const sold = `${metal} ${section.insulation} ${section.cable?.form ?? ''}${section.cable?.conductors ?? ''} ${section.size} ${section.groundSize} ${section.groundMetal}`;
  const text = `${method} ${type} ${tradeSize} ${sold}`;
  return {
    at: piece.at,
    method,
    wiring,
    phase,
    carries: wiring === 'singles' && carriesOn(laid),
    section,
    ...(conduit && { conduit }),
    stretch,
    coverIn: dug ? leastCoverIn(job, placed, circuit, method) : 0,
    thickIn: dug ? thicknessIn(conduit) : 0,
    id: idOf(space.ids, text),
    wireId: idOf(space.ids, sold),
    legId: piece.legId,
    sideId: idOf(space.ids, `${stretch.kind} ${stretch.place} ${circuit.chargers.length > 0} ${text}`),
    leastSize: enough[0] ?? size,
    fromSize,
  };
}

/** The raceway that is there on a leg, if any; how full it will be is found when all circuits are known. */
function thereAlready(placed: LaidPiece['placed']): RunLeg['conduit'] {
  if (placed?.stated.kind !== 'existing-raceway') return undefined;
  const { type = 'pvc-40', tradeSize = '1' } = placed.stated; // the description insists on both
  return { type, tradeSize, fillPercent: 0 };
}

/** Do conductors fit into the raceway that is there on a leg, with what it holds already? NEC Chapter 9 Table 1. */
export function fitsThere(placed: LaidPiece['placed'], conductors: readonly FillConductor[]): boolean {
  const there = thereAlready(placed);
  if (!there) return true;
  const all = [...conductors, ...(placed?.stated.occupiedBy ?? [])];
  return filled({ type: there.type, tradeSize: there.tradeSize, conductors: all })?.fits ?? false;
}

/** The raceway of a piece: the same for every leg that it is laid anew along. */
function racewayOf({ job, circuit, raceways }: Space, section: Section, laid: LaidPiece) {
  const { insulation, metal, size, groundSize, cable } = section;
  const text = `${laid.method} ${insulation} ${metal} ${size} ${groundSize} ${cable?.conductors}`;
  const known = raceways.get(text) ?? racewayFor(job, circuit, section, laid);
  raceways.set(text, known);
  return known;
}

function stretchOf(
  { circuit }: Space,
  { placed, method }: LaidPiece,
  section: Section,
  conduit: RunLeg['conduit'],
): Stretch {
  const raceway = conduit && { type: conduit.type, tradeSize: conduit.tradeSize };
  const how = { method, conduit: raceway, section, words: '' };
  if (!placed) {
    const { lengthFt = 0, place = 'dry-exposed' } = circuit.tail ?? {};
    return { ...how, leg: undefined, stated: undefined, kind: 'tail', lengthFt, riseFt: 0, place, existing: false };
  }
  const { leg, stated, feet, place } = placed;
  const existing = stated.kind === 'existing-raceway';
  return { ...how, leg, stated, kind: stated.kind, lengthFt: feet.likely, riseFt: stated.riseFt, place, existing };
}

/** May the second follow the first? Conductors for burial go on through raceway beside them, and only through it. */
export function mayFollow(before: Choice, after: Choice): boolean {
  if (before.phase === 'carried-in') return after.wiring === 'use-2' && after.phase !== 'carried-out';
  if (before.wiring === 'use-2') return after.phase !== 'carried-in' && !after.carries;
  if (before.carries) return after.wiring !== 'use-2';
  return after.phase !== 'carried-out';
}

/** May the second be joined to the first where the run changes? Neither wants to go on through raceway beside it. */
export function mayJoin(before: Choice, after: Choice): boolean {
  return before.phase !== 'carried-in' && after.phase !== 'carried-out';
}

/** Are two choices of one section, with no splice between them? */
export function isOneSection(before: Choice, after: Choice): boolean {
  const [a, b] = [before.section, after.section];
  return before.wiring === after.wiring && a.metal === b.metal && a.size === b.size;
}
