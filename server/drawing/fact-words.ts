import type { Description } from '../estimate/description.ts';
import { LEG_WORDS } from './wording.ts';

/** What a fact of the description is called, by its path, and whether a number stands for its place in a list. */
const FACTS: readonly [pattern: RegExp, words: string][] = [
  [/^site\.service\.ratingA$/, 'Rating of the service'],
  [/^site\.service\.freeSpaces$/, 'Free spaces in the panel'],
  [/^site\.service\.panel\.kind$/, 'Kind of the panel'],
  [/^site\.service\.panel\.state$/, 'State of the panel'],
  [/^site\.service\.panelBusA$/, 'Rating of the bus in the panel'],
  [/^site\.hazards$/, 'Old wiring, asbestos, lead paint, plaster'],
  [/^site\.load(?:\..*)?$/, 'What the house draws'],
  [/^site\.start\.feederA$/, 'Feeder of the subpanel that the route starts at'],
  [/^site\.start\.freeSpaces$/, 'Free spaces in the subpanel that the route starts at'],
  [/^site\.code\.chargerReading$/, 'How the authority (AHJ) counts the charger'],
  [/^site\.yearBuilt$/, 'Year of the house'],
];
const LEG_FACTS: Readonly<Record<string, string>> = {
  kind: 'What stands behind the finish',
  lengthFt: 'Length',
  reinforcement: 'Steel in the slab',
  soil: 'Ground',
  through: 'What is passed at its end',
};
const OPTION_FACTS: Readonly<Record<string, string>> = {
  'receptacle.sharedWith': 'What else hangs on the circuit of the outlet',
  'receptacle.gfci': 'Ground-fault protection of the outlet',
  'receptacle.grounded': 'Ground of the outlet',
  'serviceUpgrade.supply': 'Service overhead or underground',
  'serviceUpgrade.meter': 'Whether the meter is replaced',
};

/**
 * A path of the description in words: `Length of leg 3, lawn`. Legs count from 1, as on the drawing.
 * @returns the path itself where it has no words
 */
export function factInWords(path: string, description: Description): string {
  const plain = FACTS.find(([pattern]) => pattern.test(path));
  if (plain) return plain[1];
  const leg = /^(?:options\.(\d+)\.)?route\.(\d+)\.(.+)$/.exec(path);
  if (leg) return legFact({ option: leg[1], leg: Number(leg[2]), field: leg[3] ?? '' }, description);
  const option = /^options\.(\d+)\.(.+)$/.exec(path);
  return (option && OPTION_FACTS[option[2] ?? '']) ?? path;
}

function legFact(
  { option, leg, field }: { option: string | undefined; leg: number; field: string },
  { route, options }: Description,
): string {
  const stated = option === undefined ? route[leg] : options[Number(option)]?.route?.[leg];
  const kind = stated ? `, ${LEG_WORDS[stated.kind]}` : '';
  return `${LEG_FACTS[field] ?? field} of leg ${leg + 1}${kind}`;
}

/** A sentence in which paths of facts give way to what they are called, as within a sentence. */
export function factsNamed(words: string, paths: readonly string[], description: Description): string {
  const longestFirst = [...paths].sort((one, other) => other.length - one.length); // none is cut by a shorter one
  return longestFirst.reduce((text, path) => text.replaceAll(path, factWithin(path, description)), words);
}

/** As within a sentence: no capital letter first, but abbreviations as they are. */
function factWithin(path: string, description: Description): string {
  const words = factInWords(path, description);
  return words === path ? path : words.charAt(0).toLowerCase() + words.slice(1);
}

/** Who can tell a fact. */
export const TELLERS = {
  you: 'You',
  inspector: 'An inspector',
  electrician: 'An electrician',
  utility: 'The utility',
} as const;
