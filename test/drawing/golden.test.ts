import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { drawingSvg } from '../../server/drawing/svg.ts';
import { scenes } from './scenes.ts';

const here = dirname(fileURLToPath(import.meta.url));

/**
 * Every drawing is kept. One that changed is written to `changed/` beside the golden folder: look at both pictures,
 * and copy it over only when the new one is what is wanted.
 */
describe('drawings that are kept', () => {
  for (const [name, drawing] of Object.entries(scenes())) {
    it(`${name} is the one that was looked at`, () => {
      const svg = drawingSvg(drawing, { colors: 'fixed' });
      const golden = join(here, 'golden', `${name}.svg`);
      const changed = join(here, 'changed', `${name}.svg`);
      let kept = '';
      try {
        kept = readFileSync(golden, 'utf8');
      } catch {
        // A new drawing has none yet: it is written as changed, and the test fails until it was looked at.
      }
      if (kept === svg) rmSync(changed, { force: true });
      else {
        mkdirSync(dirname(changed), { recursive: true });
        writeFileSync(changed, svg);
      }
      expect(kept === svg, `${name} changed: compare golden/ with changed/`).toBe(true);
    });
  }
});
