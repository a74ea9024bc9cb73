import { isIP } from 'node:net';

/** The settings of a server, read from the environment once. */
export interface Config {
  /** The data folder. */
  dataDir: string;
  port: number;
  /** The address to listen at. */
  host: string;
  /** Once set it is asked for everywhere. */
  passphrase?: string;
  /** The address that people type when a proxy stands in front, such as `https://feedrun.example`. */
  origin?: URL;
}

/** A setting that cannot be; the message names the variable, its value and what would do. */
export class ConfigError extends Error {
  override name = 'ConfigError';
}

/** Settings that the command line may state instead of the environment. */
export interface ConfigOverrides {
  port?: string | undefined;
  host?: string | undefined;
  dataDir?: string | undefined;
}

/** The folder that holds the data unless another is named, relative to where the command is given. */
export const DEFAULT_DATA_DIR = 'data';
const DEFAULT_PORT = 4870;
const DEFAULT_HOST = '127.0.0.1';
const MAX_PORT = 65_535;

/**
 * Reads the settings of a server.
 * @throws {ConfigError} for a setting that cannot be, and where anybody in reach could read and change everything
 */
export function readConfig(env: NodeJS.ProcessEnv, stated: ConfigOverrides = {}): Config {
  const host = stated.host ?? (env.HOST || DEFAULT_HOST);
  const passphrase = env.FEEDRUN_PASSPHRASE || undefined;
  const origin = env.FEEDRUN_ORIGIN ? readOrigin(env.FEEDRUN_ORIGIN) : undefined;
  if (passphrase === undefined && !isLoopback(host)) {
    throw new ConfigError(
      `HOST ${host} can be reached from other machines: set FEEDRUN_PASSPHRASE, or listen at 127.0.0.1.`,
    );
  }
  if (passphrase === undefined && origin !== undefined) {
    throw new ConfigError('FEEDRUN_ORIGIN says that others reach this server: set FEEDRUN_PASSPHRASE too.');
  }
  return {
    dataDir: readDataDir(env, stated),
    port: readPort(stated.port ?? (env.PORT || String(DEFAULT_PORT))),
    host,
    ...(passphrase !== undefined && { passphrase }),
    ...(origin !== undefined && { origin }),
  };
}

/** The data folder: the one stated, else FEEDRUN_DATA, else `./data`. */
export function readDataDir(env: NodeJS.ProcessEnv, { dataDir }: Pick<ConfigOverrides, 'dataDir'> = {}): string {
  return dataDir || env.FEEDRUN_DATA || DEFAULT_DATA_DIR;
}

function readPort(stated: string): number {
  const port = Number(stated);
  if (/^\d+$/.test(stated) && port <= MAX_PORT) return port;
  throw new ConfigError(`PORT must be a whole number from 0 to ${MAX_PORT}, not "${stated}".`);
}

function readOrigin(stated: string): URL {
  const origin = URL.canParse(stated) ? new URL(stated) : undefined;
  const isPlain = origin && /^https?:$/.test(origin.protocol) && origin.pathname === '/' && !origin.search;
  if (isPlain) return origin;
  throw new ConfigError(
    `FEEDRUN_ORIGIN must be an address without a path, such as https://feedrun.example, not "${stated}".`,
  );
}

/** Can this address be reached from this machine alone? 127.0.0.0/8 and ::1 (RFC 5735, RFC 4291). */
export function isLoopback(host: string): boolean {
  const bare = host.replace(/^\[(.*)\]$/, '$1').toLowerCase();
  if (bare === 'localhost' || bare === '::1') return true;
  return isIP(bare) === 4 && bare.startsWith('127.');
}
