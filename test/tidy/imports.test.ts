import { describe, expect, it } from 'vitest';
import { importsOf, type SourceFile, sourceFiles } from './source-files.ts';

/** The rooms of the house, and which of them each may use. What is not named may not be used. */
const MAY_USE: Record<string, { code: readonly string[]; types: readonly string[] }> = {
  electrical: { code: [], types: [] },
  estimate: { code: ['electrical'], types: [] },
  calculations: { code: ['electrical', 'estimate'], types: [] },
  drawing: { code: ['electrical', 'estimate'], types: [] },
  report: { code: ['drawing', 'electrical', 'estimate'], types: [] },
  http: { code: ['report', 'drawing', 'electrical', 'estimate', 'calculations', 'db', 'edge'], types: [] },
  edge: { code: ['http', 'report', 'drawing', 'electrical', 'estimate', 'calculations', 'db'], types: [] },
  db: { code: [], types: ['electrical', 'estimate'] },
  web: { code: ['drawing', 'route-line'], types: ['electrical', 'estimate', 'report', 'http', 'calculations', 'db'] },
};

/** Files of the estimate without a library behind them, which the page and the drawings may use as code. */
const BROWSER_SAFE = ['server/estimate/leg-costs.ts', 'server/estimate/route-line.ts', 'server/estimate/vocabulary.ts'];

function roomOf(path: string): string {
  if (path.startsWith('server/calculations')) return 'calculations';
  if (path.startsWith('server/terminal/')) return 'edge';
  const [top, second] = path.split('/');
  if (top === 'server') return second?.endsWith('.ts') ? 'edge' : (second ?? 'edge');
  return top ?? '';
}

function forbiddenImports(file: SourceFile): string[] {
  const from = roomOf(file.path);
  const allowed = MAY_USE[from];
  if (!allowed) return [`${file.path} is in no known room`];
  return importsOf(file)
    .filter(({ to, typeOnly }) => {
      const room = roomOf(to);
      if (room === from || allowed.code.includes(room)) return false;
      if (typeOnly && allowed.types.includes(room)) return false;
      return !(from === 'web' && BROWSER_SAFE.includes(to));
    })
    .map(({ to }) => `${file.path} → ${to}`);
}

describe('who may import whom', () => {
  const files = sourceFiles(['server', 'db', 'web'], ['.ts', '.tsx']);

  it('finds the source files', () => {
    expect(files.length).toBeGreaterThan(20);
  });

  it('holds everywhere', () => {
    expect(files.flatMap(forbiddenImports)).toEqual([]);
  });

  it('catches an arrow that points back, and lets types pass where only types may', () => {
    const file = (path: string, text: string) => forbiddenImports({ path, text });
    expect(file('server/electrical/a.ts', "import { x } from '../estimate/b.ts';")).toHaveLength(1);
    expect(file('server/estimate/a.ts', "export { x } from '../http/b.ts';")).toHaveLength(1);
    expect(file('db/a.ts', "import { x } from '../server/estimate/b.ts';")).toHaveLength(1);
    expect(file('db/a.ts', "import type { X } from '../server/estimate/b.ts';")).toEqual([]);
    expect(file('web/a.tsx', "import { type X } from '../server/estimate/answer.ts';")).toEqual([]);
    expect(file('web/a.tsx', "import { X } from '../server/estimate/answer.ts';")).toHaveLength(1);
    expect(file('web/a.tsx', "import { parseRouteLine } from '../server/estimate/route-line.ts';")).toEqual([]);
  });

  it('keeps the code book and the estimate free of HTTP, SQL and files', () => {
    const impure = /from ['"](?:node:|express|better-sqlite3|pdfkit)/;
    const pure = sourceFiles(['server/electrical', 'server/estimate', 'server/drawing'], ['.ts']);
    expect(pure.filter(({ text }) => impure.test(text)).map(({ path }) => path)).toEqual([]);
  });

  it('keeps a library out of what the browser uses', () => {
    const bare = /from ['"][^.'"]/;
    const used = sourceFiles([...BROWSER_SAFE, 'server/drawing'], ['.ts']);
    expect(used.filter(({ text }) => bare.test(text)).map(({ path }) => path)).toEqual([]);
  });
});
