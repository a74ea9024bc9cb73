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
