/** Puts what has one key together, keys in the order in which they first come. */
export function groupsOf<Thing>(things: readonly Thing[], keyOf: (thing: Thing) => string): [Thing, ...Thing[]][] {
  const groups = new Map<string, [Thing, ...Thing[]]>();
  for (const thing of things) {
    const key = keyOf(thing);
    const group = groups.get(key);
    if (group) group.push(thing);
    else groups.set(key, [thing]);
  }
  return [...groups.values()];
}

/** Legs of several parts, each once, in their order. Most groups have one part with one leg: nothing is sorted for those. */
export function legsOfAll(parts: readonly { legs: number[] }[]): number[] {
  const [first, second] = parts;
  if (first && !second && first.legs.length < 2) return first.legs;
  return [...new Set(parts.flatMap(({ legs }) => legs))].sort((a, b) => a - b);
}

/** Reasons of several parts, each once, in the order in which they first come. */
export function reasonsOfAll(parts: readonly { because: string[] }[]): string[] {
  const [first, second] = parts;
  if (first && !second && first.because.length < 2) return first.because;
  return [...new Set(parts.flatMap(({ because }) => because))];
}
