import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { STYLE_HASHES } from '../../server/http/safe-headers.ts';

/** Files of React Aria that put a style into the document, found by looking for `createElement('style')` in 3.x. */
const FILES = ['private/interactions/usePress.mjs', 'private/overlays/usePreventScroll.mjs'];

/** The style that such a file sets as text, with the constants that it names filled in. */
function styleIn(file: string): string {
  const folder = dirname(createRequire(import.meta.url).resolve('react-aria/package.json'));
  const source = readFileSync(join(folder, 'dist', file), 'utf8');
  const text = /style\.textContent = `([^`]*)`\s*\.trim\(\)/.exec(source)?.[1];
  if (text === undefined) throw new Error(`${file} sets no style as it did: look at it again.`);
  return text.trim().replaceAll(/\$\{([$\w]+)\}/g, (_, name) => {
    const value = source.split(`const ${name} = '`)[1]?.split("'")[0];
    if (value === undefined) throw new Error(`${file} names ${name} without a text for it.`);
    return value;
  });
}

it('lets the styles of the page pass that a library sets, by what they say, and no others', () => {
  const hashes = FILES.map((file) => `'sha256-${createHash('sha256').update(styleIn(file)).digest('base64')}'`);
  expect(STYLE_HASHES).toEqual(hashes);
});
