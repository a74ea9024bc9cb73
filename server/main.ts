import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { Logger } from 'pino';
import { DEMO_PROJECT } from '../db/demo.ts';
import { openData } from '../db/open.ts';
import { packageRoot } from '../db/package-root.ts';
import { seedOnce } from '../db/seed-once.ts';
import type { Config } from './config.ts';
import { PriceItem } from './estimate/price-book.ts';
import { createApp } from './http/app.ts';
import { estimator } from './http/estimator.ts';
import { seedPrices } from './seed-prices.ts';

/** A server that listens. */
export interface RunningServer {
  /** Such as `http://127.0.0.1:4870`. */
  address: string;
  /** The project that a fresh data folder was given, while it is there. */
  demoProjectId?: string;
  /** Answers what was asked, then closes the data. Once is enough; again gives the same promise. */
  stop: () => Promise<void>;
}

/** A request that is not done by then is cut off when the server stops. */
const STOP_WITHIN_MS = 10_000;
/** A client that takes longer to send its request has gone. */
const REQUEST_WITHIN_MS = 60_000;

/**
 * Config → data → app → listen. Creates, migrates and seeds the data folder where it must.
 * @throws the data layer's typed errors, and what listening throws: an address in use
 */
export async function startServer(config: Config, logger: Logger): Promise<RunningServer> {
  const data = openData(config.dataDir, { readItem: (stored) => PriceItem.parse(stored) });
  try {
    const demoProjectId = seedOnce(data, { readSeed: seedPrices, demo: DEMO_PROJECT });
    const estimates = estimator();
    const app = createApp({
      data,
      config,
      now: () => new Date(),
      logger,
      estimator: estimates,
      pageFolder: join(packageRoot, 'dist', 'web'),
    });
    const server = app.listen(config.port, config.host);
    await listening(server);
    server.requestTimeout = REQUEST_WITHIN_MS;
    const address = addressOf(server, config.host);
    data.announce(address);
    let stopped: Promise<void> | undefined;
    const stop = () => {
      stopped ??= stopServer(server)
        .then(() => estimates.close())
        .finally(() => data.close());
      return stopped;
    };
    return { address, ...(demoProjectId !== undefined && { demoProjectId }), stop };
  } catch (error) {
    data.close();
    throw error;
  }
}

function listening(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('listening', resolve).once('error', reject);
  });
}

/** Ends when every request is answered; a connection that is kept without one is closed at once. */
function stopServer(server: Server): Promise<void> {
  return new Promise((resolve) => {
    const cutOff = setTimeout(() => server.closeAllConnections(), STOP_WITHIN_MS);
    server.close(() => {
      clearTimeout(cutOff);
      resolve();
    });
    server.closeIdleConnections();
  });
}

function addressOf(server: Server, host: string): string {
  const { port } = server.address() as AddressInfo; // listening at a port, never at a pipe
  return `http://${host.includes(':') ? `[${host}]` : host}:${port}`;
}
