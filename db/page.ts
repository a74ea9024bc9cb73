/** One page of a list; `page` counts from 1, `total` is that of all pages. */
export interface Page<Item> {
  items: Item[];
  page: number;
  pageSize: number;
  total: number;
}

/** Entries of a list that are answered at once. */
export const PAGE_SIZE = 50;
