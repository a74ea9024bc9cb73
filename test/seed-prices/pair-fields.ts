import {
  CONDUCTOR_SIZES,
  CONNECTIONS,
  CROSSINGS,
  DIGS,
  EDITIONS,
  FEEDS,
  FINISHES,
  HEADROOMS,
  LEG_FIELDS,
  LEG_KINDS,
  LINE_CLASSES,
  METALS,
  RACEWAY_PLACES,
  RACEWAY_TYPES,
  REINFORCEMENTS,
  REPLACES,
  SCOPES,
  SOILS,
  TRADE_SIZES,
  TRAFFICS,
  WALLS,
  WIRING_METHODS,
} from '../../server/estimate/vocabulary.ts';
import type { Field } from './all-pairs.ts';

/** Not stated at all. */
export const UNSTATED = 'unstated';
/** Known to be unknown. */
export const UNKNOWN = null;
export const YES_NO = [false, true] as const;
export const HAZARDS = ['knob-and-tube', 'aluminum-branch', 'asbestos', 'lead-paint', 'plaster'] as const;

type When = NonNullable<Field['when']>;
const only = (field: string, ...is: readonly unknown[]): { when: When } => ({ when: { field, is } });
const field = (name: string, values: readonly unknown[], more: { when?: When } = {}): Field => ({
  name,
  values,
  ...more,
});
/** One field of yes or no for each word of a list in which several may stand together. */
const eachOf = (name: string, words: readonly string[], more: { when?: When } = {}): Field[] =>
  words.map((word) => field(`${name}.${word}`, YES_NO, more));

/** Kinds of a leg that have a use for a field of its own. */
const kindsWith = (name: string) =>
  only('kind', ...LEG_KINDS.filter((kind) => (LEG_FIELDS[kind] as readonly string[]).includes(name)));

const SITE: Field[] = [
  field('work', ['retrofit', 'new-construction']),
  field('building', ['attached', 'detached', 'outdoor']),
  field('yearBuilt', [UNSTATED, 1920, 1965, 2010]),
  field('hazardsKnown', YES_NO),
  ...eachOf('hazard', HAZARDS, only('hazardsKnown', true)),
  field('ratingA', [UNKNOWN, 100, 200]),
  field('freeSpaces', [UNKNOWN, 0, 6]),
  field('backfeedA', [UNSTATED, 40]),
  field('panelKind', [UNSTATED, UNKNOWN, 'service-equipment', 'fed-from-outside-disconnect', 'fuses', 'split-bus']),
  field('panelState', [UNKNOWN, 'current', 'obsolete', 'known-hazard']),
  field('start', YES_NO),
  field('start.feederA', [UNKNOWN, 100], only('start', true)),
  field('start.terminalsC', [60, 75], only('start', true)),
  field('existingSupply', ['none', 'removed', 'kept']),
  field('existingCircuit', YES_NO),
  field('existingCircuit.amps', [20, 60], only('existingCircuit', true)),
  field('existingCircuit.poles', [1, 2], only('existingCircuit', true)),
  field('existingCircuit.wires', [2, 3, 4], only('existingCircuit', true)),
  field('existingCircuit.raceway', ['none', 'pvc', 'emt', 'rmc'], only('existingCircuit', true)),
  ...eachOf('garage', ['receptacles', 'light']),
  field('permit.byOwner', YES_NO),
  field('permit.rightOfWay', YES_NO),
  field('permit.feeCents', [UNSTATED, 0, 9000]),
  field('load', ['unknown', 'measured', 'listed']),
  field(
    'heating',
    ['none', 'central-electric', 'separate-units', 'heat-pump', 'thermal-storage'],
    only('load', 'listed'),
  ),
  field('appliance', ['fastened', 'range', 'dryer', 'motor'], only('load', 'listed')),
  field('addingHeatOrCooling', YES_NO, only('load', 'listed')),
  field('edition', EDITIONS),
  field('nonmetallicCable', YES_NO),
  field('terminalsC', [60, 75]),
  field('chargerReading', ['full', 'in-tier', 'both']),
];

const LEG: Field[] = [
  field('kind', LEG_KINDS),
  field('lengthFt', [12, 'guessed']),
  field('method', ['auto', ...WIRING_METHODS]),
  field('through', [UNSTATED, ...WALLS]),
  field('across', YES_NO, kindsWith('across')),
  field('headroom', HEADROOMS, kindsWith('headroom')),
  ...eachOf('soil', SOILS, kindsWith('soil')),
  ...eachOf('crossing', CROSSINGS, kindsWith('crossings')),
  field('dig', DIGS, kindsWith('dig')),
  field('traffic', TRAFFICS, kindsWith('traffic')),
  field('coverIn', [UNSTATED, 30], kindsWith('coverIn')),
  field('restore', YES_NO, kindsWith('restore')),
  field('thicknessIn', [UNSTATED, 3, 6], kindsWith('thicknessIn')),
  field('replace', REPLACES, kindsWith('replace')),
  field('finish', FINISHES, kindsWith('finish')),
  field('reinforcement', [UNSTATED, UNKNOWN, ...REINFORCEMENTS], kindsWith('reinforcement')),
  field('type', RACEWAY_TYPES, kindsWith('type')),
  field('tradeSize', TRADE_SIZES, kindsWith('tradeSize')),
  field('place', RACEWAY_PLACES, kindsWith('place')),
  field('occupiedBy', [UNSTATED, 'thwn-2', 'xhhw-2', 'use-2', 'bare'], kindsWith('occupiedBy')),
  field('nextLeg', [UNSTATED, 'joists', 'finished-wall', 'attic', 'exterior-wall', 'lawn-trench', 'concrete-cut']),
];

