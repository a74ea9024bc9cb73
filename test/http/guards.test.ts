import express from 'express';
import { pino } from 'pino';
import request from 'supertest';
import { describe, expect, it } from 'vitest';
import { readConfig } from '../../server/config.ts';
import { guardHost } from '../../server/http/host-guard.ts';
import { guardPassphrase } from '../../server/http/passphrase.ts';
import { answerProblems } from '../../server/http/problems.ts';

/** An app with a guard in front of one answer, as the whole app has them. */
function guarded(guard: express.RequestHandler) {
  const app = express();
  app.use(guard);
  app.use((_req, res) => {
    res.json({ passed: true });
  });
  app.use(answerProblems(pino({ enabled: false })));
  return request(app);
}

describe('the guard of the host', () => {
  const asked = (env: NodeJS.ProcessEnv, headers: Record<string, string>, method: 'get' | 'post' = 'get') =>
    guarded(guardHost(readConfig(env)))
      [method]('/')
      .set(headers);
  const proxied = { FEEDRUN_ORIGIN: 'https://feedrun.example', FEEDRUN_PASSPHRASE: 'x' };
  const open = { HOST: '0.0.0.0', FEEDRUN_PASSPHRASE: 'x' };

  it.each(['localhost:4870', '127.0.0.1:4870', '[::1]:4870', '127.0.0.1'])('lets %s pass', async (host) => {
    expect((await asked({}, { host })).status).toBe(200);
  });

  it.each(['feedrun.example', '192.168.1.7:4870', '127.0.0.1.evil.example', 'localhost.evil.example:4870'])(
    'refuses %s, for a foreign name may be bound to this machine',
    async (host) => {
      const { status, body } = await asked({}, { host });
      expect(status).toBe(421);
      expect(body.detail).toBe(
        `This server is not "${host}". Behind a proxy, set FEEDRUN_ORIGIN to the address that people type.`,
      );
    },
  );

  it('takes the name of the proxy, and no other, once it is set', async () => {
    expect((await asked(proxied, { host: 'feedrun.example' })).status).toBe(200);
    expect((await asked(proxied, { host: 'FEEDRUN.example' })).status).toBe(200);
    expect((await asked(proxied, { host: '127.0.0.1:4870' })).status).toBe(421);
  });

  it('takes a bare address when it listens to other machines, but no foreign name', async () => {
    expect((await asked(open, { host: '192.168.1.7:4870' })).status).toBe(200);
    expect((await asked(open, { host: '[fd00::7]:4870' })).status).toBe(200);
    expect((await asked(open, { host: 'evil.example' })).status).toBe(421);
  });

  it('refuses changes from a page of another origin', async () => {
    const host = '127.0.0.1:4870';
    const from = async (origin: string) => (await asked({}, { host, origin }, 'post')).status;
    expect(await from('http://127.0.0.1:4870')).toBe(200);
    expect(await from('http://127.0.0.1:5000')).toBe(403);
    expect(await from('https://evil.example')).toBe(403);
    expect(await from('null')).toBe(403);
    expect((await asked({}, { host }, 'post')).status).toBe(200); // no browser: no origin
    expect((await asked({}, { host, origin: 'https://evil.example' }, 'get')).status).toBe(200); // reads change nothing
  });

  it('takes the origin that people type, behind a proxy', async () => {
    const host = 'feedrun.example';
    const from = async (origin: string) => (await asked(proxied, { host, origin }, 'post')).status;
    expect(await from('https://feedrun.example')).toBe(200);
    expect(await from('http://feedrun.example')).toBe(403);
  });
});

describe('the passphrase', () => {
  const secret = 'three öld oaks';
  const basic = (user: string, password: string) =>
    `Basic ${Buffer.from(`${user}:${password}`, 'utf8').toString('base64')}`;
  const asked = (authorization?: string) => {
    const asking = guarded(guardPassphrase(secret)).get('/');
    return authorization === undefined ? asking : asking.set('authorization', authorization);
  };

  it('opens under any user name', async () => {
    expect((await asked(basic('', secret))).status).toBe(200);
    expect((await asked(basic('anna', secret))).status).toBe(200);
  });

  it.each([
    undefined,
    'Basic',
    'Basic ***',
    `Bearer ${Buffer.from(`a:${secret}`).toString('base64')}`,
    `Basic ${Buffer.from(secret).toString('base64')}`,
    basic('a', 'three old oaks'),
    basic('a', ''),
  ])('stays shut for %s, and says how it is asked for', async (authorization) => {
    const { status, headers, body } = await asked(authorization);
    expect(status).toBe(401);
    expect(headers['www-authenticate']).toBe('Basic realm="Feedrun", charset="UTF-8"');
    expect(body).toMatchObject({ title: 'Unauthorized', status: 401 });
    expect(JSON.stringify(body)).not.toContain(secret);
  });
});
