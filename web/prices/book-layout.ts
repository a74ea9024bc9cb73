import type { PriceItem } from '../../server/estimate/price-book.ts';

/** A line of the table: an item, one of its packages, or what stands open below it. */
export type BookLine =
  | { is: 'item'; item: PriceItem }
  | { is: 'offer'; item: PriceItem; at: number }
  | { is: 'detail'; item: PriceItem };

/** Pixels that lines take. */
export interface LineHeights {
  item: number;
  offer: number;
  /** What the open item's detail was measured at. */
  detail: number;
}

/** The lines of some items, in the order that they stand in. */
export function linesOf(items: readonly PriceItem[], openKey: string | undefined): BookLine[] {
  return items.flatMap((item): BookLine[] => [
    { is: 'item', item },
    ...item.offers.map((_, at): BookLine => ({ is: 'offer', item, at })),
    ...(item.key === openKey ? [{ is: 'detail', item } as const] : []),
  ]);
}

/** The height of some lines together. */
export function heightOf(lines: readonly BookLine[], heights: LineHeights): number {
  return lines.reduce((sum, { is }) => sum + heights[is], 0);
}

/** Pages of the book one below the other: where each begins, and where the last ends. Page 1 is at 0. */
export function pageTops(
  { pages, total, pageSize }: { pages: number; total: number; pageSize: number },
  { measured, itemHeight }: { measured: ReadonlyMap<number, number>; itemHeight: number },
): Float64Array {
  const tops = new Float64Array(pages + 1);
  for (let page = 1; page <= pages; page += 1) {
    const items = page < pages ? pageSize : total - pageSize * (pages - 1);
    tops[page] = (tops[page - 1] ?? 0) + (measured.get(page) ?? items * itemHeight);
  }
  return tops;
}

/** The stretch of the table that is drawn, in pixels from its first line. */
export interface Stretch {
  from: number;
  to: number;
}

/** The pages that reach into a stretch, from 1. */
export function pagesWithin(tops: Float64Array, { from, to }: Stretch): number[] {
  const first = pageAt(tops, from);
  const pages: number[] = [];
  for (let page = first; page < tops.length && (tops[page - 1] ?? 0) <= to; page += 1) pages.push(page);
  return pages;
}

/** The page that a place lies in, the first or the last one beyond the ends. */
export function pageAt(tops: Float64Array, place: number): number {
  let low = 1;
  let high = Math.max(1, tops.length - 1);
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((tops[middle] ?? 0) > place) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** What is drawn: lines, and gaps of so many pixels where lines are not, `below` the item that is drawn last. */
export type Piece = { gap: number; below: string } | { line: BookLine };

interface DrawnParts {
  tops: Float64Array;
  /** Lines of the pages that are there. */
  pages: ReadonlyMap<number, readonly BookLine[]>;
  heights: LineHeights;
  stretch: Stretch;
  /** Items that stay although they are out of sight: somebody types in them. */
  kept: ReadonlySet<string>;
}

/** Puts together what is drawn of the table, so that lines stand where they would if all of it were. */
export function drawnPieces({ tops, pages, heights, stretch, kept }: DrawnParts): Piece[] {
  const pieces: Piece[] = [];
  let gap = 0;
  let place = 0;
  let below = '';
  const draw = (line: BookLine) => {
    if (gap > 0) pieces.push({ gap, below });
    gap = 0;
    below = line.item.key;
    pieces.push({ line });
  };
  for (const [page, lines] of [...pages].sort(([a], [b]) => a - b)) {
    const top = tops[page - 1] ?? 0;
    gap += top - place;
    place = top;
    for (const line of lines) {
      const next = place + heights[line.is];
      const isInSight = next > stretch.from && place < stretch.to;
      if (isInSight || kept.has(line.item.key)) draw(line);
      else gap += next - place;
      place = next;
    }
  }
  gap += (tops.at(-1) ?? 0) - place;
  return gap > 0 ? [...pieces, { gap, below }] : pieces;
}
