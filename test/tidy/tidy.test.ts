import { describe, expect, it } from 'vitest';
import { sourceFiles } from './source-files.ts';

const code = sourceFiles(['server', 'db', 'web', 'test'], ['.ts', '.tsx', '.mjs', '.css', '.sql']);
const program = code.filter(({ path }) => !path.startsWith('test/'));

/** Where a pattern stands, as `file:line`. */
function places(files: typeof code, pattern: RegExp): string[] {
  return files.flatMap(({ path, text }) =>
    text
      .split('\n')
      .flatMap((line, at) => (pattern.test(line) ? [`${path}:${at + 1} ${line.trim().slice(0, 80)}`] : [])),
  );
}

/** Functions declared at the start of a line, with the number of their lines. */
function functionsOf(text: string): { name: string; lines: number }[] {
  const lines = text.split('\n');
  return lines.flatMap((line, start) => {
    const name = /^(?:export )?(?:default )?(?:async )?function\*? (\w+)/.exec(line)?.[1];
    if (name === undefined || /\}\s*$/.test(line)) return [];
    const end = lines.findIndex((later, at) => at > start && later === '}');
    return end < 0 ? [] : [{ name, lines: end - start + 1 }];
  });
}

describe('the house is tidy', () => {
  it('leaves nothing open, skipped or silenced', () => {
    const self = 'test/tidy/tidy.test.ts';
    const others = code.filter(({ path }) => path !== self);
    const leftOver =
      /\b(?:it|test|describe)\.(?:skip|only|todo)\b|TODO|FIXME|@ts-(?:ignore|nocheck|expect-error)|biome-ignore|\bas any\b/;
    expect(places(others, leftOver)).toEqual([]);
  });

  it('has no function above 70 lines', () => {
    const long = code
      .filter(({ path }) => /\.tsx?$/.test(path))
      .flatMap(({ path, text }) =>
        functionsOf(text)
          .filter(({ lines }) => lines > 70)
          .map(({ name, lines }) => `${path} ${name}: ${lines}`),
      );
    expect(long).toEqual([]);
  });

  it('measures a long function, and lets a short one pass', () => {
    const long = `function f() {\n${'  x;\n'.repeat(70)}}\n`;
    expect(functionsOf(long)).toEqual([{ name: 'f', lines: 72 }]);
    expect(functionsOf('function g() {}\nexport function h() {\n}\n')).toEqual([{ name: 'h', lines: 2 }]);
  });

  it('has no room without a name yet', () => {
    const nameless = /\/(?:utils?|helpers?|misc|common|manager)\.tsx?$/;
    expect(code.map(({ path }) => path).filter((path) => nameless.test(path))).toEqual([]);
  });

  it('has a doc comment on every function that is exported', () => {
    const bare = program
      .filter(({ path }) => /\.tsx?$/.test(path))
      .flatMap(({ path, text }) => {
        const lines = text.split('\n');
        return lines.flatMap((line, at) => {
          if (!/^export (?:async )?function /.test(line)) return [];
          return /\*\/\s*$/.test(lines[at - 1] ?? '') ? [] : [`${path}:${at + 1} ${line.slice(0, 60)}`];
        });
      });
    expect(bare).toEqual([]);
  });

  it('keeps its clock at the edge', () => {
    const pure = program.filter(({ path }) => /^server\/(?:electrical|estimate|drawing|report)\//.test(path));
    expect(places(pure, /\bDate\.now\(|new Date\(\)|Math\.random\(/)).toEqual([]);
  });
});
