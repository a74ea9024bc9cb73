/*
 * Ways through the layers of a run, the one with the least bound first.
 *
 * A way is a row of sections, each of one wiring. Conductors are bought section by section, and no piece is spliced: a
 * section that is the only one of its wiring costs what its own pieces cost, known when it ends. Sections of one wiring may
 * share a coil: together they cost at least the lesser of some lines over their feet. So a way says of each wiring, when
 * it is first used, whether it comes again, and by which line it is bounded. What a section costs inside does not depend
 * on that, nor on what came before: it is found once for each node that it may begin at.
 */
import type { Choice, Sized } from './choices.ts';
import { emptyHeap, type Heap, leastRank, pop, push } from './heap.ts';
import { type Layers, MOST_NODES, type Stretch } from './layers.ts';

/** A way through a run in one metal and size, with its bound in cents. */
export interface RunWay {
  sized: Sized;
  path: Choice[];
  cents: number;
}

/** Three bits for each wiring: not used, alone, or by which line and whether once or more. */
const BITS = 3;
const UNUSED = 0;
const ALONE = 1;
const onceBy = (line: number) => 2 + 2 * line;
const moreBy = (line: number) => 3 + 2 * line;
const manyOf = (used: number, wiring: number) => (used >> (BITS * wiring)) & 7;
const withUse = (used: number, wiring: number, use: number) =>
  (used & ~(7 << (BITS * wiring))) | (use << (BITS * wiring));

/** How a section's conductors are bounded: alone, or by a line that its wiring may have paid for already. */
interface Manner {
  used: number;
  /** Of its wiring; -1 where it is alone. */
  line: number;
  paysFixed: boolean;
  withMakeup: boolean;
}

/** Where a way stands: at a node of a section. */
interface State {
  piece: number;
  node: number;
  start: number;
  manner: Manner;
  /** Bends since the last pull point, in eighths of what is allowed. */
  bends: number;
  /** What everything cost so far but the conductors of this section. */
  spent: number;
  before: State | undefined;
  isWhole: boolean;
  /** The sections before this one that are bounded by lines, the last one first. */
  ended: Ended | undefined;
}

/** A section that has ended, with those before it. */
interface Ended extends Stretch {
  wiring: number;
  line: number;
  /** What all sections of its wiring so far cost beyond its line. */
  beyondCents: number;
  before: Ended | undefined;
}

/** The least cost inside of a section from a node on: to each node of each later piece. */
interface Inside {
  /** One row a piece, from the section's first on; a cell for each node of that piece. */
  rows: Float64Array[];
}

/** Ways through one run at one metal and size. */
export interface Ways {
  sized: Sized;
  layers: Layers;
  inside: (Inside | undefined)[][];
  begun: Map<number, number>;
  closed: Map<number, number>;
  within: Map<number, number>;
  steps: (Float64Array | undefined)[];
  open: Heap<State>;
  /** Are conductors bounded by lines alone from now on, whatever pieces they are cut in? */
  isLoose: boolean;
}

/** What a bound may lose for deeper ways to be looked at first, in cents a piece. */
const DEEPER_CENTS = 1e-6;
const MOST_EIGHTHS = 8;

/** Opens the first ways. */
export function waysThrough(sized: Sized, layers: Layers): Ways {
  const { nodes } = layers;
  const ways: Ways = {
    ...{ sized, layers, inside: nodes.map(() => []), begun: new Map(), closed: new Map() },
    ...{ within: new Map(), steps: [] },
    open: emptyHeap<State>(),
    isLoose: false,
  };
  nodes[0]?.forEach((_, node) => {
    const spent = layers.startCents(node);
    if (Number.isFinite(spent)) begin(ways, { piece: 0, node, used: 0, spent, before: undefined, ended: undefined });
  });
  return ways;
}

/** The bound of the next way. */
export function nextCents({ open }: Ways): number {
  return leastRank(open);
}

