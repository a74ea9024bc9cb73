import { readFileSync, writeFileSync } from 'node:fs';
import { UsageError } from './usage-error.ts';

const STANDARD = '-';
/** What the file system says of a name that the user got wrong, rather than of a broken machine. */
const WRONG_NAMES: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of its path is not a folder',
  EACCES: 'it may not be opened',
};

/** Reads a file, or standard input where its name is `-`, as UTF-8. @throws {UsageError} for a name that will not do */
export function readNamed(file: string): string {
  try {
    const bytes = readFileSync(file === STANDARD ? 0 : file);
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    if (error instanceof TypeError) throw new UsageError(`${file} cannot be read: it is not UTF-8 text.`);
    throw wrongName({ file, error, doing: 'read' });
  }
}

/** Writes a file, or to standard output where its name is `-`. @throws {UsageError} for a name that will not do */
export function writeNamed(file: string, content: string | Uint8Array): void {
  try {
    if (file === STANDARD) process.stdout.write(content);
    else writeFileSync(file, content);
  } catch (error) {
    throw wrongName({ file, error, doing: 'written' });
  }
}

function wrongName({ file, error, doing }: { file: string; error: unknown; doing: string }): unknown {
  const reason = WRONG_NAMES[(error as NodeJS.ErrnoException).code ?? ''];
  return reason === undefined ? error : new UsageError(`${file} cannot be ${doing}: ${reason}.`);
}

/** The one file that a command names. @throws {UsageError} where it names none, or more */
export function onlyFile(words: readonly string[], command: string): string {
  const [file, ...others] = words;
  if (file === undefined || others.length > 0) throw new UsageError(`Name one file: feedrun ${command} FILE.`);
  return file;
}
