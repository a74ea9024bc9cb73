import type { Database } from 'better-sqlite3';
import { StaleRevisionError } from './errors.ts';
import { withTypedErrors } from './typed-errors.ts';

/** A part of a supplier's list, and the item of the book that it is; `package` where the item has several. */
export interface SupplierPart {
  part: string;
  key: string;
  package?: string;
}

/** Which parts of a supplier are which items, in the order of the parts. `revision` is 0 where none was ever kept. */
export interface SupplierMapping {
  supplier: string;
  revision: number;
  parts: SupplierPart[];
}

export type Suppliers = {
  /** The mapping of a supplier; an empty one where none was kept. */
  mapping(supplier: string): SupplierMapping;
  /** Keeps a whole mapping in place of what was read at `revisionSeen`. @throws {StaleRevisionError} */
  keepMapping(supplier: string, revisionSeen: number, parts: readonly SupplierPart[]): SupplierMapping;
};

/** The mappings of suppliers' parts to items of the book. */
export function suppliersOf({ db, file }: { db: Database; file: string }): Suppliers {
  const revisionOf = db.prepare<[string], number>('SELECT revision FROM supplier_mapping WHERE supplier = ?').pluck();
  const partsOf = db.prepare<[string], { part: string; item_key: string; package: string | null }>(
    'SELECT part, item_key, package FROM supplier_part WHERE supplier = ? ORDER BY part',
  );
  const keepRevision = db.prepare<[string, number]>(
    `INSERT INTO supplier_mapping (supplier, revision) VALUES (?, ?)
     ON CONFLICT (supplier) DO UPDATE SET revision = excluded.revision`,
  );
  const dropParts = db.prepare<[string]>('DELETE FROM supplier_part WHERE supplier = ?');
  const addPart = db.prepare<[string, string, string, string | null]>(
    'INSERT INTO supplier_part (supplier, part, item_key, package) VALUES (?, ?, ?, ?)',
  );
  const mapping = db.transaction(
    (supplier: string): SupplierMapping => ({
      supplier,
      revision: revisionOf.get(supplier) ?? 0,
      parts: partsOf.all(supplier).map(({ part, item_key: key, package: name }) => ({
        ...{ part, key },
        ...(name !== null && { package: name }),
      })),
    }),
  );
  const keepMapping = db.transaction((supplier: string, revisionSeen: number, parts: readonly SupplierPart[]) => {
    const revision = revisionOf.get(supplier) ?? 0;
    if (revision !== revisionSeen) {
      const message = `The mapping of "${supplier}" is at revision ${revision} by now, not ${revisionSeen}.`;
      throw new StaleRevisionError(message, { revision });
    }
    keepRevision.run(supplier, revision + 1);
    dropParts.run(supplier);
    for (const { part, key, package: name } of parts) addPart.run(supplier, part, key, name ?? null);
    return mapping(supplier);
  });
  return withTypedErrors(file, { mapping, keepMapping: keepMapping.immediate });
}
