import type { Database } from 'better-sqlite3';
import { StaleRevisionError } from './errors.ts';
import type { JsonObject } from './projects.ts';
import { withTypedErrors } from './typed-errors.ts';

/** Who prints the papers, and the terms that new projects start with. */
export interface SettingsInput {
  businessName?: string | undefined;
  address?: string | undefined;
  licenceNumber?: string | undefined;
  defaultTerms?: JsonObject | undefined;
}

/** The settings as they are kept; what was never stated is left out. */
export interface Settings {
  revision: number;
  businessName?: string;
  address?: string;
  licenceNumber?: string;
  defaultTerms?: JsonObject;
}

// A type, not an interface: see price-book.ts.
export type SettingsStore = {
  read(): Settings;
  /** Replaces what was read at `revisionSeen`. @throws {StaleRevisionError} */
  replace(revisionSeen: number, settings: SettingsInput): Settings;
};

/** The one set of settings of a data folder; a fresh one has none, at revision 1. */
export function settingsOf({ db, file }: { db: Database; file: string }): SettingsStore {
  const select = db.prepare<[], { revision: number; content: string }>('SELECT revision, content FROM settings');
  const update = db.prepare<[string]>('UPDATE settings SET revision = revision + 1, content = ?');
  const read = (): Settings => {
    const row = select.get();
    if (!row) throw new Error('The settings have no row, though a migration adds it.');
    return { revision: row.revision, ...(JSON.parse(row.content) as SettingsContent) };
  };
  const replace = db.transaction((revisionSeen: number, settings: SettingsInput): Settings => {
    const { revision } = read();
    if (revision !== revisionSeen) {
      throw new StaleRevisionError(`The settings are at revision ${revision} by now, not ${revisionSeen}.`, {
        revision,
      });
    }
    const { businessName, address, licenceNumber, defaultTerms } = settings;
    update.run(JSON.stringify({ businessName, address, licenceNumber, defaultTerms }));
    return read();
  });
  return withTypedErrors(file, { read, replace: replace.immediate });
}

type SettingsContent = Omit<Settings, 'revision'>;
