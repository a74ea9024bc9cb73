import { once } from 'node:events';
import { parseArgs } from 'node:util';
import { pino } from 'pino';
import { readConfig } from '../config.ts';
import { startServer } from '../main.ts';

/** Serves until it is told to stop, then finishes what was asked. */
export async function serveCommand(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: { port: { type: 'string' }, host: { type: 'string' }, data: { type: 'string' } },
  });
  const config = readConfig(process.env, { port: values.port, host: values.host, dataDir: values.data });
  const logger = pino({ level: process.env.LOG_LEVEL ?? 'info' }, pino.destination(2));
  const server = await startServer(config, logger);
  const told = Promise.race([once(process, 'SIGTERM'), once(process, 'SIGINT')]); // before anybody can know we are there
  const demo = server.demoProjectId ? ` (demo project: ${server.address}/projects/${server.demoProjectId})` : '';
  process.stdout.write(`Feedrun is ready: ${server.address}${demo}\n`);
  await told;
  await server.stop();
}