/** Takes the way with the least bound. */
export function takeWay(ways: Ways): RunWay | undefined {
  for (let opened = 1; ; opened += 1) {
    if (opened > MOST_OPENED) ways.isLoose = true;
    const taken = pop(ways.open);
    if (!taken) return undefined;
    const { item: state, rank } = taken;
    if (state.isWhole) return { sized: ways.sized, path: pathTo(ways, state), cents: rank };
    goOn(ways, state);
  }
}

/** States that are opened for one way; beyond that pieces are not counted any more as they are cut, and the bound is looser. */
const MOST_OPENED = 100_000;

function pathTo({ layers }: Ways, last: State): Choice[] {
  const path: Choice[] = [];
  for (let state: State | undefined = last; state; state = state.before) {
    const choice = layers.nodes[state.piece]?.[state.node]?.choice;
    if (choice) path.unshift(choice);
  }
  return path;
}

/** The ways to buy the conductors of a section that begins. */
function mannersOf({ layers }: Ways, wiring: number, used: number): Manner[] {
  const use = manyOf(used, wiring);
  if (!layers.isAlonePriced(wiring)) {
    const withMakeup = use <= ALONE;
    return [{ used: withUse(used, wiring, use === UNUSED ? ALONE : moreBy(0)), line: 0, paysFixed: false, withMakeup }];
  }
  if (use === ALONE) return [];
  if (use !== UNUSED) {
    const line = (use >> 1) - 1;
    const isSecond = use === onceBy(line);
    return [{ used: withUse(used, wiring, moreBy(line)), line, paysFixed: false, withMakeup: isSecond }];
  }
  const alone = { used: withUse(used, wiring, ALONE), line: -1, paysFixed: false, withMakeup: true };
  const byLine = layers.lines(wiring).map((_, line) => {
    return { used: withUse(used, wiring, onceBy(line)), line, paysFixed: true, withMakeup: true };
  });
  return [alone, ...byLine];
}

/** Was it said of some wiring that it comes again, and it does not? */
function isOwed({ layers }: Ways, used: number): boolean {
  for (let wiring = 0; wiring < layers.wirings; wiring += 1) {
    const use = manyOf(used, wiring);
    if (use > ALONE && use % 2 === 0) return true;
  }
  return false;
}

/**
 * What was said of wirings, once the section at a piece has ended. What comes before a change does not come again after
 * it: nothing of it is kept then. Nothing where the section may not end there.
 */
function usedAfter(ways: Ways, piece: number, used: number): number | undefined {
  if (piece + 1 !== ways.layers.changesAt) return used;
  return isOwed(ways, used) ? undefined : 0;
}

/** What the conductors of a section cost. */
function wireCents(
  { layers }: Ways,
  wiring: number,
  { from, to, manner }: { from: number; to: number; manner: Manner },
) {
  if (manner.line < 0) return layers.aloneCents(wiring, from, to);
  const line = layers.lines(wiring)[manner.line];
  if (!line) return 0;
  const cents = layers.pooledCents(wiring, { from, to, line: manner.line, withMakeup: manner.withMakeup });
  return cents + (manner.paysFixed ? line.fixedCents : 0);
}

function stepAt({ layers, steps }: Ways, piece: number, from: number, to: number): number {
  const next = layers.nodes[piece + 1]?.length ?? 0;
  let matrix = steps[piece];
  if (!matrix) {
    matrix = new Float64Array((layers.nodes[piece]?.length ?? 0) * next).fill(Number.NaN);
    steps[piece] = matrix;
  }
  const known = matrix[from * next + to] ?? Number.NaN;
  if (!Number.isNaN(known)) return known;
  const cents = layers.step(piece, from, to);
  matrix[from * next + to] = cents;
  return cents;
}

/** Bends so far, in eighths, and the pull boxes that they have cost. */
interface Bent {
  bends: number;
  cents: number;
}

/** Bends go on by so many more: a pull box as often as there are more than may be. */
function bent({ layers }: Ways, at: { piece: number; node: number; bends: number }): Bent {
  const boxes = boxesFor(at.bends);
  const cents = boxes > 0 ? boxes * (layers.nodes[at.piece]?.[at.node]?.pullBoxCents ?? 0) : 0;
  return { bends: at.bends - boxes * MOST_EIGHTHS, cents };
}

