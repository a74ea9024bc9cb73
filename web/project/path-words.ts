import { factInWords } from '../../server/drawing/fact-words.ts';
import type { Description } from '../../server/estimate/description.ts';
import type { Scale } from '../parts/field.ts';

/** What one thing of a list is called, where it is not the list's name without its last letter. */
const ONE_OF: Record<string, string> = { route: 'leg' };

/** A dotted path as people say it: `route.0.lengthFt` is `leg 1, length`. */
export function pathInWords(path: string): string {
  const steps = path.split('.').filter(Boolean);
  const words = steps.flatMap((step, at) => {
    if (/^\d+$/.test(step)) return [];
    const next = steps[at + 1] ?? '';
    if (/^\d+$/.test(next)) return [`${ONE_OF[step] ?? spaced(step).replace(/s$/, '')} ${Number(next) + 1}`];
    return [spaced(step)];
  });
  return words.join(', ') || 'the whole';
}

/** A fact that nobody knows, by what the papers call it; by its path in words where they have no name for it. */
export function factOrPathInWords(path: string, description: Description): string {
  const words = factInWords(path, description);
  return words === path ? pathInWords(path) : words;
}

/** Units that end a name; whoever reads the words sees the field with its unit. */
const UNIT = /(?:Ft2?|In|A|VA|C|F|Cents|Bp)$/;

/** `milesPerDay` → `miles per day`, `lengthFt` → `length`. */
function spaced(name: string): string {
  return name
    .replace(UNIT, '')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase();
}

/** The units in which the field of a path is typed: names tell cents, basis points and chances. */
export function scaleOfPath(path: string): Scale {
  if (/(?:Cents|\.cents)$/.test(path)) return 'dollars';
  if (/(?:Bp|\.bp)$/.test(path)) return 'percent';
  return path.startsWith('chances.') ? 'chance' : 'plain';
}
