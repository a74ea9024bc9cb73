/*
 * What a plan takes as plain numbers: each kind of material and of labor has an index, a part of a take-off is a short
 * list of indices and amounts, and a plan is their sum. Parts are asked of the take-off once and added up many times.
 */
import type { MaterialDemand, TaskDemand } from '../plan-types.ts';
import { specText } from '../price-book.ts';
import { type Uses, usesOf } from '../takeoff/consumables.ts';
import type { Demands } from '../takeoff/demand.ts';

/** A kind of material, cut or counted, as purchasing puts demands together; `at` is its index. */
export interface MaterialKind {
  is: 'material';
  at: number;
  demand: MaterialDemand;
}

/** A labor task with its scope and factors, as labor puts demands together. */
export interface TaskKind {
  is: 'task';
  at: number;
  demand: TaskDemand;
}

export type Kind = MaterialKind | TaskKind;

/** A part of a take-off: kinds with their amounts, lengths that are cut in one piece, and what uses up consumables. */
export interface Part {
  kinds: number[];
  amounts: number[];
  /** Pairs of a kind and a length in feet. */
  cut: { kind: number; feet: number }[];
  uses: Uses;
}

/** The kinds that have come up so far. */
export interface Kinds {
  list: Kind[];
  byText: Map<string, number>;
}

/** No kinds yet. */
export function noKinds(): Kinds {
  return { list: [], byText: new Map() };
}

function indexOf(kinds: Kinds, text: string, make: (at: number) => Kind): number {
  const known = kinds.byText.get(text);
  if (known !== undefined) return known;
  const at = kinds.list.length;
  kinds.list.push(make(at));
  kinds.byText.set(text, at);
  return at;
}

function materialIndex(kinds: Kinds, demand: MaterialDemand): number {
  const manner = demand.pieces ? 'cut' : 'counted';
  return indexOf(kinds, `${manner} ${demand.class} ${specText(demand.spec)}`, (at) => ({ is: 'material', at, demand }));
}

function taskIndex(kinds: Kinds, demand: TaskDemand): number {
  const text = `task ${demand.task} ${demand.scope} ${demand.factors.join(' ')}`;
  return indexOf(kinds, text, (at) => ({ is: 'task', at, demand }));
}

/** Turns what the take-off says into numbers. */
export function partOf(kinds: Kinds, demands: Demands): Part {
  const amountOf = new Map<number, number>();
  const cut: Part['cut'] = [];
  for (const demand of demands.materials) {
    const kind = materialIndex(kinds, demand);
    for (const feet of demand.pieces ?? []) cut.push({ kind, feet });
    if (!demand.pieces) amountOf.set(kind, (amountOf.get(kind) ?? 0) + (demand.quantity ?? 0));
  }
  for (const demand of demands.tasks) {
    const kind = taskIndex(kinds, demand);
    amountOf.set(kind, (amountOf.get(kind) ?? 0) + demand.quantity);
  }
  return { kinds: [...amountOf.keys()], amounts: [...amountOf.values()], cut, uses: usesOf(demands) };
}

/** The sum of parts. */
export interface Tally {
  amounts: number[];
  /** Kinds with an amount or a piece, in the order in which they first came. */
  touched: number[];
  pieces: Map<number, number[]>;
  glued: number;
  pulledFt: number;
  hasSingles: boolean;
  hasJoints: boolean;
}

/** A sum of nothing. */
export function emptyTally(): Tally {
  return {
    amounts: [],
    touched: [],
    pieces: new Map(),
    glued: 0,
    pulledFt: 0,
    hasSingles: false,
    hasJoints: false,
  };
}

/** Adds a part to a sum. */
export function add(tally: Tally, { kinds, amounts, cut, uses }: Part): void {
  for (let at = 0; at < kinds.length; at += 1) {
    const kind = kinds[at] ?? 0;
    const before = tally.amounts[kind];
    if (before === undefined) tally.touched.push(kind);
    tally.amounts[kind] = (before ?? 0) + (amounts[at] ?? 0);
  }
  for (const { kind, feet } of cut) {
    const pieces = tally.pieces.get(kind);
    if (pieces) pieces.push(feet);
    else {
      tally.pieces.set(kind, [feet]);
      tally.touched.push(kind);
    }
  }
  tally.glued += uses.glued;
  tally.pulledFt += uses.pulledFt;
  tally.hasSingles ||= uses.hasSingles;
  tally.hasJoints ||= uses.hasJoints;
}

const NO_USES: Uses = { glued: 0, gluedLegs: [], pulledFt: 0, pulledLegs: [], hasSingles: false, hasJoints: false };

/** What is counted in parts, as one. */
export function togetherAt(parts: readonly Part[]): Part {
  const amountOf = new Map<number, number>();
  for (const { kinds, amounts } of parts) {
    kinds.forEach((kind, at) => {
      amountOf.set(kind, (amountOf.get(kind) ?? 0) + (amounts[at] ?? 0));
    });
  }
  return { kinds: [...amountOf.keys()], amounts: [...amountOf.values()], cut: [], uses: NO_USES };
}

/** Of each kind the least that is counted in any of some parts; nothing of one that a part lacks. */
export function lesserOf([first, ...others]: readonly Part[]): Part {
  if (!first) return togetherAt([]);
  const amounts = first.kinds.map((kind, at) =>
    others.reduce(
      (least, part) => Math.min(least, part.amounts[part.kinds.indexOf(kind)] ?? 0),
      first.amounts[at] ?? 0,
    ),
  );
  return { kinds: first.kinds, amounts, cut: [], uses: NO_USES };
}
