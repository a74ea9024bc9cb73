import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import type { ItemChange } from '../../db/price-changes.ts';
import { counted } from '../../server/drawing/wording.ts';
import { importPrices, type PriceImport, type StatedChange } from './book-api.ts';
import { differences } from './change-words.ts';
import { RefusedRows } from './refused-rows.tsx';

interface ImportPartProps {
  stated: StatedChange;
  onImported: () => unknown;
}

/** Brings in a price list: first what it would change is shown, and only then, when one says so, it is taken. */
export function ImportPart({ stated, onImported }: ImportPartProps) {
  const [file, setFile] = useState<File>();
  const [removesMissing, setRemovesMissing] = useState(false);
  const look = useMutation({
    mutationFn: (list: { file: File; removesMissing: boolean }) =>
      importPrices(list.file, { isDryRun: true, removesMissing: list.removesMissing }, stated),
  });
  const take = useMutation({
    mutationFn: (chosen: File) => importPrices(chosen, { isDryRun: false, removesMissing }, stated),
    onSuccess: () => onImported(),
  });
  const tryOut = (chosen: File | undefined, removes: boolean) => {
    setFile(chosen);
    setRemovesMissing(removes);
    take.reset();
    if (chosen) look.mutate({ file: chosen, removesMissing: removes });
    else look.reset();
  };
  const error = take.error ?? look.error;
  return (
    <section className="part import" aria-labelledby="import-head">
      <h2 id="import-head">Import a price list</h2>
      <p className="sentence">
        <label>
          A CSV file with the columns of the export:{' '}
          <input
            type="file"
            accept=".csv,text/csv"
            onChange={(event) => tryOut(event.currentTarget.files?.[0], removesMissing)}
          />
        </label>{' '}
        <label>
          <input
            type="checkbox"
            checked={removesMissing}
            onChange={(event) => tryOut(file, event.currentTarget.checked)}
          />{' '}
          what the list does not name goes out of the book
        </label>
      </p>
      <div role="status">
        {error && <p className="word-problem">{error.message}</p>}
        {take.data && (
          <p>
            Taken: {outcome(take.data)}. The book is at revision {take.data.revision}.
          </p>
        )}
        {look.data && !take.data && (
          <DryRun found={look.data} isTaking={take.isPending} onTake={() => file && take.mutate(file)} />
        )}
      </div>
    </section>
  );
}

const outcome = ({ added, changed, removed, same }: PriceImport) =>
  `${counted(added, 'item')} added, ${figure(changed)} changed, ${figure(removed)} removed, ${figure(same)} as before`;

const figure = (count: number) => count.toLocaleString('en-US');

/** What an import would do, item by item, and the rows that it would refuse, by their numbers in the file. */
function DryRun({ found, isTaking, onTake }: { found: PriceImport; isTaking: boolean; onTake: () => void }) {
  const { refused, added, changed, removed, changes } = found;
  const moved = added + changed + removed;
  return (
    <>
      <p>Nothing is changed yet. The list would bring: {outcome(found)}.</p>
      <RefusedRows rows={refused} what="refused: mend them in the file and choose it again" />
      {refused.length === 0 && moved > 0 && (
        <p className="commands">
          <button type="button" className="paper-button" disabled={isTaking} onClick={onTake}>
            Take it into the book
          </button>
        </p>
      )}
      <ChangeList changes={changes} total={moved} />
    </>
  );
}

/** What comes, changes and goes, item by item. */
export function ChangeList({ changes, total }: { changes: readonly ItemChange[]; total: number }) {
  if (changes.length === 0) return null;
  return (
    <div className="history-frame">
      <table className="history">
        <caption>
          {total > changes.length ? `The first ${figure(changes.length)} of ${figure(total)} changes` : 'Item by item'}
        </caption>
        <tbody>
          {changes.map(({ key, before, after }) => (
            <tr key={key}>
              <td>{(after ?? before)?.description}</td>
              <td>{changeOf(before, after)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function changeOf(before: ItemChange['before'], after: ItemChange['after']): string {
  if (!before) return 'added';
  return after ? differences(before, after).join(', ') : 'removed';
}
