/*
 * A circuit in each metal and size that it may be laid in, and in those that change once at a splice.
 */
import { compareSizes } from '../../electrical/sizes.ts';
import { dropAt } from '../plan/lay.ts';
import { carriesOn, WIRING_OF, type Wiring } from '../plan/wiring.ts';
import { CONDUCTOR_SIZES, type ConductorSize, type Metal } from '../vocabulary.ts';
import {
  type Choice,
  choiceAt,
  enoughSizes,
  mayFollow,
  mayJoin,
  type Phase,
  type Piece,
  type Row,
  type Sized,
  type Space,
} from './choices.ts';

/** The circuit in each metal and size that leaves at least one choice for some piece. */
function rowsOf(space: Space): Row[] {
  if (space.rows) return space.rows;
  const all = space.circuit.metals.flatMap((metal) => CONDUCTOR_SIZES.map((size) => ({ metal, size })));
  const rows = all.map(({ metal, size }, order): Row => {
    return { metal, size, order, choices: space.pieces.map((piece) => choicesOf(space, piece, { metal, size })) };
  });
  space.rows = rows.filter(({ choices }) => choices.some((some) => some.length > 0));
  return space.rows;
}

/** The circuit in each metal and size that leaves at least one choice for every piece. */
export function sizesOfCircuit(space: Space): Sized[] {
  const { circuit, job } = space;
  return rowsOf(space).flatMap((row) => {
    if (row.choices.some((some) => some.length === 0)) return [];
    const { percent } = dropAt(job, { circuit, laying: row }, row.size);
    return [{ ...row, circuit, dropPercent: percent }];
  });
}

/** Where a run may change its metal or size: at so many pieces from its start. */
export interface Change {
  pieces: number;
  before: Row;
  after: Row;
}

/**
 * Every change of metal or size that leaves a choice for every piece. None lies in the ground, where nothing is joined
 * without need, and on long routes there is none, for speed.
 */
export function changesOf(space: Space): Change[] {
  const { pieces } = space;
  if (pieces.length > MOST_CHANGED) return [];
  const rows = rowsOf(space);
  const meetings = pieces.flatMap(({ at }) => {
    const inGround = isInGround(pieces[at - 1]) && isInGround(pieces[at]);
    return at > 0 && !inGround ? [at] : [];
  });
  const has = ({ choices }: Row, from: number, to: number) => choices.slice(from, to).every((some) => some.length > 0);
  return meetings.flatMap((at) => {
    const firsts = rows.filter((row) => has(row, 0, at));
    const lasts = rows.filter((row) => has(row, at, pieces.length));
    return firsts.flatMap((before) =>
      lasts.filter((after) => after !== before).map((after) => ({ pieces: at, before, after })),
    );
  });
}

/** Does a leg lie in the ground, in a raceway that is there or anew? */
function isInGround(piece: Piece | undefined): boolean {
  const place = piece?.laid.placed?.place;
  return place === 'underground' || place === 'under-slab';
}

/** Pieces of a route along which changes are looked for at most; ours. */
const MOST_CHANGED = 12;

/** A circuit that changes so. */
export function changed({ job, circuit }: Space, { pieces, before, after }: Change): Sized {
  const { metal, size } = after;
  const begins = { pieces, metal: before.metal, size: before.size };
  return {
    ...{ circuit, metal, size, begins },
    dropPercent: dropAt(job, { circuit, laying: { metal, begins } }, size).percent,
    choices: [...before.choices.slice(0, pieces), ...after.choices.slice(pieces)],
    order: (pieces * ORDERS + before.order) * ORDERS + after.order,
  };
}

/** What a circuit loses at least that changes its metal or size on its way, in percent; infinite where no change goes through. */
export function leastChangedDropPercent(space: Space): number {
  space.changedDropPercent ??= changesOf(space).reduce((leastPercent, change) => {
    const sized = changed(space, change);
    return sized.dropPercent < leastPercent && goesThrough(sized) ? sized.dropPercent : leastPercent;
  }, Number.POSITIVE_INFINITY);
  return space.changedDropPercent;
}

/** Is there a way from the start to the end, a choice for each piece that may follow the one before? */
function goesThrough({ choices, begins }: Sized): boolean {
  const [first = [], ...rest] = choices;
  let reached = first.filter(({ phase }) => phase !== 'carried-out');
  rest.forEach((some, index) => {
    const follows = index + 1 === begins?.pieces ? mayJoin : mayFollow;
    reached = some.filter((after) => reached.some((before) => follows(before, after)));
  });
  return reached.some(({ phase }) => phase !== 'carried-in');
}

/** More metals with sizes than there are. */
const ORDERS = 100;

function choicesOf(space: Space, piece: Piece, { metal, size }: { metal: Metal; size: ConductorSize }): Choice[] {
  return piece.methods.flatMap((method) => {
    const plain = WIRING_OF[method];
    const goesOn = (method === 'pvc' || method === 'rmc') && carriesOn({ ...piece.laid, method });
    const kinds: [Wiring, Phase][] = goesOn
      ? [
          [plain, 'plain'],
          ['use-2', 'carried-in'],
          ['use-2', 'carried-out'],
        ]
      : [[plain, 'plain']];
    return kinds.flatMap(([wiring, phase]) => {
      const fromSize = looselyFrom(space, { wiring, metal, size });
      return choiceAt(space, { piece, method, wiring, phase, metal, size, fromSize }) ?? [];
    });
  });
}

/** The size that asks for the least ground: of all pieces that the size carries, the one that needs most. */
function looselyFrom(
  space: Space,
  { wiring, metal, size }: { wiring: Wiring; metal: Metal; size: ConductorSize },
): ConductorSize {
  const text = `${wiring} ${metal} ${size}`;
  const known = space.loosely.get(text);
  if (known) return known;
  let largest: ConductorSize | undefined;
  for (const piece of space.pieces) {
    const [first] = enoughSizes(space, piece, wiring, metal);
    if (!first || compareSizes(first, size) > 0) continue;
    if (!largest || compareSizes(first, largest) > 0) largest = first;
  }
  space.loosely.set(text, largest ?? size);
  return largest ?? size;
}
