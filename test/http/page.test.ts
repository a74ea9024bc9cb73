import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import express from 'express';
import request from 'supertest';
import { afterAll, describe, expect, it } from 'vitest';
import { pageRouter } from '../../server/http/page.ts';

const folder = mkdtempSync(join(tmpdir(), 'feedrun-page-'));
mkdirSync(join(folder, 'assets'));
writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Feedrun</title>');
writeFileSync(join(folder, 'assets', 'main-1a2b.js'), 'export {};');
writeFileSync(join(folder, 'icon.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
afterAll(() => rmSync(folder, { recursive: true }));

const app = express().use(pageRouter(folder));
const browse = (path: string) => request(app).get(path).set('Accept', 'text/html,*/*;q=0.8');

describe('the page', () => {
  it.each(['/', '/projects/4f', '/prices', '/projects/a.b'])(
    'opens at %s, which the page itself reads',
    async (path) => {
      const { status, text, headers } = await browse(path);
      expect([status, text]).toEqual([200, '<!doctype html><title>Feedrun</title>']);
      expect(headers['cache-control']).toBe('no-cache');
    },
  );

  it('may be kept for a year where a name carries the hash of what it holds', async () => {
    const { status, headers } = await browse('/assets/main-1a2b.js');
    expect(status).toBe(200);
    expect(headers['cache-control']).toBe('public, max-age=31536000, immutable');
  });

  it('asks again for what has no such name', async () => {
    expect((await browse('/icon.svg')).headers['cache-control']).toBe('no-cache');
  });

  it('is not given in place of a part that is missing, nor to who asks for JSON', async () => {
    expect((await browse('/assets/gone-3c4d.js')).status).toBe(404);
    expect((await request(app).get('/projects/4f').set('Accept', 'application/json')).status).toBe(404);
    expect((await request(app).post('/projects')).status).toBe(404);
  });

  it('does not leave its folder', async () => {
    writeFileSync(`${folder}.txt`, 'outside');
    const { text } = await browse(`/..%2f${folder.split('/').at(-1)}.txt`);
    rmSync(`${folder}.txt`);
    expect(text).not.toContain('outside');
  });
});
