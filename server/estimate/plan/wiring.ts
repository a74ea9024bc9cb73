import type { PlacedLeg } from '../plan-types.ts';
import type { ConductorSize, Metal, WiringMethod } from '../vocabulary.ts';
import type { Circuit } from './circuit.ts';

/**
 * What a stretch is wired with: a cable of a form, USE-2 for burial, or single conductors for raceways (THWN-2 or
 * XHHW-2, whichever is sold).
 */
export type Wiring = 'nm-b' | 'uf-b' | 'ser' | 'use-2' | 'singles';

/** A way to lay a circuit: the method of each of its legs and of its tail, and the metal that lands at its end. */
export interface Laying {
  methods: WiringMethod[];
  tail?: WiringMethod;
  metal: Metal;
  /** Where it changes its metal or size at one splice: what it begins as. */
  begins?: Beginning;
}

/** The conductors of a run before its one change: over so many pieces from its start. */
export interface Beginning {
  pieces: number;
  metal: Metal;
  size: ConductorSize;
}

/** One leg of a stretch, or the tail, with its method. */
export interface LaidPiece {
  /** Nothing for the tail. */
  placed?: PlacedLeg;
  method: WiringMethod;
}

/** Consecutive pieces of one wiring: between two ends or splices. */
export interface Stretch {
  wiring: Wiring;
  pieces: LaidPiece[];
  /** What it is laid in where it lies before the one change of its run. */
  begins?: Beginning;
}

/** What each method is wired with where nothing beside it says otherwise. */
export const WIRING_OF: Record<WiringMethod, Wiring> = {
  'nm-b': 'nm-b',
  'uf-b': 'uf-b',
  ser: 'ser',
  'direct-burial': 'use-2',
  pvc: 'singles',
  emt: 'singles',
  rmc: 'singles',
};

/** Is the method a raceway that conductors are pulled into? */
export function isRaceway(method: WiringMethod): method is 'pvc' | 'emt' | 'rmc' {
  return WIRING_OF[method] === 'singles';
}

/** The pieces of a circuit in order: its legs, then its tail. */
function piecesOf(circuit: Circuit, { methods, tail }: Laying, route: readonly PlacedLeg[]): LaidPiece[] {
  const legs = circuit.legs.flatMap((leg, at) => {
    const placed = route[leg];
    const method = methods[at];
    return placed && method ? [{ placed, method }] : [];
  });
  return tail && circuit.tail ? [...legs, { method: tail }] : legs;
}

/** May conductors buried beside this piece go on through it? Nonmetallic or rigid raceway that is laid anew, not EMT. */
export function carriesOn({ placed, method }: LaidPiece): boolean {
  return (method === 'pvc' || method === 'rmc') && placed?.stated.kind !== 'existing-raceway';
}

/**
 * Splits a circuit where its wiring, metal or size changes; each change is a splice in a box. Buried USE-2 goes on through
 * PVC or rigid conduit beside it instead of being spliced.
 */
export function stretchesOf(circuit: Circuit, laying: Laying, route: readonly PlacedLeg[]): Stretch[] {
  const pieces = piecesOf(circuit, laying, route);
  const { begins } = laying;
  const isChange = (at: number) => at === begins?.pieces;
  const wirings = pieces.map(({ method }) => WIRING_OF[method]);
  const spread = (from: number, to: number) => {
    const piece = pieces[to];
    if (piece && wirings[from] === 'use-2' && carriesOn(piece)) wirings[to] = 'use-2';
  };
  const meetings = pieces.flatMap((_, at) => (at > 0 && !isChange(at) ? [at] : []));
  for (const at of meetings) spread(at - 1, at);
  for (const at of meetings.reverse()) spread(at, at - 1);
  const stretches: Stretch[] = [];
  pieces.forEach((piece, at) => {
    const wiring = wirings[at] ?? WIRING_OF[piece.method];
    const last = stretches.at(-1);
    if (last?.wiring === wiring && !isChange(at)) last.pieces.push(piece);
    else stretches.push({ wiring, pieces: [piece], ...(begins && at < begins.pieces && { begins }) });
  });
  return stretches;
}
