import { keepPreviousData, useQueries, useQuery } from '@tanstack/react-query';
import { type RefObject, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { type BookAsOf, listItems, type PricePage } from '../api.ts';
import {
  type BookLine,
  drawnPieces,
  heightOf,
  type LineHeights,
  linesOf,
  type Piece,
  pageAt,
  pagesWithin,
  pageTops,
  type Stretch,
} from './book-layout.ts';
import { ITEMS_KEY } from './use-book-lists.ts';

/** What of the book is asked for, and of which book. */
export interface BookFilter extends BookAsOf {
  search: string;
  category: string;
}

/** Pixels beyond the window's edges that are drawn as well, so that scrolling and arrow keys find lines there. */
const BEYOND = 600;
/** The stretch moves in such steps, so that not every pixel that is scrolled draws anew. */
const STEP = 200;

/** Faster than this nobody reads: pages that one flies over are not asked for. */
const FLYING_PX_A_MS = 9;
/** One has landed when nothing moved for so long. */
const LANDED_MS = 80;

interface WindowProps {
  filter: BookFilter;
  table: RefObject<HTMLElement | null>;
  heights: LineHeights;
  openKey: string | undefined;
  /** Items that stay drawn wherever the window is. */
  kept: ReadonlySet<string>;
}

/** What the window shows of the book. */
export interface BookWindow {
  pieces: readonly Piece[];
  /** Nothing is known before the first answer. */
  total: number | undefined;
  categories: readonly string[];
  error: Error | null;
}

/** Reads and lays out only the part of the book that the window looks at; the rest is room of the right height. */
export function useBookPages({ filter, table, heights, openKey, kept }: WindowProps): BookWindow {
  const first = useQuery({ ...pageQuery(filter, 1), placeholderData: keepPreviousData });
  const [shown, setShown] = useState(filter);
  const isNew = first.data !== undefined && !first.isPlaceholderData;
  if (isNew && shown !== filter) setShown(filter);
  const { total = 0, pageSize = 50, categories = [] } = first.data ?? {};
  const stretch = useStretch(table);
  const { measured, pageOf } = useMeasured(shown, heights);
  const book = { pages: Math.ceil(total / pageSize), total, pageSize };
  const itemHeight = (measured.get(1) ?? pageSize * heights.item) / Math.min(pageSize, Math.max(1, total));
  const inSight = pagesWithin(pageTops(book, { measured, itemHeight }), stretch);
  const withKept = [...kept].flatMap((key) => pageOf.get(key) ?? []);
  const wanted = [...new Set([...inSight, ...withKept])].filter((page) => page <= book.pages);
  const { isFlying } = stretch;
  const answers = useQueries({ queries: wanted.map((page) => ({ ...pageQuery(shown, page), enabled: !isFlying })) });
  const pages = new Map<number, readonly BookLine[]>();
  answers.forEach(({ data }, at) => {
    const page = wanted[at];
    if (page === undefined || !data) return;
    const lines = linesOf(data.items, openKey);
    pages.set(page, lines);
    for (const { key } of data.items) if (kept.has(key)) pageOf.set(key, page);
    measured.set(page, heightOf(lines, heights));
  });
  const tops = pageTops(book, { measured, itemHeight });
  useSteadyPlace({ table, tops, shown });
  return {
    pieces: drawnPieces({ tops, pages, heights, stretch, kept }),
    total: first.data && total,
    categories,
    error: first.error,
  };
}

/** Every item that a filter finds, read page by page. @throws {ApiProblem} */
export async function allItemsOf(filter: BookFilter): Promise<PriceItem[]> {
  const items: PriceItem[] = [];
  for (let page = 1; ; page += 1) {
    const found = await listItems({ ...filter, page });
    items.push(...found.items);
    if (found.items.length === 0 || page * found.pageSize >= found.total) return items;
  }
}

/** Is it a book of the past, which can only be read? */
export function isPast({ revision, on }: BookAsOf): boolean {
  return revision !== undefined || on !== undefined;
}

function pageQuery(filter: BookFilter, page: number) {
  return {
    queryKey: [...ITEMS_KEY, isPast(filter) ? 'past' : 'now', filter, page],
    queryFn: ({ signal }: { signal: AbortSignal }): Promise<PricePage> => listItems({ ...filter, page }, signal),
    staleTime: 30_000,
  };
}

interface Measured {
  /** Heights that pages were found to have; others are reckoned. A page that was left keeps its height. */
  measured: Map<number, number>;
  /** Where the items stand that stay drawn. */
  pageOf: Map<string, number>;
}

/** What was found out of the pages so far; with another filter, or lines of other heights, all of it is void. */
function useMeasured(shown: BookFilter, { item, offer }: LineHeights): Measured {
  const voidedBy = JSON.stringify([shown, item, offer]);
  const anew = (): Measured & { voidedBy: string } => ({ voidedBy, measured: new Map(), pageOf: new Map() });
  const [found, setFound] = useState(anew);
  if (found.voidedBy === voidedBy) return found;
  const next = anew();
  setFound(next);
  return next;
}

/** The stretch of the table that the window looks at, and a bit beyond, kept up while one scrolls. */
function useStretch(table: RefObject<HTMLElement | null>): Stretch & { isFlying: boolean } {
  const [stretch, setStretch] = useState({ from: -BEYOND, to: 1200 + BEYOND, isFlying: false });
  useEffect(() => {
    let frame = 0;
    let landing: ReturnType<typeof setTimeout> | undefined;
    let before = { top: 0, at: performance.now() };
    const look = () => {
      frame = 0;
      const top = table.current?.getBoundingClientRect().top ?? 0;
      const at = performance.now();
      const isFlying = Math.abs(top - before.top) > FLYING_PX_A_MS * Math.max(1, at - before.at);
      before = { top, at };
      clearTimeout(landing);
      if (isFlying) landing = setTimeout(look, LANDED_MS);
      const from = Math.floor((-top - BEYOND) / STEP) * STEP;
      const to = Math.ceil((window.innerHeight - top + BEYOND) / STEP) * STEP;
      setStretch((was) =>
        was.from === from && was.to === to && was.isFlying === isFlying ? was : { from, to, isFlying },
      );
    };
    const soon = () => {
      if (frame === 0) frame = requestAnimationFrame(look);
    };
    look();
    window.addEventListener('scroll', soon, { passive: true });
    window.addEventListener('resize', soon);
    return () => {
      cancelAnimationFrame(frame);
      clearTimeout(landing);
      window.removeEventListener('scroll', soon);
      window.removeEventListener('resize', soon);
    };
  }, [table]);
  return stretch;
}

/** Keeps what one looks at in its place when pages above turn out higher or lower than was reckoned. */
function useSteadyPlace({
  table,
  tops,
  shown,
}: {
  table: RefObject<HTMLElement | null>;
  tops: Float64Array;
  shown: BookFilter;
}) {
  const before = useRef({ shown, tops });
  useLayoutEffect(() => {
    const { shown: shownBefore, tops: topsBefore } = before.current;
    before.current = { shown, tops };
    const scrolled = -(table.current?.getBoundingClientRect().top ?? 0);
    if (scrolled <= 0) return;
    if (shownBefore !== shown) {
      table.current?.scrollIntoView(); // another list begins at its beginning
      return;
    }
    const page = pageAt(topsBefore, scrolled + window.innerHeight / 2);
    const moved = (tops[page - 1] ?? 0) - (topsBefore[page - 1] ?? 0);
    if (moved !== 0 && tops.length === topsBefore.length) window.scrollBy(0, moved);
  });
}

/** Heights of the lines by the width of the window, as the style sheet has them. */
export function useLineHeights(detail: number): LineHeights {
  const [isNarrow, setNarrow] = useState(() => window.matchMedia(NARROW).matches);
  useEffect(() => {
    const media = window.matchMedia(NARROW);
    const follow = () => setNarrow(media.matches);
    media.addEventListener('change', follow);
    return () => media.removeEventListener('change', follow);
  }, []);
  return useMemo(
    () => (isNarrow ? { item: 56, offer: 30, detail } : { item: 30, offer: 25, detail }),
    [isNarrow, detail],
  );
}

const NARROW = '(max-width: 719px)';
