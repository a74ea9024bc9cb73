import type { Database } from 'better-sqlite3';
import type { SupplierHeadings } from '../server/estimate/supplier-list.ts';
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
  /** What the supplier calls the columns of a list, where it is not our name for them. */
  columns: SupplierHeadings;
}

/** What is kept of a supplier for the next list, all of it each time. */
export type SupplierKept = Pick<SupplierMapping, 'parts'> & Partial<Pick<SupplierMapping, 'columns'>>;

export type Suppliers = {
  /** The mapping of a supplier; an empty one where none was kept. */
  mapping(supplier: string): SupplierMapping;
  /** Keeps a whole mapping in place of what was read at `revisionSeen`. @throws {StaleRevisionError} */
  keepMapping(supplier: string, revisionSeen: number, kept: SupplierKept): SupplierMapping;
};

/** The mappings of suppliers' parts to items of the book. */
export function suppliersOf({ db, file }: { db: Database; file: string }): Suppliers {
  const revisionOf = db.prepare<[string], number>('SELECT revision FROM supplier_mapping WHERE supplier = ?').pluck();
  const partsOf = db.prepare<[string], { part: string; item_key: string; package: string | null }>(
    'SELECT part, item_key, package FROM supplier_part WHERE supplier = ? ORDER BY part',
  );
  const headingsOf = db.prepare<[string], { column_name: string; heading: string }>(
    'SELECT column_name, heading FROM supplier_heading WHERE supplier = ? ORDER BY column_name',
  );
  const dropHeadings = db.prepare<[string]>('DELETE FROM supplier_heading WHERE supplier = ?');
  const addHeading = db.prepare<[string, string, string]>(
    'INSERT INTO supplier_heading (supplier, column_name, heading) VALUES (?, ?, ?)',
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
      columns: Object.fromEntries(
        headingsOf.all(supplier).map(({ column_name: column, heading }) => [column, heading]),
      ),
    }),
  );
  const keepMapping = db.transaction(
    (supplier: string, revisionSeen: number, { parts, columns = {} }: SupplierKept) => {
      const revision = revisionOf.get(supplier) ?? 0;
      if (revision !== revisionSeen) {
        const message = `The mapping of "${supplier}" is at revision ${revision} by now, not ${revisionSeen}.`;
        throw new StaleRevisionError(message, { revision });
      }
      keepRevision.run(supplier, revision + 1);
      dropParts.run(supplier);
      for (const { part, key, package: name } of parts) addPart.run(supplier, part, key, name ?? null);
      dropHeadings.run(supplier);
      for (const [column, heading] of Object.entries(columns)) addHeading.run(supplier, column, heading);
      return mapping(supplier);
    },
  );
  return withTypedErrors(file, { mapping, keepMapping: keepMapping.immediate });
}
