/** A heap that gives what has the least rank first; equals in the order in which they came. */
export interface Heap<Item> {
  items: { rank: number; order: number; item: Item }[];
  pushed: number;
}

/** A heap with nothing in it. */
export function emptyHeap<Item>(): Heap<Item> {
  return { items: [], pushed: 0 };
}

type Entry<Item> = Heap<Item>['items'][number];
const isBefore = <Item>(a: Entry<Item>, b: Entry<Item>) => a.rank < b.rank || (a.rank === b.rank && a.order < b.order);

/** Puts an item in by its rank. */
export function push<Item>(heap: Heap<Item>, rank: number, item: Item): void {
  const { items } = heap;
  const entry = { rank, order: heap.pushed, item };
  heap.pushed += 1;
  let at = items.length;
  items.push(entry);
  while (at > 0) {
    const above = (at - 1) >> 1;
    const parent = items[above];
    if (!parent || isBefore(parent, entry)) break;
    items[at] = parent;
    at = above;
  }
  items[at] = entry;
}

/** The least rank in the heap; infinite where it is empty. */
export function leastRank<Item>({ items }: Heap<Item>): number {
  return items[0]?.rank ?? Number.POSITIVE_INFINITY;
}

/** Takes the item with the least rank out, or nothing where there is none. */
export function pop<Item>({ items }: Heap<Item>): { rank: number; item: Item } | undefined {
  const [first] = items;
  const last = items.pop();
  if (!first || !last) return undefined;
  if (items.length > 0) sink(items, last);
  return first;
}

function sink<Item>(items: Entry<Item>[], entry: Entry<Item>): void {
  let at = 0;
  for (;;) {
    const left = items[2 * at + 1];
    const right = items[2 * at + 2];
    const isRight = right !== undefined && left !== undefined && isBefore(right, left);
    const child = isRight ? right : left;
    if (!child || isBefore(entry, child)) break;
    items[at] = child;
    at = 2 * at + (isRight ? 2 : 1);
  }
  items[at] = entry;
}
