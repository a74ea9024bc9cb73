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

/** Legs of several parts, each once, in their order. Plain loops over what are lists of a few: every line asks for them. */
export function legsOfAll(parts: readonly { legs: number[] }[]): number[] {
  const all: number[] = [];
  for (const { legs } of parts) for (const leg of legs) if (!all.includes(leg)) all.push(leg);
  return all.length > 1 ? all.sort((a, b) => a - b) : all;
}

/** Reasons of several parts, each once, in the order in which they first come. */
export function reasonsOfAll(parts: readonly { because: string[] }[]): string[] {
  const all: string[] = [];
  for (const { because } of parts) for (const reason of because) if (!all.includes(reason)) all.push(reason);
  return all;
}
