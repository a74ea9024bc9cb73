import type { Line } from '../answer.ts';

/** What moves many lines at once. `house` is what its age has put behind the walls, `market` what all shops ask. */
export const CAUSES = ['copper', 'aluminum', 'crew', 'ground', 'house', 'market'] as const;
export type Cause = (typeof CAUSES)[number];

/** Lines with common causes. */
export interface Group {
  name: string;
  /** How much of a line's swing each cause carries, as a correlation with it; the rest is the line's own. */
  weights: Partial<Record<Cause, number>>;
  belongs: (line: Line) => boolean;
  /** Is each of its lines a driver of its own? They have too little in common to be named together. */
  apart?: true;
}

const words = ({ key, description }: Line) => `${key} ${description}`.toLowerCase();
const isWire = ({ class: lineClass, scope }: Line) => lineClass === 'material' && scope === 'wire';
const isAluminum = (line: Line) => /alumin|-al\b/.test(words(line));
const DUG: readonly string[] = ['trench', 'hard-surface', 'restoration'];

/**
 * Lines that move together, the first group that a line belongs to. The correlations follow from the weights: two
 * copper lines 0.90, copper and aluminum 0.80, two aluminum lines 0.90, wire and panels 0.30, copper and plastic 0.10,
 * two tasks indoors 0.60, two tasks of digging 0.80, indoors and digging 0.32, other goods and rentals 0.10, fees 0.
 * Source: metals' yearly means 1980 to 2016 give copper and aluminum 0.78; all others common practice, no source.
 */
export const GROUPS: readonly Group[] = [
  {
    name: 'aluminum wire',
    weights: { copper: 0.8433, aluminum: 0.4347 }, // 0.8433 × 0.9487 = 0.80; 0.8433² + 0.4347² = 0.90
    belongs: (line) => isWire(line) && isAluminum(line),
  },
  { name: 'copper wire', weights: { copper: 0.9487 }, belongs: isWire }, // 0.9487² = 0.90
  {
    name: 'breakers and panels',
    weights: { copper: 0.3162, market: 0.3162 }, // 0.3162 × 0.9487 = 0.30
    belongs: ({ class: lineClass, scope }) => lineClass === 'material' && (scope === 'breaker' || scope === 'panel'),
  },
  {
    name: 'plastic conduit',
    weights: { copper: 0.1054, market: 0.3162 }, // 0.1054 × 0.9487 = 0.10
    belongs: (line) => line.class === 'material' && line.scope === 'conduit' && /pvc/.test(words(line)),
  },
  {
    name: 'labor of digging and surfaces',
    weights: { crew: 0.5, ground: 0.7416 }, // 0.5² + 0.7416² = 0.80
    belongs: ({ class: lineClass, scope }) => lineClass === 'labor' && DUG.includes(scope),
  },
  {
    name: 'all other labor',
    weights: { crew: 0.6325, house: 0.4472 }, // 0.6325² + 0.4472² = 0.60; 0.6325 × 0.5 = 0.32
    belongs: ({ class: lineClass }) => lineClass === 'labor',
  },
  {
    name: 'other goods and rentals',
    weights: { market: 0.3162 }, // 0.3162² = 0.10
    belongs: ({ class: lineClass }) => lineClass === 'material' || lineClass === 'equipment',
    apart: true,
  },
];

/** The group whose causes bear on a line, or none: it moves alone. */
export function groupOf(line: Line): Group | undefined {
  return GROUPS.find(({ belongs }) => belongs(line));
}
