import { z } from 'zod';
import { day, flag, listOf, oneOf, quantity, text } from './description/fields.ts';
import { closed } from './input-problems.ts';
import { BOUNDS, CONDUCTOR_SIZES, LINE_CLASSES, METALS, RACEWAY_TYPES, SCOPES, TRADE_SIZES } from './vocabulary.ts';

const amperes = () => quantity({ unit: 'amperes', more: 0, most: 1000 });
const size = () => oneOf(CONDUCTOR_SIZES);
const tradeSize = () => oneOf(TRADE_SIZES);
const poles = () => z.literal([1, 2], { error: 'must be 1 or 2 poles' });
const name = () => text().regex(/^[a-z0-9][a-z0-9_-]*$/, { error: 'must be lower case letters, digits, "-" and "_"' });

/** Forms of cable. `mhf` is an aluminum quadruplex for direct burial, conductors of type USE-2. */
export const CABLE_FORMS = ['nm-b', 'uf-b', 'ser', 'mhf'] as const;
/** Insulations of single conductors; `bare` for grounds and electrode conductors. */
export const CONDUCTOR_INSULATIONS = ['thwn-2', 'xhhw-2', 'use-2', 'bare'] as const;

/**
 * What planner and take-off look for, never the key. `conductors` of a cable counts the insulated ones (2: two hots;
 * 3: with neutral), its own ground is beside them. `piece` of a raceway's fitting: `coupling`, `elbow-90`, … .
 */
export const Spec = z.discriminatedUnion(
  'is',
  [
    closed({
      is: z.literal('cable'),
      form: oneOf(CABLE_FORMS),
      metal: oneOf(METALS),
      size: size(),
      conductors: z.literal([2, 3], { error: 'must be 2 or 3 conductors' }),
    }),
    closed({
      is: z.literal('conductor'),
      insulation: oneOf(CONDUCTOR_INSULATIONS),
      metal: oneOf(METALS),
      size: size(),
    }),
    closed({ is: z.literal('raceway'), type: oneOf(RACEWAY_TYPES), tradeSize: tradeSize() }),
    closed({ is: z.literal('fitting'), type: oneOf(RACEWAY_TYPES), tradeSize: tradeSize(), piece: name() }),
    closed({ is: z.literal('breaker'), ratingA: amperes(), poles: poles(), gfci: flag() }),
    closed({
      is: z.literal('panel'),
      ratingA: amperes(),
      spaces: quantity({ unit: 'spaces', least: 1, most: 84, whole: true }),
      enclosure: oneOf(['indoor', 'outdoor']),
      mainBreaker: flag(),
    }),
    closed({ is: z.literal('task'), task: name() }),
    closed({ is: z.literal('other'), name: name() }),
  ],
  { error: 'must say what it is: one of cable, conductor, raceway, fitting, breaker, panel, task, other' },
);
export type Spec = z.output<typeof Spec>;

const wholeCents = () => quantity({ unit: 'cents', whole: true, least: 0, most: BOUNDS.maxCents });

/** One package that shops sell, with its three price points for the package; `date` where it is not the item's. */
export const Offer = closed({
  package: text(),
  quantity: quantity({ unit: 'units', more: 0, most: 1_000_000 }),
  lowCents: wholeCents(),
  likelyCents: wholeCents(),
  highCents: wholeCents(),
  available: flag().default(true),
  date: day().optional(),
});
export type Offer = z.output<typeof Offer>;

export const ITEM_KINDS = ['price', 'labor-unit', 'rate', 'factor'] as const;
export const TRADES = ['electrician', 'labourer', 'operator'] as const;
export type Trade = (typeof TRADES)[number];

/** Do three points rise? */
const rising = (low: number, likely: number, high: number) => low <= likely && likely <= high;