const boxesFor = (bends: number) => (bends > MOST_EIGHTHS ? Math.ceil(bends / MOST_EIGHTHS) - 1 : 0);

/** From a node to one of the next piece within a section: what it costs, its own node included, and the bends then. */
function move(ways: Ways, { piece, node, bends }: Pick<State, 'piece' | 'node' | 'bends'>, to: number) {
  const step = stepAt(ways, piece, node, to);
  if (!Number.isFinite(step)) return undefined;
  const { layers } = ways;
  const itself = layers.nodes[piece + 1]?.[to]?.cents ?? 0;
  const turn = layers.bends(piece, node, to);
  if (!turn.isOpened) {
    const on = bent(ways, { piece: piece + 1, node: to, bends: bends + turn.after });
    return { bends: on.bends, cents: step + itself + on.cents };
  }
  const ended = bent(ways, { piece, node, bends: bends + turn.before });
  const begun = bent(ways, { piece: piece + 1, node: to, bends: turn.after });
  return { bends: begun.bends, cents: step + itself + ended.cents + begun.cents };
}

const NO_CELLS = new Float64Array();

/** A cell for each count of bends, 0 to what is allowed. */
const CELLS = MOST_EIGHTHS + 1;

/** Looks once what a section costs inside that begins at a node; its first node counts, its conductors do not. */
function insideOf(ways: Ways, piece: number, node: number): Inside {
  const known = ways.inside[piece]?.[node];
  if (known) return known;
  const { layers } = ways;
  const itself = layers.nodes[piece]?.[node];
  const opened = bent(ways, { piece, node, bends: layers.opening(piece, node) });
  let reached = emptyCells(ways, piece);
  reached[node * CELLS + opened.bends] = (itself?.cents ?? 0) + opened.cents;
  const rows: Float64Array[] = [];
  const wiring = itself?.wiring ?? 0;
  for (let at = piece; ; at += 1) {
    const row = ended(ways, at, reached);
    if (!row) break;
    rows.push(row);
    reached = moved(ways, { piece: at, wiring, reached });
  }
  const inside = { rows };
  const some = ways.inside[piece];
  if (some) some[node] = inside;
  return inside;
}

function emptyCells({ layers }: Ways, piece: number): Float64Array {
  return new Float64Array((layers.nodes[piece]?.length ?? 0) * CELLS).fill(Number.POSITIVE_INFINITY);
}

/** The least cost of a section that ends at each node of a piece; nothing where none is reached. */
function ended(ways: Ways, piece: number, reached: Float64Array): Float64Array | undefined {
  const { layers } = ways;
  const nodes = layers.nodes[piece] ?? [];
  const row = new Float64Array(nodes.length).fill(Number.POSITIVE_INFINITY);
  let isReached = false;
  nodes.forEach(({ pullBoxCents }, node) => {
    const closing = layers.closing(piece, node);
    for (let bends = 0; bends < CELLS; bends += 1) {
      const cents = reached[node * CELLS + bends] ?? Number.POSITIVE_INFINITY;
      if (cents === Number.POSITIVE_INFINITY) continue;
      isReached = true;
      row[node] = Math.min(row[node] ?? 0, cents + boxesFor(bends + closing) * pullBoxCents);
    }
  });
  return isReached ? row : undefined;
}

/** All that is reached of a piece goes on to the nodes of its wiring in the next one. */
function moved(ways: Ways, { piece, wiring, reached }: { piece: number; wiring: number; reached: Float64Array }) {
  const { layers } = ways;
  const next = emptyCells(ways, piece + 1);
  const after = layers.nodes[piece + 1] ?? [];
  layers.nodes[piece]?.forEach((from, node) => {
    if (from.wiring !== wiring) return;
    for (let to = 0; to < after.length; to += 1) {
      const one = after[to];
      if (one?.wiring !== wiring) continue;
      let cost: number | undefined;
      for (let bends = 0; bends < CELLS; bends += 1) {
        const cents = reached[node * CELLS + bends] ?? Number.POSITIVE_INFINITY;
        if (cents === Number.POSITIVE_INFINITY) continue;
        cost ??= stepAt(ways, piece, node, to) + one.cents;
        if (cost === Number.POSITIVE_INFINITY) break;
        const { isOpened, before, after: more } = layers.bends(piece, node, to);
        const endedBoxes = isOpened ? boxesFor(bends + before) * from.pullBoxCents : 0;
        const total = isOpened ? more : bends + more;
        const boxes = boxesFor(total);
        const cell = to * CELLS + total - boxes * MOST_EIGHTHS;
        const sum = cents + cost + endedBoxes + boxes * one.pullBoxCents;
        if (sum < (next[cell] ?? 0)) next[cell] = sum;
      }
    }
  });
  return next;
}

