/**
 * The words that the page, the API, the terminal and saved files share. Plain data without a library behind it,
 * so that the route line and the drawings can be made in the browser too.
 */

export { EDITIONS, type Edition } from '../electrical/citations.ts';
export { CONNECTIONS, type Connection } from '../electrical/ev.ts';
export {
  CONDUCTOR_SIZES,
  type ConductorSize,
  METALS,
  type Metal,
  RACEWAY_TYPES,
  type RacewayType,
  TRADE_SIZES,
  type TradeSize,
} from '../electrical/sizes.ts';
export { WIRING_METHODS, type WiringMethod } from '../electrical/wiring-methods.ts';

/** Kinds of a leg: one stretch of the way from the panel to the car. */
export const LEG_KINDS = [
  'joists',
  'finished-ceiling',
  'finished-wall',
  'crawlspace',
  'attic',
  'interior-surface',
  'exterior-wall',
  'under-deck',
  'lawn-trench',
  'gravel-trench',
  'planting-bed',
  'concrete-cut',
  'asphalt-cut',
  'pavers-lift',
  'bore',
  'overhead-span',
  'existing-raceway',
] as const;
export type LegKind = (typeof LEG_KINDS)[number];

/** Is this word a kind of leg? */
export function isLegKind(word: string): word is LegKind {
  return (LEG_KINDS as readonly string[]).includes(word);
}

export const SOILS = ['loam', 'clay', 'rocky', 'roots', 'frozen', 'wet'] as const;
export const CROSSINGS = [
  'gas',
  'water',
  'sewer',
  'irrigation',
  'communications',
  'private-electric',
  'tree-root-zone',
] as const;
export const HEADROOMS = ['standing', 'crouching', 'crawling'] as const;
export const WALLS = ['wood', 'stucco', 'brick', 'block', 'poured-concrete', 'stone', 'fire-rated'] as const;
export const DIGS = ['auto', 'hand', 'trencher', 'excavator'] as const;
export const REPLACES = ['strip', 'panel'] as const;
export const FINISHES = ['plain', 'exposed-aggregate', 'stamped'] as const;
export const REINFORCEMENTS = ['none', 'mesh', 'rebar'] as const;
export const TRAFFICS = ['foot', 'vehicle'] as const;
export const RACEWAY_PLACES = ['indoor', 'outdoor', 'underground'] as const;

export const LINE_CLASSES = ['material', 'labor', 'equipment', 'fee'] as const;
export type LineClass = (typeof LINE_CLASSES)[number];

export const SCOPES = [
  'wire',
  'conduit',
  'boxes',
  'panel',
  'breaker',
  'outlet',
  'charger',
  'trench',
  'hard-surface',
  'restoration',
  'grounding',
  'permit',
  'service-upgrade',
  'load-management',
  'travel',
  'other',
] as const;
export type Scope = (typeof SCOPES)[number];

export const FEEDS = ['existing-receptacle', 'dedicated-circuit', 'subpanel'] as const;
/** Bounds of the description. Ours: what lies beyond is a slip of the keyboard, or a job for another tool. */
export const BOUNDS = {
  legFt: 3000,
  legs: 60,
  options: 12,
  chargers: 8,
  textLength: 500,
  minChargingA: 6,
  maxChargingA: 80,
  minServiceA: 30,
  maxServiceA: 800,
  maxBp: 10_000,
  /** 100 million dollars, in cents. */
  maxCents: 10_000_000_000,
} as const;

/** A leg's fields that only some kinds have a use for, with what holds where they are not stated. */
export const LEG_DEFAULTS = {
  across: true,
  headroom: 'standing',
  soil: ['loam'],
  dig: 'auto',
  thicknessIn: 4,
  widthIn: 12,
  restore: true,
  replace: 'strip',
  finish: 'plain',
  traffic: 'foot',
  place: 'indoor',
} as const;

const DIGGING = ['soil', 'crossings', 'coverIn', 'dig', 'traffic'] as const;
const SURFACE = ['thicknessIn', 'widthIn', 'restore', 'replace', 'finish', 'reinforcement'] as const;

/**
 * Which of the special fields each kind has a use for. `lengthFt`, `riseFt`, `method`, `through`, `bendsDeg`,
 * `ambientC` and `note` serve every kind. A stated field that is not listed gives a finding `note`, never a refusal.
 */
export const LEG_FIELDS = {
  joists: ['across', 'headroom'],
  'finished-ceiling': ['across'],
  'finished-wall': ['across'],
  crawlspace: ['across', 'headroom'],
  attic: ['across', 'headroom'],
  'interior-surface': ['headroom'],
  'exterior-wall': [],
  'under-deck': ['across', 'headroom'],
  'lawn-trench': [...DIGGING, 'restore'],
  'gravel-trench': [...DIGGING, 'restore'],
  'planting-bed': [...DIGGING, 'restore'],
  'concrete-cut': [...DIGGING, ...SURFACE],
  'asphalt-cut': [...DIGGING, ...SURFACE],
  'pavers-lift': [...DIGGING, 'widthIn', 'restore'],
  bore: DIGGING,
  'overhead-span': [],
  'existing-raceway': ['type', 'tradeSize', 'occupiedBy', 'place'],
} as const satisfies Record<LegKind, readonly string[]>;

/** What holds where a leg of this kind says nothing of its special fields; only fields that the kind has a use for. */
export function legDefaults(kind: LegKind): Partial<Record<string, unknown>> {
  const used: readonly string[] = LEG_FIELDS[kind];
  const defaults = Object.fromEntries(Object.entries(LEG_DEFAULTS).filter(([field]) => used.includes(field)));
  return kind === 'crawlspace' ? { ...defaults, headroom: 'crawling' } : defaults;
}

/** Kinds of which the run lies in a ditch that somebody digs. A bore is not among them: only its pits are. */
export const DITCH_KINDS = [
  'lawn-trench',
  'gravel-trench',
  'planting-bed',
  'concrete-cut',
  'asphalt-cut',
  'pavers-lift',
] as const satisfies readonly LegKind[];

/** Does the run lie in a ditch here? */
export function isDitch(kind: LegKind): boolean {
  return (DITCH_KINDS as readonly LegKind[]).includes(kind);
}

/** Facts of a house that may be so or not so, by the names that their chances are stated with. */
export const CHANCES = [
  'new-service',
  'panel-with-fuses',
  'panel-known-to-fail',
  'panel-full',
  'underground-service',
  'overhead-service',
  'meter-kept',
  'lead-paint',
  'asbestos',
  'plaster',
  'blocked-wall',
  'slab-mesh',
  'slab-rebar',
  'no-ground-fault-protection',
  'shared-circuit',
  'no-ground',
] as const;
export type Chance = (typeof CHANCES)[number];
