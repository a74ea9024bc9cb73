import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Express } from 'express';
import { pino } from 'pino';
import { type Data, openData } from '../../db/open.ts';
import { type Config, readConfig } from '../../server/config.ts';
import { createApp } from '../../server/http/app.ts';
import type { Estimator } from '../../server/http/estimator.ts';
import { seedPrices } from '../../server/seed-prices.ts';

/** The day that the tests happen on. */
export const TODAY = '2026-03-02';

/**
 * An app over a data folder of its own, with the starting price book; no port is opened. `estimatorOf` makes the one
 * that makes its estimates, where not its own.
 */
export function openApp(
  stated: Partial<Config> = {},
  estimatorOf?: (data: Data) => Estimator,
): { app: Express; dataDir: string; close: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'feedrun-http-'));
  const dataDir = join(folder, 'data');
  const data = openData(dataDir);
  data.prices.importItems(seedPrices(), { dryRun: false });
  const app = createApp({
    data,
    config: { ...readConfig({}), ...stated },
    now: () => new Date(`${TODAY}T12:00:00`),
    logger: pino({ enabled: false }),
    ...(estimatorOf && { estimator: estimatorOf(data) }),
  });
  const close = () => {
    data.close();
    rmSync(folder, { recursive: true });
  };
  return { app, dataDir, close };
}
