import { CorruptDataError, DataLockedError, ReadOnlyError, type ReadOnlyReason } from './errors.ts';

/** Result codes of the database (and of files) that mean: it cannot be written or opened now. First match holds. */
const NOT_WRITABLE: readonly { code: RegExp; reason: ReadOnlyReason; says: string }[] = [
  { code: /^(?:SQLITE_FULL|ENOSPC|EDQUOT)/, reason: 'disk-full', says: 'the disk is full. Make room, then try again' },
  { code: /^(?:SQLITE_READONLY|EROFS)/, reason: 'read-only', says: 'it may only be read here' },
  { code: /^SQLITE_IOERR|^EIO/, reason: 'disk-error', says: 'the disk does not read or write as it should' },
  {
    code: /^(?:SQLITE_CANTOPEN|SQLITE_PERM|SQLITE_AUTH|EACCES|EPERM|ENOTDIR|EEXIST|EISDIR|ENOENT)/,
    reason: 'no-access',
    says: 'it cannot be opened. Look at its path and permissions',
  },
];

/** Gives what the database or the file system threw as an error of ours, where it has one; else as it was. */
export function typedError(error: unknown, file: string): unknown {
  if (!(error instanceof Error)) return error;
  const { code } = error as { code?: unknown };
  if (typeof code !== 'string') return error;
  if (/^SQLITE_(?:CORRUPT|NOTADB)/.test(code))
    return new CorruptDataError({ file, found: error.message, cause: error });
  if (/^SQLITE_(?:BUSY|LOCKED)/.test(code)) {
    return new DataLockedError(`${file} is held by another program. Close it, then try again.`);
  }
  const matched = NOT_WRITABLE.find((kind) => kind.code.test(code));
  if (!matched) return error;
  const message = `${file}: ${matched.says} (${code}). Nothing was changed.`;
  return new ReadOnlyError(message, { reason: matched.reason, cause: error });
}

/** Runs something that touches `file`; what the database throws comes out typed. */
export function typed<Result>(file: string, run: () => Result): Result {
  try {
    return run();
  } catch (error) {
    throw typedError(error, file);
  }
}

/** As `typed`, for what takes its time. */
export async function typedLater<Result>(file: string, run: () => Promise<Result>): Promise<Result> {
  try {
    return await run();
  } catch (error) {
    throw typedError(error, file);
  }
}

type Functions = Record<string, (...given: never[]) => unknown>;

/** The same functions, whose errors of the database come out typed. */
export function withTypedErrors<Repository extends Functions>(file: string, repository: Repository): Repository {
  const wrapped = Object.entries(repository).map(([name, run]) => [
    name,
    (...given: never[]) => typed(file, () => run(...given)),
  ]);
  return Object.fromEntries(wrapped) as Repository;
}