const itemShape = {
  key: text().regex(/^[a-z0-9][a-z0-9_-]*$/, { error: 'must be lower case letters, digits, "-" and "_"' }),
  kind: oneOf(ITEM_KINDS),
  description: text(),
  class: oneOf(LINE_CLASSES),
  scope: oneOf(SCOPES),
  category: text(),
  unit: text(),
  low: quantity({ unit: 'cents, hours or parts', least: 0, most: BOUNDS.maxCents }),
  likely: quantity({ unit: 'cents, hours or parts', least: 0, most: BOUNDS.maxCents }),
  high: quantity({ unit: 'cents, hours or parts', least: 0, most: BOUNDS.maxCents }),
  spec: Spec.optional(),
  offers: listOf(Offer, 40, 'offers').default([]),
  trade: oneOf(TRADES).optional(),
  date: day(),
  region: text(),
  source: text(),
  supplier: text().optional(),
  available: flag().default(true),
};

/** An item as a client writes it, without revision. */
export const PriceItemInput = closed(itemShape).superRefine((item, context) => {
  if (!rising(item.low, item.likely, item.high)) {
    context.addIssue({
      code: 'custom',
      path: ['likely'],
      message: `must lie between low ${item.low} and high ${item.high}, not ${item.likely}`,
    });
  }
  item.offers.forEach((offer, at) => {
    if (rising(offer.lowCents, offer.likelyCents, offer.highCents)) return;
    context.addIssue({
      code: 'custom',
      path: ['offers', at, 'likelyCents'],
      message: `must lie between lowCents ${offer.lowCents} and highCents ${offer.highCents}, not ${offer.likelyCents}`,
    });
  });
});
export type PriceItemInput = z.output<typeof PriceItemInput>;

/** An item of the price book: three points with their source and date, and the packages it is sold in. */
export const PriceItem = closed({ ...itemShape, revision: quantity({ unit: 'revisions', whole: true, least: 1 }) });
export type PriceItem = z.output<typeof PriceItem>;

/** The book at one revision, read-only, with the look-ups that an estimate needs. */
export interface Book {
  revision: number;
  items: readonly PriceItem[];
  /** The available item that answers a spec, or none: then the line has no price. */
  bySpec(spec: Spec): PriceItem | undefined;
  byKey(key: string): PriceItem | undefined;
}

/** One text for one spec, whatever the order of its fields. Every look-up makes one: it is written out for speed. */
export function specText(spec: Spec): string {
  switch (spec.is) {
    case 'cable':
      return `cable ${spec.form} ${spec.metal} ${spec.size} ${spec.conductors}`;
    case 'conductor':
      return `conductor ${spec.insulation} ${spec.metal} ${spec.size}`;
    case 'raceway':
      return `raceway ${spec.type} ${spec.tradeSize}`;
    case 'fitting':
      return `fitting ${spec.type} ${spec.tradeSize} ${spec.piece}`;
    case 'breaker':
      return `breaker ${spec.ratingA} ${spec.poles} ${spec.gfci}`;
    case 'panel':
      return `panel ${spec.ratingA} ${spec.spaces} ${spec.enclosure} ${spec.mainBreaker}`;
    case 'task':
      return `task ${spec.task}`;
    case 'other':
      return `other ${spec.name}`;
  }
}

function keepFirst(found: Map<string, PriceItem>, wanted: string, item: PriceItem): void {
  if (!found.has(wanted)) found.set(wanted, item);
}

/** Makes a book of items. Items of one spec: the first available one answers, in the order of the keys. */
export function bookOf(items: readonly PriceItem[], revision: number): Book {
  const keys = new Map<string, PriceItem>();
  const specs = new Map<string, PriceItem>();
  /** Tasks and what only its name tells apart are asked for most: they are found by the name as it is. */
  const tasks = new Map<string, PriceItem>();
  const others = new Map<string, PriceItem>();
  for (const item of [...items].sort((a, b) => (a.key < b.key ? -1 : 1))) {
    keys.set(item.key, item);
    const { spec } = item;
    if (!spec || !item.available) continue;
    if (spec.is === 'task') keepFirst(tasks, spec.task, item);
    else if (spec.is === 'other') keepFirst(others, spec.name, item);
    else keepFirst(specs, specText(spec), item);
  }
  return {
    revision,
    items,
    bySpec: (spec) => {
      if (spec.is === 'task') return tasks.get(spec.task);
      return spec.is === 'other' ? others.get(spec.name) : specs.get(specText(spec));
    },
    byKey: (key) => keys.get(key),
  };
}
