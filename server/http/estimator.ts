import { availableParallelism } from 'node:os';
import type { Writable } from 'node:stream';
import { setImmediate as turnOfTheLoop } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import type { Description } from '../estimate/description.ts';
import { estimate, type Parts } from '../estimate/estimate.ts';
import { jsonText } from '../estimate/json-text.ts';
import type { Book } from '../estimate/price-book.ts';
import type { FromWorker, ToWorker } from './estimate-worker.ts';

/** A description with its day, the book that prices it, and how much is asked for. */
export interface Asked {
  description: Description;
  book: Book;
  parts: Parts;
}

/** Makes estimates for clients that wait for them. */
export interface Estimator {
  /**
   * The estimate as JSON text, the bytes of `jsonText`; undefined where the client went before it was made.
   * @throws what `estimate` throws
   */
  textFor(client: Writable, asked: Asked): Promise<string | undefined>;
  /** Ends the threads; what they were at is not answered. */
  close(): Promise<void>;
}

interface Choice {
  /** What a thread runs. */
  workerFile?: URL;
  /** How many threads are kept at most; none: all is made in this one. */
  most?: number;
}

/** Beside a compiled file stands a compiled one. Sources run in a thread only where Node.js reads types. */
const WORKER_FILE = new URL(import.meta.url.replace(/estimator\.(\w+)$/, 'estimate-worker.$1'));
/** One core is left to the server; more than two would only ask for memory. */
const MOST_WORKERS = Math.min(2, Math.max(1, availableParallelism() - 1));

/** Core answers are made at once, in this thread; whole ones beside it, so that nobody else waits for them. */
export function estimator({ workerFile = WORKER_FILE, most = MOST_WORKERS }: Choice = {}): Estimator {
  const beside = most > 0 ? new Threads(workerFile, most) : undefined;
  return {
    textFor: async (client, asked) => {
      const gone = whenGone(client);
      await turnOfTheLoop(); // whoever hung up while the server was busy is noticed now
      if (gone.aborted) return undefined;
      const made = asked.parts === 'all' ? await beside?.ask(asked, gone) : undefined;
      if (gone.aborted) return undefined;
      return made ?? jsonText(estimate(asked.description, asked.book, { parts: asked.parts }));
    },
    close: async () => beside?.close(),
  };
}

/** Aborted when a client goes before it was answered. */
function whenGone(client: Writable): AbortSignal {
  const gone = new AbortController();
  if (client.destroyed) gone.abort();
  client.once('close', () => {
    if (!client.writableFinished) gone.abort();
  });
  return gone.signal;
}

interface Job {
  asked: Asked;
  /** Undefined: it was not made; whoever still wants it makes it, and meets the same error. */
  done: (text: string | undefined) => void;
  fail: (error: Error) => void;
}

interface Thread {
  worker: Worker;
  isReady: boolean;
  job: Job | undefined;
  /** The revision of the book that it was sent. */
  held: number | undefined;
}

/** Threads that are started when they are wanted, and jobs that wait for one. */
class Threads {
  readonly #workerFile: URL;
  readonly #most: number;
  readonly #running = new Set<Thread>();
  #waiting: Job[] = [];
  #canStart = true;

  constructor(workerFile: URL, most: number) {
    this.#workerFile = workerFile;
    this.#most = most;
  }

  /** The text of a whole estimate; undefined where it was not made. @throws where a thread ends over it */
  ask(asked: Asked, gone: AbortSignal): Promise<string | undefined> {
    return new Promise((done, fail) => {
      if (!this.#canStart) return done(undefined);
      const job = { asked, done, fail };
      gone.addEventListener('abort', () => this.#drop(job), { once: true });
      this.#waiting.push(job);
      this.#giveOut();
    });
  }

  async close(): Promise<void> {
    const ending = [...this.#running];
    this.#running.clear();
    await Promise.all(ending.map(({ worker }) => worker.terminate()));
  }

  #giveOut(): void {
    while (this.#waiting.length > 0) {
      const idle = [...this.#running].find(({ job }) => job === undefined);
      const free = idle ?? (this.#running.size < this.#most ? this.#start() : undefined);
      if (!free) return;
      free.job = this.#waiting.shift();
      if (free.job) send(free, free.job.asked);
    }
  }

  #start(): Thread {
    const worker = new Worker(this.#workerFile);
    const thread: Thread = { worker, isReady: false, job: undefined, held: undefined };
    this.#running.add(thread);
    worker.unref(); // an idle thread keeps nobody from ending
    worker.on('message', (said: FromWorker) => {
      if (said === 'ready') thread.isReady = true;
      else this.#finish(thread, said.text);
    });
    worker.on('error', (error) => this.#lose(thread, error));
    worker.on('exit', () => this.#lose(thread, new Error('A thread that makes estimates has ended.')));
    return thread;
  }

  #finish(thread: Thread, text: string | undefined): void {
    thread.job?.done(text);
    thread.job = undefined;
    this.#giveOut();
  }

  /** A thread that ended at its work fails its job; where one cannot even start, nor would the next. */
  #lose(thread: Thread, error: Error): void {
    if (!this.#running.delete(thread)) return;
    if (thread.isReady) thread.job?.fail(error);
    else {
      this.#canStart = false;
      for (const job of [thread.job, ...this.#waiting.splice(0)]) job?.done(undefined);
    }
    this.#giveOut();
  }

  /** Nobody wants it any more: a job that waits is passed over, one that is being made ends with its thread. */
  #drop(job: Job): void {
    this.#waiting = this.#waiting.filter((each) => each !== job);
    const thread = [...this.#running].find((each) => each.job === job);
    if (thread) {
      this.#running.delete(thread);
      void thread.worker.terminate();
      this.#giveOut();
    }
    job.done(undefined);
  }
}

/** Sends a job, with the book where the thread holds another revision. */
function send(thread: Thread, { description, book: { items, revision } }: Asked): void {
  const job: ToWorker = { description, ...(thread.held !== revision && { book: { items, revision } }) };
  thread.held = revision;
  thread.worker.postMessage(job);
}
