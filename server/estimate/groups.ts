/** Puts what has one key together, keys in the order in which they first come. */
export function groupsOf<Thing>(things: readonly Thing[], keyOf: (thing: Thing) => string): [Thing, ...Thing[]][] {
  const groups = new Map<string, [Thing, ...Thing[]]>();
  for (const thing of things) {
    const group = groups.get(keyOf(thing));
    if (group) group.push(thing);
    else groups.set(keyOf(thing), [thing]);
  }
  return [...groups.values()];
}