const OPTION: Field[] = [
  field('feed', FEEDS),
  field('ownExistingSupply', [UNSTATED, 'none', 'removed', 'kept']),
  field('metal', ['auto', ...METALS]),
  field('amps', ['least', 'usual', 'most', 'largest']),
  field('setting', ['label-and-restricted', 'open']),
  field('connection', CONNECTIONS),
  field('equipment', ['owned', 'buy', 'none']),
  field('terminals', ['copper', 'copper-or-aluminum']),
  field('largestSize', [UNSTATED, ...CONDUCTOR_SIZES]),
  field('mount', ['wall', 'post', 'pedestal']),
  field('outdoors', [UNSTATED, ...YES_NO]),
  field('otherCharger', [UNSTATED, 'own circuit', 'same circuit']),
  field('circuitA', [15, 20, 50], only('feed', 'existing-receptacle')),
  field('sharedWith', [UNKNOWN, 'nothing', 'a freezer'], only('feed', 'existing-receptacle')),
  field('gfci', [UNKNOWN, ...YES_NO], only('feed', 'existing-receptacle')),
  field('grounded', [UNKNOWN, ...YES_NO], only('feed', 'existing-receptacle')),
  field('receptacleOutdoors', YES_NO, only('feed', 'existing-receptacle')),
  field('replaceReceptacle', YES_NO, only('feed', 'existing-receptacle')),
  field('loadManagement', [UNSTATED, 'shared-circuit', 'service-monitor']),
  field('panelA', [60, 100, 125, 200], only('feed', 'subpanel')),
  field('spaces', [2, 6, 12, 20, 30], only('feed', 'subpanel')),
  field('feederA', [UNSTATED, 60, 90, 100, 125], only('feed', 'subpanel')),
  field('mainBreaker', [UNSTATED, ...YES_NO], only('feed', 'subpanel')),
  field('enclosure', ['indoor', 'outdoor'], only('feed', 'subpanel')),
  field('otherPoles', [UNSTATED, 1, 2], only('feed', 'subpanel')),
  field('otherA', [15, 20, 30, 50], only('feed', 'subpanel')),
  field('otherContinuous', YES_NO, only('feed', 'subpanel')),
  field('otherBuild', YES_NO, only('feed', 'subpanel')),
  field('serviceUpgrade', YES_NO),
  field('toA', [100, 200, 400], only('serviceUpgrade', true)),
  field('supply', [UNKNOWN, 'overhead', 'underground'], only('serviceUpgrade', true)),
  field('meter', [UNKNOWN, 'keep', 'replace'], only('serviceUpgrade', true)),
  field('upgradedPanel', ['keep', 'replace'], only('serviceUpgrade', true)),
  field('relocateFt', [0, 12], only('serviceUpgrade', true)),
  field('roughInOnly', YES_NO),
  field('spareToA', [UNSTATED, 60, 200]),
  field('dataTradeSize', [UNSTATED, ...TRADE_SIZES]),
];

const TERMS: Field[] = [
  field('who', ['contractor', 'owner']),
  ...eachOf('ownerDoes', SCOPES),
  field('laborRate', [UNSTATED, 'rate-electrician-billed-midwest-metro']),
  field('laborRateIs', ['cost', 'billed']),
  field('crew', [UNSTATED, 'electrician and helper']),
  field('offcuts', ['charged', 'stock']),
  field('profitOn', ['cost', 'price']),
  ...eachOf('taxOn', LINE_CLASSES),
  field('taxBase', ['cost', 'price']),
  field('incentive', ['fixed', 'percent']),
  field('certain', YES_NO),
  field('extraClass', LINE_CLASSES),
];

/** All that a job may say in words, in a few numbers where words need them; `pair-job.ts` makes a description of it. */
export const PAIR_FIELDS: readonly Field[] = [...SITE, ...LEG, ...OPTION, ...TERMS];

/** What makes an option unlawful whatever else is said, or nearly so; without them most jobs can be built. */
const UNSOUND: Readonly<Record<string, readonly unknown[]>> = {
  panelKind: ['fuses', 'split-bus'],
  panelState: ['known-hazard'],
  existingSupply: ['kept'],
  ownExistingSupply: ['kept'],
  otherCharger: ['same circuit'],
  largestSize: CONDUCTOR_SIZES,
  method: WIRING_METHODS,
  tradeSize: ['1/2', '3/4', '1', '1-1/4'],
  spareToA: [200],
  grounded: [false],
  ratingA: [100],
  toA: [100],
  panelA: [60, 100],
  feederA: [60, 90],
};

/** The same without what alone makes an option unlawful. */
export const SOUND_FIELDS: readonly Field[] = PAIR_FIELDS.map(({ values, ...rest }) => ({
  ...rest,
  values: values.filter((value) => !UNSOUND[rest.name]?.includes(value)),
}));

/** Fields whose words change a size or a sum and nothing else: each word is asked for alone, not in pairs. */
export const WORDS_ALONE =
  /^(?:site\.existingCircuit\.tradeSize|route\.0\.occupiedBy\.0\.size|bids\..*|terms\.incentives\.0\.of\.0)$/;
