import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds package.json. */
export const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');

/** A file of the project as text; its path is relative to the root, with forward slashes. */
export interface SourceFile {
  path: string;
  text: string;
}

/** Files that git knows or would add, below the given folders, with one of the endings. */
export function sourceFiles(folders: readonly string[], endings: readonly string[]): SourceFile[] {
  const listed = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', '--', ...folders], {
    cwd: root,
    encoding: 'utf8',
  });
  return [...new Set(listed.split('\n'))]
    .filter((path) => endings.some((ending) => path.endsWith(ending)))
    .flatMap((path) => {
      try {
        return [{ path, text: readFileSync(join(root, path), 'utf8') }];
      } catch {
        return []; // removed in the work tree, still in the index
      }
    });
}

const IMPORT = /(?:import|export)\s+(type\s+)?(?:[^'";]*?\s+from\s+)?['"]([^'"]+)['"]/g;

/** Relative imports of a file: the path they reach and whether they bring types only. */
export function importsOf({ path, text }: SourceFile): { to: string; typeOnly: boolean }[] {
  return [...text.matchAll(IMPORT)]
    .filter(([, , to]) => to?.startsWith('.'))
    .map(([whole, typeWord, to = '']) => ({
      to: relative(root, resolve(root, dirname(path), to)).replaceAll('\\', '/'),
      typeOnly: typeWord !== undefined || onlyInlineTypes(whole),
    }));
}

/** `import { type A, type B } from …` brings types only, too. */
function onlyInlineTypes(statement: string): boolean {
  const names = /\{([^}]*)\}/.exec(statement)?.[1];
  if (names === undefined || /import\s+\w/.test(statement)) return false;
  return names
    .split(',')
    .map((name) => name.trim())
    .filter(Boolean)
    .every((name) => name.startsWith('type '));
}
