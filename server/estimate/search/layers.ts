/*
 * A run as a layered graph: a layer of nodes for each piece, and what it costs to go from one to the next.
 */
import type { Choice, Sized } from './choices.ts';
import type { PooledLine } from './section-wire.ts';

/** A choice for one piece, in a ditch of so much cover (0 where it is in none). */
export interface Node {
  choice: Choice;
  coverIn: number;
  /** Of its own, without conductors. */
  cents: number;
  /** Feet that conductors run along it. */
  wireFt: number;
  /** Index of its wiring. */
  wiring: number;
  /** What a pull box costs in its raceway; 0 where it is none that is laid anew. */
  pullBoxCents: number;
}

/** Bends where two pieces meet, in eighths of the 360° that are allowed between two pull points. */
export interface Bends {
  /** Is raceway opened there, so that bends are counted anew? */
  isOpened: boolean;
  before: number;
  after: number;
}

/** From one piece to another one, both included. */
export interface Stretch {
  from: number;
  to: number;
}

/** All nodes of a run at one metal and size, with what it costs to go from one to the next. */
export interface Layers {
  nodes: Node[][];
  /** The piece from which on the run is another metal or size, if any. */
  changesAt: number | undefined;
  /** From node `from` of a piece to node `to` of the next; infinite where the second may not follow. */
  step: (piece: number, from: number, to: number) => number;
  startCents: (to: number) => number;
  endCents: (from: number) => number;
  /** Bends where one node of a piece meets one of the next, and those by which a section begins or ends at a node. */
  bends: (piece: number, from: number, to: number) => Bends;
  opening: (piece: number, node: number) => number;
  closing: (piece: number, node: number) => number;
  wirings: number;
  /** Is a section dearer that is the only one of its wiring? */
  isAlonePriced: (wiring: number) => boolean;
  /** The conductors of such a section, with their makeup, from one piece to another, both included. */
  aloneCents: (wiring: number, from: number, to: number) => number;
  /** A foot of conductors at the best price of any plan. */
  leastPerFt: (wiring: number) => number;
  /** What the sections of a wiring cost together, as the lesser of these. */
  lines: (wiring: number) => readonly PooledLine[];
  /**
   * What the costliest conductors of some sections of a wiring cost at least beyond what a line says of them: no piece is
   * spliced, so that packages are not used up. Infinitely many further sections may still come.
   */
  beyondLine: (wiring: number, line: number, sections: readonly Stretch[]) => number;
  /** The same where no further section of the wiring comes. */
  beyondLineAtLast: (wiring: number, line: number, sections: readonly Stretch[]) => number;
  /** A section by one of them; where it is the third of its wiring or a later one, makeup is not counted. */
  pooledCents: (wiring: number, section: { from: number; to: number; line: number; withMakeup: boolean }) => number;
}

/** More nodes than any piece has. */
export const MOST_NODES = 64;

/** Wirings by index: in what a run ends as, and after these in what it begins as where it changes. */
const WIRINGS: readonly Choice['wiring'][] = ['nm-b', 'uf-b', 'ser', 'use-2', 'singles'];

/** The index of the wiring of a choice; what differs in metal or size from what the run ends as has one of its own. */
export function wiringIndex({ wiring, at }: Choice, { begins }: Sized): number {
  const isBefore = begins !== undefined && at < begins.pieces;
  return WIRINGS.indexOf(wiring) + (isBefore ? WIRINGS.length : 0);
}

/** The wirings that a run may have, by index. */
export function wiringsOf({ begins }: Sized): readonly Choice['wiring'][] {
  return begins ? [...WIRINGS, ...WIRINGS] : WIRINGS;
}
