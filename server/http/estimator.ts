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
  const beside = most > 0 ? threads(workerFile, most) : undefined;
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
function threads(workerFile: URL, most: number) {
  const running = new Set<Thread>();
  let waiting: Job[] = [];
  let canStart = true;

  const start = (): Thread => {
    const thread: Thread = { worker: new Worker(workerFile), isReady: false, job: undefined, held: undefined };
    running.add(thread);
    thread.worker.unref(); // an idle thread keeps nobody from ending
    thread.worker.on('message', (said: FromWorker) => {
      if (said === 'ready') thread.isReady = true;
      else finish(thread)?.done(said.text);
    });
    thread.worker.on('error', (error) => lose(thread, error));
    thread.worker.on('exit', () => lose(thread, new Error('A thread that makes estimates has ended.')));
    return thread;
  };
  const finish = (thread: Thread): Job | undefined => {
    const { job } = thread;
    thread.job = undefined;
    giveOut();
    return job;
  };
  const lose = (thread: Thread, error: Error) => {
    if (!running.delete(thread)) return;
    if (thread.isReady) thread.job?.fail(error);
    else {
      canStart = false; // nor would the next one: this thread makes them all
      for (const job of [thread.job, ...waiting.splice(0)]) job?.done(undefined);
    }
    giveOut();
  };
  const giveOut = () => {
    while (waiting.length > 0) {
      const free = [...running].find(({ job }) => job === undefined) ?? (running.size < most ? start() : undefined);
      if (!free) return;
      free.job = waiting.shift();
      if (free.job) send(free, free.job.asked);
    }
  };
  /** Whoever waits is passed over; a job that is being made ends with its thread. */
  const drop = (job: Job) => {
    waiting = waiting.filter((each) => each !== job);
    const at = [...running].find((thread) => thread.job === job);
    if (at) {
      running.delete(at);
      void at.worker.terminate();
      giveOut();
    }
    job.done(undefined);
  };
  const ask = (asked: Asked, gone: AbortSignal) =>
    new Promise<string | undefined>((done, fail) => {
      if (!canStart) return done(undefined);
      const job = { asked, done, fail };
      gone.addEventListener('abort', () => drop(job), { once: true });
      waiting.push(job);
      giveOut();
    });
  const close = async () => {
    const ending = [...running];
    running.clear();
    await Promise.all(ending.map(({ worker }) => worker.terminate()));
  };
  return { ask, close };
}

/** Sends a job, with the book where the thread holds another revision. */
function send(thread: Thread, { description, book: { items, revision } }: Asked): void {
  const job: ToWorker = { description, ...(thread.held !== revision && { book: { items, revision } }) };
  thread.held = revision;
  thread.worker.postMessage(job);
}
