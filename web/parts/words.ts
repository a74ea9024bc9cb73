import { conductorSize, LEG_WORDS, wiringMethod } from '../../server/drawing/wording.ts';
import {
  CONDUCTOR_SIZES,
  LEG_KINDS,
  LINE_CLASSES,
  METALS,
  SCOPES,
  SOILS,
  TRADE_SIZES,
  WALLS,
  WIRING_METHODS,
} from '../../server/estimate/vocabulary.ts';
import type { Json } from '../json.ts';

/** One answer that can be chosen, in plain words. A value that is undefined leaves the field out. */
export interface Choice {
  value: Json | undefined;
  label: string;
}

const CLASS_WORDS: Record<(typeof LINE_CLASSES)[number], string> = {
  material: 'material',
  labor: 'labor',
  equipment: 'equipment',
  fee: 'fees',
};

/** A word of the vocabulary as a person writes it: `hard-surface` → `hard surface`. */
export function plain(word: string): string {
  return word.replaceAll('-', ' ');
}

/** Choices of plain words. */
export function choices(words: readonly string[], labels: Record<string, string> = {}): Choice[] {
  return words.map((value) => ({ value, label: labels[value] ?? plain(value) }));
}

/** Yes and no, in the words that the sentence needs. */
export function eitherOr(yes: string, no: string): Choice[] {
  return [
    { value: true, label: yes },
    { value: false, label: no },
  ];
}

/** The answer that is always possible: nobody knows yet. */
export const NOT_KNOWN: Choice = { value: null, label: 'not known' };

export const KIND_CHOICES = choices(LEG_KINDS, LEG_WORDS);
export const METHOD_CHOICES: Choice[] = [
  { value: 'auto', label: 'what is cheapest' },
  ...WIRING_METHODS.map((method) => ({ value: method, label: wiringMethod({ method }) })),
];
export const WALL_CHOICES: Choice[] = [{ value: undefined, label: 'nothing' }, ...choices(WALLS)];
export const SOIL_CHOICES = choices(SOILS);
export const CLASS_CHOICES = choices(LINE_CLASSES, CLASS_WORDS);
export const SCOPE_CHOICES = choices(SCOPES);
export const TRADE_SIZE_CHOICES: Choice[] = TRADE_SIZES.map((value) => ({ value, label: `${value} in` }));
export const SIZE_CHOICES: Choice[] = CONDUCTOR_SIZES.map((value) => ({ value, label: conductorSize(value) }));
export const METAL_CHOICES = choices(METALS);

/** The answer that leaves a field out, before others. */
export function orUnstated(others: readonly Choice[], label = 'not stated'): Choice[] {
  return [{ value: undefined, label }, ...others];
}
