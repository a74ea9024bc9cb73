import { describe, expect, it } from 'vitest';
import { ConfigError, isLoopback, readConfig } from '../../server/config.ts';

describe('the settings of a server', () => {
  it('are those of the contract of names where nothing is stated', () => {
    expect(readConfig({})).toEqual({ dataDir: 'data', port: 4870, host: '127.0.0.1' });
  });

  it('come from the environment, and the command line goes before it', () => {
    const env = { FEEDRUN_DATA: '/srv/feedrun', PORT: '8000', HOST: 'localhost' };
    expect(readConfig(env)).toEqual({ dataDir: '/srv/feedrun', port: 8000, host: 'localhost' });
    expect(readConfig(env, { port: '8001', dataDir: 'here', host: '::1' })).toEqual({
      dataDir: 'here',
      port: 8001,
      host: '::1',
    });
  });

  it('take an empty variable as none', () => {
    expect(readConfig({ PORT: '', HOST: '', FEEDRUN_PASSPHRASE: '', FEEDRUN_ORIGIN: '', FEEDRUN_DATA: '' })).toEqual(
      readConfig({}),
    );
  });

  it('take a passphrase and an origin together', () => {
    const config = readConfig({ HOST: '0.0.0.0', FEEDRUN_PASSPHRASE: 'x', FEEDRUN_ORIGIN: 'https://feedrun.example' });
    expect(config).toMatchObject({ host: '0.0.0.0', passphrase: 'x' });
    expect(config.origin?.origin).toBe('https://feedrun.example');
  });

  const ORIGIN = 'FEEDRUN_ORIGIN must be an address without a path, such as https://feedrun.example, not';
  it.each([
    [{ PORT: 'many' }, 'PORT must be a whole number from 0 to 65535, not "many".'],
    [{ PORT: '65536' }, 'PORT must be a whole number from 0 to 65535, not "65536".'],
    [
      { HOST: '0.0.0.0' },
      'HOST 0.0.0.0 can be reached from other machines: set FEEDRUN_PASSPHRASE, or listen at 127.0.0.1.',
    ],
    [
      { FEEDRUN_ORIGIN: 'https://feedrun.example' },
      'FEEDRUN_ORIGIN says that others reach this server: set FEEDRUN_PASSPHRASE too.',
    ],
    [{ FEEDRUN_ORIGIN: 'feedrun.example', FEEDRUN_PASSPHRASE: 'x' }, `${ORIGIN} "feedrun.example".`],
    [{ FEEDRUN_ORIGIN: 'https://a.example/b', FEEDRUN_PASSPHRASE: 'x' }, `${ORIGIN} "https://a.example/b".`],
  ])('are refused where they would not do: %o', (env, message) => {
    expect(() => readConfig(env)).toThrow(new ConfigError(message));
  });

  it.each(['127.0.0.1', '127.8.9.1', '::1', '[::1]', 'localhost', 'LOCALHOST'])('know %s for this machine', (host) => {
    expect(isLoopback(host)).toBe(true);
  });

  it.each(['0.0.0.0', '::', '192.168.1.4', '127.example', 'localhost.example', '128.0.0.1'])(
    'know %s for others too',
    (host) => {
      expect(isLoopback(host)).toBe(false);
    },
  );
});
