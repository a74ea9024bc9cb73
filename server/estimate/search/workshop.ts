/*
 * What was found out about a book under one site and one set of terms: parts of take-offs and prices of amounts. Options of
 * one description share it, and so do the estimates of a description that is being typed, since most of it stays.
 * Nothing in it is an answer: it spares asking the take-off and the book the same thing twice.
 */

import type { Choice } from '../candidates.ts';
import type { Description } from '../description.ts';
import type { Book } from '../price-book.ts';
import type { JointPart } from './parts.ts';
import type { Cost, TaskPrice } from './prices.ts';
import { type Kinds, noKinds, type Part } from './tally.ts';

export interface Workshop {
  kinds: Kinds;
  /** Numbers for texts: of legs, of what is laid along them, of what a joint sees of its sides. */
  ids: Map<string, number>;
  stretches: Map<string, Part>;
  joints: Map<string, JointPart>;
  ratesOfRaceway: Map<string, Part[]>;
  materials: Map<string | number, Cost>[];
  tasks: TaskPrice[];
  lineOfTask: Map<string, number>;
  /** What was found for an option along a route; null where no plan of it can be bought and built. */
  choices: Map<string, Choice | null>;
}

/** Beyond so many entries a workshop is cleared out, and beyond so many the oldest one goes; ours, some megabytes. */
const MOST_ENTRIES = 40_000;
const MOST_WORKSHOPS = 4;

const workshops = new WeakMap<Book, Map<string, Workshop>>();

function emptyWorkshop(): Workshop {
  return {
    kinds: noKinds(),
    ...{ ids: new Map(), stretches: new Map(), joints: new Map(), ratesOfRaceway: new Map() },
    ...{ materials: [], tasks: [], lineOfTask: new Map(), choices: new Map() },
  };
}

/** The terms without those that never choose: what is added to the cost, or taken from it. */
function choosing(terms: Description['terms']): Partial<Description['terms']> {
  const { markup: _m, overheadBp: _o, profitBp: _p, profitOn: _on, contingencyBp: _c, ...others } = terms;
  const { discountCents: _d, taxBp: _t, taxOn: _to, taxBase: _tb, incentives: _i, minimumCents: _mc, ...rest } = others;
  return rest;
}

/** The workshop for a book and all of a description but its route, its options and its words. */
export function workshopFor(book: Book, { site, terms, asOf }: Description): Workshop {
  const ofBook = workshops.get(book) ?? new Map<string, Workshop>();
  workshops.set(book, ofBook);
  const text = JSON.stringify([site, choosing(terms), asOf]);
  const known = ofBook.get(text);
  const isFull = known && known.stretches.size + known.joints.size + 20 * known.choices.size > MOST_ENTRIES;
  const workshop = known && !isFull ? known : emptyWorkshop();
  ofBook.delete(text);
  ofBook.set(text, workshop); // the one used last stands last
  const [oldest] = ofBook.keys();
  if (ofBook.size > MOST_WORKSHOPS && oldest !== undefined) ofBook.delete(oldest);
  return workshop;
}

/** One number for one text. */
export function idOf(ids: Map<string, number>, text: string): number {
  const known = ids.get(text);
  if (known !== undefined) return known;
  ids.set(text, ids.size);
  return ids.size - 1;
}