const keyOf = ({ layers }: Ways, piece: number, node: number, used: number) =>
  (used * layers.nodes.length + piece) * MOST_NODES + node;

/** The least from the end of a section at a node to the end of the run. */
function leastAfter(ways: Ways, piece: number, node: number, used: number): number {
  const key = keyOf(ways, piece, node, used);
  const known = ways.closed.get(key);
  if (known !== undefined) return known;
  const { layers } = ways;
  let least = Number.POSITIVE_INFINITY;
  if (piece === layers.nodes.length - 1) {
    if (!isOwed(ways, used)) least = layers.endCents(node);
  } else {
    const wiring = layers.nodes[piece]?.[node]?.wiring;
    const after = layers.nodes[piece + 1] ?? [];
    const kept = usedAfter(ways, piece, used);
    for (let to = 0; to < after.length && kept !== undefined; to += 1) {
      if (after[to]?.wiring === wiring) continue;
      const step = stepAt(ways, piece, node, to);
      if (step === Number.POSITIVE_INFINITY) continue;
      least = Math.min(least, step + leastFrom(ways, piece + 1, to, kept));
    }
  }
  ways.closed.set(key, least);
  return least;
}

/** The least of a section that begins at a node, and of all that follows. */
function leastFrom(ways: Ways, piece: number, node: number, used: number): number {
  const key = keyOf(ways, piece, node, used);
  const known = ways.begun.get(key);
  if (known !== undefined) return known;
  const wiring = ways.layers.nodes[piece]?.[node]?.wiring ?? 0;
  let least = Number.POSITIVE_INFINITY;
  for (const manner of mannersOf(ways, wiring, used)) {
    least = Math.min(least, leastOn(ways, { piece, node, start: piece, manner }));
  }
  ways.begun.set(key, least);
  return least;
}

/** The least from a node of a section on, the node counted: to its end, its conductors from its start, and what follows. */
function leastOn(ways: Ways, at: Within): number {
  const key = withinKey(ways, at);
  const known = ways.within.get(key);
  if (known !== undefined) return known;
  const least = leastOnAfresh(ways, at);
  ways.within.set(key, least);
  return least;
}

type Within = Pick<State, 'piece' | 'node' | 'start' | 'manner'>;

/** One number for a place in a section and the manner in which its conductors are bounded. */
function withinKey(ways: Ways, { piece, node, start, manner }: Within): number {
  const { used, line, paysFixed, withMakeup } = manner;
  const kind = (line + 1) * 4 + Number(paysFixed) * 2 + Number(withMakeup);
  return (keyOf(ways, piece, node, used) * ways.layers.nodes.length + start) * MOST_MANNERS + kind;
}

/** More lines than there are, each with two questions that are answered yes or no. */
const MOST_MANNERS = 12;

function leastOnAfresh(ways: Ways, { piece, node, start, manner }: Within): number {
  const wiring = ways.layers.nodes[piece]?.[node]?.wiring ?? 0;
  const { rows } = insideOf(ways, piece, node);
  let least = Number.POSITIVE_INFINITY;
  for (let further = 0; further < rows.length; further += 1) {
    const row = rows[further] ?? NO_CELLS;
    const to = piece + further;
    const wire = wireCents(ways, wiring, { from: start, to, manner });
    for (let last = 0; last < row.length; last += 1) {
      const bound = (row[last] ?? 0) + wire;
      // What follows may be less than nothing: an end that is cheaper than the one all others are compared with.
      if (bound < Number.POSITIVE_INFINITY) least = Math.min(least, bound + leastAfter(ways, to, last, manner.used));
    }
  }
  return least;
}

