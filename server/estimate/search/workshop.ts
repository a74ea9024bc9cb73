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
  /** By cover in inches, then by a number for the rest. */
  stretches: Map<number, Map<number, Part>>;
  /** By the text of a place and its run, then by a number for both sides. */
  joints: Map<string, Map<number, JointPart>>;
  /** How many stretches and joints there are. */
  size: { entries: number };
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
    size: { entries: 0 },
    ...{ materials: [], tasks: [], lineOfTask: new Map(), choices: new Map() },
  };
}

/** The terms without those that never choose: what is added to the cost, or taken from it. */
function choosing(terms: Description['terms']): Partial<Description['terms']> {
  const { markup: _m, overheadBp: _o, profitBp: _p, profitOn: _on, contingencyBp: _c, ...others } = terms;
  const { discountCents: _d, taxBp: _t, taxOn: _to, taxBase: _tb, incentives: _i, minimumCents: _mc, ...rest } = others;
  return rest;
}

/** Texts of a description, written once: each of its options asks for them. */
const textsOfSite = new WeakMap<Description, string>();
const textsOfRoute = new WeakMap<Description, string>();

function textOf(texts: WeakMap<Description, string>, description: Description, write: () => string): string {
  const known = texts.get(description);
  if (known !== undefined) return known;
  const text = write();
  texts.set(description, text);
  return text;
}

/** One text for what of a description an option's search depends on, besides its site and terms. */
export function routeText(description: Description): string {
  const { route, extras } = description;
  return textOf(textsOfRoute, description, () => JSON.stringify([route, extras]));
}

/** The workshop for a book and all of a description but its route, its options and its words. */
export function workshopFor(book: Book, description: Description): Workshop {
  const { site, terms, asOf } = description;
  const ofBook = workshops.get(book) ?? new Map<string, Workshop>();
  workshops.set(book, ofBook);
  const text = textOf(textsOfSite, description, () => JSON.stringify([site, choosing(terms), asOf]));
  const known = ofBook.get(text);
  const isFull = known && known.size.entries + 20 * known.choices.size > MOST_ENTRIES;
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
