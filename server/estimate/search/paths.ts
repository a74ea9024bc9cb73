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
import { atLast, type Ended, endSection } from './ended-sections.ts';
import { emptyHeap, type Heap, leastRank, pop, push } from './heap.ts';
import { type Layers, MOST_NODES } from './layers.ts';
import { isOwed, type Manner, mannersOf, usedAfter, wireCents } from './manners.ts';

/** A way through a run in one metal and size, with its bound in cents. */
export interface RunWay {
  sized: Sized;
  path: Choice[];
  cents: number;
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
  /** What is dearer is not kept. */
  mostCents: number;
  /** How many states were opened so far. */
  opened: number;
}

/** What a bound may lose for deeper ways to be looked at first, in cents a piece. */
const DEEPER_CENTS = 1e-6;
const MOST_EIGHTHS = 8;

/** Opens the first ways. */
export function waysThrough(sized: Sized, layers: Layers, { isLoose }: { isLoose: boolean }): Ways {
  const { nodes } = layers;
  const ways: Ways = {
    ...{ sized, layers, inside: nodes.map(() => []), begun: new Map(), closed: new Map() },
    ...{ within: new Map(), steps: [] },
    open: emptyHeap<State>(),
    isLoose,
    ...{ mostCents: Number.POSITIVE_INFINITY, opened: 0 },
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

/** Takes the way with the least bound, if that is not more than so many cents: nobody asks for what is dearer any more. */
export function takeWay(ways: Ways, mostCents = Number.POSITIVE_INFINITY): RunWay | undefined {
  ways.mostCents = mostCents;
  while (nextCents(ways) <= mostCents) {
    ways.opened += 1;
    if (ways.opened > MOST_OPENED) ways.isLoose = true;
    const taken = pop(ways.open);
    if (!taken) return undefined;
    const { item: state, rank } = taken;
    if (state.isWhole) return { sized: ways.sized, path: pathTo(ways, state), cents: rank };
    goOn(ways, state);
  }
  return undefined;
}

/** States of a run in one metal and size that are opened with care; beyond that pieces are not counted any more as they are cut, and the bound is looser. */
const MOST_OPENED = 60_000;

function pathTo({ layers }: Ways, last: State): Choice[] {
  const path: Choice[] = [];
  for (let state: State | undefined = last; state; state = state.before) {
    const choice = layers.nodes[state.piece]?.[state.node]?.choice;
    if (choice) path.unshift(choice);
  }
  return path;
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
    if (!isOwed(ways.layers, used)) least = layers.endCents(node);
  } else {
    const wiring = layers.nodes[piece]?.[node]?.wiring;
    const after = layers.nodes[piece + 1] ?? [];
    const kept = usedAfter(ways.layers, piece, used);
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
  for (const manner of mannersOf(ways.layers, wiring, used)) {
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
    const wire = wireCents(ways.layers, wiring, { from: start, to, manner });
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
  for (const manner of mannersOf(ways.layers, itself.wiring, used)) {
    const state = { piece, node, start: piece, manner, bends: opened.bends, before, isWhole: false, ended };
    put(ways, { ...state, spent: spent + itself.cents + opened.cents });
  }
}

function put(ways: Ways, state: State): void {
  const { piece, node, spent } = state;
  const itself = ways.layers.nodes[piece]?.[node]?.cents ?? 0;
  const rank = state.isWhole ? spent : spent - itself + leastOn(ways, state);
  if (rank <= ways.mostCents && Number.isFinite(rank)) push(ways.open, rank - piece * DEEPER_CENTS, state);
}

/** Opens all that may follow a state: on within its section, its end with the next one's beginning, or the run's end. */
function goOn(ways: Ways, state: State): void {
  const { layers } = ways;
  const { piece, node, start, manner, spent } = state;
  const wiring = layers.nodes[piece]?.[node]?.wiring ?? 0;
  const closing = bent(ways, { piece, node, bends: state.bends + layers.closing(piece, node) });
  const { ended, moreCents } = ways.isLoose ? { ended: undefined, moreCents: 0 } : endSection(layers, wiring, state);
  const endedCents =
    spent + closing.cents + wireCents(ways.layers, wiring, { from: start, to: piece, manner }) + moreCents;
  if (piece === layers.nodes.length - 1) {
    if (isOwed(ways.layers, manner.used)) return;
    put(ways, { ...state, spent: endedCents + layers.endCents(node) + atLast(layers, ended), isWhole: true });
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
    const used = usedAfter(ways.layers, piece, manner.used);
    if (!Number.isFinite(step) || used === undefined) return;
    const next = { piece: piece + 1, node: to, used, before: state, ended };
    begin(ways, { ...next, spent: endedCents + step });
  });
}
