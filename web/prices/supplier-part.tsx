import { useMutation, useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { counted } from '../../server/drawing/wording.ts';
import { listItems } from '../api.ts';
import { importSupplierList, mapParts, type StatedChange, type SupplierImport, type SupplierPart } from './book-api.ts';
import { ChangeList } from './import-part.tsx';
import { RefusedRows } from './refused-rows.tsx';
import { SupplierColumns } from './supplier-columns.tsx';

interface SupplierPartProps {
  stated: StatedChange;
  onImported: () => unknown;
}

/** Brings in a supplier's list by the supplier's own part numbers; which part is which item is kept for the next list. */
export function SupplierListPart({ stated, onImported }: SupplierPartProps) {
  const [supplier, setSupplier] = useState('');
  const [file, setFile] = useState<File>();
  const look = useMutation({
    mutationFn: (list: File) => importSupplierList(supplier.trim(), list, { isDryRun: true, stated }),
  });
  const take = useMutation({
    mutationFn: (list: File) => importSupplierList(supplier.trim(), list, { isDryRun: false, stated }),
    onSuccess: () => onImported(),
  });
  const tryOut = (list: File | undefined) => {
    setFile(list);
    take.reset();
    if (list) look.mutate(list);
    else look.reset();
  };
  const error = take.error ?? look.error;
  return (
    <section className="part import" aria-labelledby="supplier-head">
      <h2 id="supplier-head">Import a supplier's list</h2>
      <p className="sentence">
        <label>
          Supplier{' '}
          <input
            className="plain-field"
            value={supplier}
            autoComplete="off"
            onChange={(event) => setSupplier(event.currentTarget.value)}
          />
        </label>{' '}
        <label>
          and a CSV file with a part number and a price in each row:{' '}
          <input
            type="file"
            accept=".csv,text/csv"
            disabled={supplier.trim() === ''}
            onChange={(event) => tryOut(event.currentTarget.files?.[0])}
          />
        </label>
      </p>
      <div role="status">
        {error && <p className="word-problem">{error.message}</p>}
        {take.data && (
          <p>
            Taken: {counted(take.data.changed.length, 'item')} changed. The book is at revision {take.data.bookRevision}
            .
          </p>
        )}
      </div>
      {look.data && file && !take.data && (
        <ListTried
          supplier={supplier.trim()}
          found={look.data}
          onMapped={() => look.mutate(file)}
          onTake={() => take.mutate(file)}
        />
      )}
    </section>
  );
}

interface ListTriedProps {
  supplier: string;
  found: SupplierImport;
  onMapped: () => void;
  onTake: () => void;
}

/** What the list would change, and the parts that nobody said yet which item they are. */
function ListTried({ supplier, found, onMapped, onTake }: ListTriedProps) {
  const { matched, unmatched, changed, refused, headings, missing } = found;
  const columns = headings.length > 0 && (
    <SupplierColumns key={headings.join()} supplier={supplier} found={found} onKept={onMapped} />
  );
  if (missing.length > 0) {
    return (
      <>
        <p>Nothing is changed yet: which column is which is not known.</p>
        {columns}
      </>
    );
  }
  return (
    <>
      {columns}
      <p>
        Nothing is changed yet. {counted(matched, 'row')} found their item, {counted(changed.length, 'item')} would
        change.
      </p>
      <RefusedRows rows={refused} what="refused: mend them in the file and choose it again" />
      {unmatched.length > 0 && <PartsToMap supplier={supplier} unmatched={unmatched} onMapped={onMapped} />}
      {refused.length === 0 && changed.length > 0 && (
        <p className="commands">
          <button type="button" className="paper-button" onClick={onTake}>
            Take the prices into the book
          </button>
        </p>
      )}
      <ChangeList changes={changed} total={changed.length} />
    </>
  );
}

/** So many parts are asked for at once; after them come the next. */
const ASKED_PARTS = 20;

function PartsToMap({
  supplier,
  unmatched,
  onMapped,
}: Pick<ListTriedProps, 'supplier' | 'onMapped'> & { unmatched: SupplierImport['unmatched'] }) {
  const [chosen, setChosen] = useState<ReadonlyMap<string, SupplierPart>>(new Map());
  const keep = useMutation({
    mutationFn: () => mapParts(supplier, [...chosen.values()]),
    onSuccess: () => {
      setChosen(new Map());
      onMapped();
    },
  });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        keep.mutate();
      }}
    >
      <table className="refused">
        <caption>{counted(unmatched.length, 'row')} without an item: say which item each part is</caption>
        <thead>
          <tr>
            <th scope="col" className="figure">
              Row
            </th>
            <th scope="col">Part</th>
            <th scope="col">Why</th>
            <th scope="col">Item of the book, and its package</th>
          </tr>
        </thead>
        <tbody>
          {unmatched.slice(0, ASKED_PARTS).map(({ row, part, description, reason }) => (
            <tr key={row}>
              <td className="figure">{row}</td>
              <td>
                {part}
                {description !== undefined && <small> {description}</small>}
              </td>
              <td>{reason}</td>
              <td>
                <ItemChoice part={part} onChoose={(mapped) => setChosen(new Map(chosen).set(part, mapped))} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="commands">
        <button type="submit" className="paper-button" disabled={chosen.size === 0 || keep.isPending}>
          Keep which part is which item
        </button>
        {keep.error && <span className="word-problem">{keep.error.message}</span>}
      </p>
    </form>
  );
}

/** Finds an item by words or its key, and which of its packages the supplier sells. */
function ItemChoice({ part, onChoose }: { part: string; onChoose: (mapped: SupplierPart) => void }) {
  const listId = useId();
  const [typed, setTyped] = useState('');
  const [name, setName] = useState('');
  const found = useQuery({
    queryKey: ['item-choice', typed],
    queryFn: ({ signal }) => listItems({ search: typed, category: '', page: 1 }, signal),
    enabled: typed.trim().length > 1,
  });
  const items = found.data?.items.slice(0, 12) ?? [];
  const item = items.find(({ key }) => key === typed.trim());
  const choose = (key: string, chosenPackage: string) =>
    onChoose({ part, key, ...(chosenPackage !== '' && { package: chosenPackage }) });
  return (
    <>
      <input
        className="plain-field"
        list={listId}
        value={typed}
        placeholder="key, or words to find it"
        autoComplete="off"
        aria-label={`Item for part ${part}`}
        onChange={(event) => {
          setTyped(event.currentTarget.value);
          choose(event.currentTarget.value.trim(), name);
        }}
      />
      <datalist id={listId}>
        {items.map(({ key, description }) => (
          <option key={key} value={key}>
            {description}
          </option>
        ))}
      </datalist>
      {item && item.offers.length > 0 && (
        <select
          className="plain-choice"
          aria-label={`Package for part ${part}`}
          value={name}
          onChange={(event) => {
            setName(event.currentTarget.value);
            choose(item.key, event.currentTarget.value);
          }}
        >
          <option value="">package as the list says</option>
          {item.offers.map((offer) => (
            <option key={offer.package} value={offer.package}>
              {offer.package}
            </option>
          ))}
        </select>
      )}
    </>
  );
}