type Beginning = Pick<State, 'piece' | 'node' | 'spent' | 'before' | 'ended'> & { used: number };

/** Opens the states in which a section begins at a node. */
function begin(ways: Ways, { piece, node, used, spent, before, ended }: Beginning): void {
  const { layers } = ways;
  const itself = layers.nodes[piece]?.[node];
  if (!itself) return;
  const opened = bent(ways, { piece, node, bends: layers.opening(piece, node) });
  for (const manner of mannersOf(ways, itself.wiring, used)) {
    const state = { piece, node, start: piece, manner, bends: opened.bends, before, isWhole: false, ended };
    put(ways, { ...state, spent: spent + itself.cents + opened.cents });
  }
}

function put(ways: Ways, state: State): void {
  const { piece, node, spent } = state;
  const itself = ways.layers.nodes[piece]?.[node]?.cents ?? 0;
  const rank = state.isWhole ? spent : spent - itself + leastOn(ways, state);
  if (Number.isFinite(rank)) push(ways.open, rank - piece * DEEPER_CENTS, state);
}

/** Opens all that may follow a state: on within its section, its end with the next one's beginning, or the run's end. */
function goOn(ways: Ways, state: State): void {
  const { layers } = ways;
  const { piece, node, start, manner, spent } = state;
  const wiring = layers.nodes[piece]?.[node]?.wiring ?? 0;
  const closing = bent(ways, { piece, node, bends: state.bends + layers.closing(piece, node) });
  const { ended, moreCents } = endSection(ways, wiring, state);
  const endedCents = spent + closing.cents + wireCents(ways, wiring, { from: start, to: piece, manner }) + moreCents;
  if (piece === layers.nodes.length - 1) {
    if (isOwed(ways, manner.used)) return;
    put(ways, { ...state, spent: endedCents + layers.endCents(node) + atLast(ways, ended), isWhole: true });
    return;
  }
  layers.nodes[piece + 1]?.forEach((after, to) => {
    if (after.wiring === wiring) {
      const step = move(ways, state, to);
      if (!step) return;
      const next = { ...state, piece: piece + 1, node: to, bends: step.bends, before: state };
      put(ways, { ...next, spent: spent + step.cents });
      return;
    }
    const step = stepAt(ways, piece, node, to);
    const used = usedAfter(ways, piece, manner.used);
    if (!Number.isFinite(step) || used === undefined) return;
    const next = { piece: piece + 1, node: to, used, before: state, ended };
    begin(ways, { ...next, spent: endedCents + step });
  });
}

const listed = (ended: Ended | undefined, wiring: number): Ended[] => {
  const some: Ended[] = [];
  for (let one = ended; one; one = one.before) if (one.wiring === wiring) some.unshift(one);
  return some;
};

/** The sections that have ended with this one, and what its pieces cost more than was thought of its wiring. */
function endSection({ layers, isLoose }: Ways, wiring: number, { start, piece, manner, ended }: State) {
  if (isLoose || manner.line < 0 || !layers.isAlonePriced(wiring)) return { ended, moreCents: 0 };
  const known = listed(ended, wiring);
  const itself = { wiring, from: start, to: piece, line: manner.line, before: ended };
  const beyondCents = layers.beyondLine(wiring, manner.line, [...known, itself]);
  return { ended: { ...itself, beyondCents }, moreCents: beyondCents - (known.at(-1)?.beyondCents ?? 0) };
}

/** What the pieces of all wirings cost more, now that no further section comes. */
function atLast({ layers, isLoose }: Ways, ended: Ended | undefined): number {
  let cents = 0;
  if (isLoose) return cents;
  const seen = new Set<number>();
  for (let one = ended; one; one = one.before) {
    if (seen.has(one.wiring)) continue;
    seen.add(one.wiring);
    cents += layers.beyondLineAtLast(one.wiring, one.line, listed(ended, one.wiring)) - one.beyondCents;
  }
  return cents;
}
