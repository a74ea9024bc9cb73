/*
 * Where a run may change its metal or size at a splice: which of these changes are worth a look, by what both parts cost
 * at least. Both bounds go piece by piece and joint by joint, with conductors by the foot at the best price of any plan.
 */
import { mayJoin, type Sized } from './choices.ts';
import type { Layers } from './layers.ts';
import { type Ground, NOTHING_FREE, type Search } from './preparing.ts';
import { joinCents } from './run-bound.ts';
import { layersAt, questionOf } from './run-lists.ts';
import { type Change, changed, changesOf } from './sizes.ts';

/** What a part of a run costs at least: a row a piece, a cell a node. */
type Parts = readonly (readonly number[])[];

/** A run in one metal and size, as the beginning or as the end of one that changes. */
interface Part {
  layers: Layers;
  /** From the start of the run to each node, and from each node to the end, itself included both times. */
  upTo: Parts;
  from: Parts;
}

interface Asked {
  run: number;
  /** Of the run alone: beyond it nothing is worth a look. */
  mostCents: number;
  /** Of the run alone, in percent. */
  mostDropPercent: number;
}

/** A change with both of its parts, and what these cost at least without the splice between them. */
interface Parted {
  change: Change;
  before: Part;
  after: Part;
  cents: number;
}

/** The changes of a run's metal or size that may cost no more than so much. */
export function worthChanging(search: Search, ground: Ground, asked: Asked): Sized[] {
  const { run, mostCents, mostDropPercent } = asked;
  return partedBy(search, ground, run).flatMap(({ change, before, after, cents }) => {
    const space = search.model.runs[run]?.space;
    if (!space || cents > mostCents) return [];
    const sized = changed(space, change);
    if (sized.dropPercent > mostDropPercent) return [];
    return joinedCents(search, ground, { run, sized, before, after }) <= mostCents ? [sized] : [];
  });
}

/** What a run costs at least that changes its metal or size, whatever it loses; infinite where it may not. */
export function leastChangedCents(search: Search, ground: Ground, run: number): number {
  return least(partedBy(search, ground, run).map(({ cents }) => cents));
}

function partedBy(search: Search, ground: Ground, run: number): Parted[] {
  const model = search.model.runs[run];
  if (!model || run >= search.model.arriving) return [];
  const { space } = model;
  const parts = new Map<Change['before'], Part>();
  const partOf = (row: Change['before']): Part => {
    const known = parts.get(row);
    if (known) return known;
    const sized = { ...row, circuit: space.circuit, dropPercent: 0 };
    const layers = layersAt(search, { run, sized, ground, free: NOTHING_FREE });
    const part = { layers, upTo: leastUpTo(layers), from: leastFrom(layers) };
    parts.set(row, part);
    return part;
  };
  return changesOf(space).map((change) => {
    const [before, after] = [partOf(change.before), partOf(change.after)];
    const cents = least(before.upTo[change.pieces - 1]) + least(after.from[change.pieces]);
    return { change, before, after, cents };
  });
}

const least = (cents: readonly number[] | undefined) => Math.min(...(cents ?? []));

/** Conductors and all else of a node. */
const ownCents = ({ nodes, leastPerFt }: Layers, piece: number) =>
  (nodes[piece] ?? []).map(({ cents, wiring, wireFt }) => cents + leastPerFt(wiring) * wireFt);

function leastUpTo(layers: Layers): Parts {
  const rows: number[][] = [];
  for (const piece of layers.nodes.keys()) {
    const before = rows.at(-1);
    rows.push(
      ownCents(layers, piece).map((own, node) => {
        if (!before) return layers.startCents(node) + own;
        return own + Math.min(...before.map((cents, from) => cents + layers.step(piece - 1, from, node)));
      }),
    );
  }
  return rows;
}

function leastFrom(layers: Layers): Parts {
  const rows: number[][] = [];
  for (const piece of [...layers.nodes.keys()].reverse()) {
    const [after] = rows;
    rows.unshift(
      ownCents(layers, piece).map((own, node) => {
        if (!after) return layers.endCents(node) + own;
        return own + Math.min(...after.map((cents, to) => cents + layers.step(piece, node, to)));
      }),
    );
  }
  return rows;
}

/** The least of both parts with the splice between them. */
function joinedCents(
  search: Search,
  ground: Ground,
  { run, sized, before, after }: { run: number; sized: Sized; before: Part; after: Part },
): number {
  const { pieces = 0 } = sized.begins ?? {};
  const question = questionOf(search, ground, { run, sized, free: NOTHING_FREE });
  let found = Number.POSITIVE_INFINITY;
  for (const [first, one] of (before.layers.nodes[pieces - 1] ?? []).entries()) {
    for (const [last, other] of (after.layers.nodes[pieces] ?? []).entries()) {
      if (!mayJoin(one.choice, other.choice)) continue;
      const parts = (before.upTo[pieces - 1]?.[first] ?? 0) + (after.from[pieces]?.[last] ?? 0);
      if (parts < found) found = Math.min(found, parts + joinCents(question, pieces, [one, other]));
    }
  }
  return found;
}
