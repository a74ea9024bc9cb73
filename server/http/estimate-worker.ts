import { parentPort } from 'node:worker_threads';
import type { Description } from '../estimate/description.ts';
import { estimate } from '../estimate/estimate.ts';
import { jsonText } from '../estimate/json-text.ts';
import { type Book, bookOf, type PriceItem } from '../estimate/price-book.ts';

/** A whole estimate is asked for. The book comes along when its revision is another than the one before. */
export interface ToWorker {
  description: Description;
  book?: { items: readonly PriceItem[]; revision: number };
}

/** Ready to be asked; then an answer to each question, undefined where making it threw. */
export type FromWorker = 'ready' | { text: string | undefined };

let book: Book | undefined;

function textOf({ description }: ToWorker): string | undefined {
  try {
    return book && jsonText(estimate(description, book));
  } catch {
    return undefined; // whoever asked makes it anew, and throws the error with its type
  }
}

parentPort?.on('message', (asked: ToWorker) => {
  if (asked.book) book = bookOf(asked.book.items, asked.book.revision);
  const answer: FromWorker = { text: textOf(asked) };
  parentPort?.postMessage(answer);
});
const ready: FromWorker = 'ready';
parentPort?.postMessage(ready);
