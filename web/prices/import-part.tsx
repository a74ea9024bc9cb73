import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { counted } from '../../server/drawing/wording.ts';
import { importPrices, type PriceImport } from './book-api.ts';

/** Brings in a price list: first what it would change is shown, and only then, when one says so, it is taken. */
export function ImportPart({ onImported }: { onImported: () => unknown }) {
  const [file, setFile] = useState<File>();
  const look = useMutation({ mutationFn: (chosen: File) => importPrices(chosen, { isDryRun: true }) });
  const take = useMutation({
    mutationFn: (chosen: File) => importPrices(chosen, { isDryRun: false }),
    onSuccess: () => onImported(),
  });
  const choose = (chosen: File | undefined) => {
    setFile(chosen);
    take.reset();
    if (chosen) look.mutate(chosen);
    else look.reset();
  };
  const error = take.error ?? look.error;
  return (
    <section className="part import" aria-labelledby="import-head">
      <h2 id="import-head">Import a price list</h2>
      <p className="sentence">
        <label>
          A CSV file with the columns of the export:{' '}
          <input type="file" accept=".csv,text/csv" onChange={(event) => choose(event.currentTarget.files?.[0])} />
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

const outcome = ({ added, changed, same }: PriceImport) =>
  `${counted(added, 'item')} added, ${number(changed)} changed, ${number(same)} as before`;

const number = (count: number) => count.toLocaleString('en-US');

/** What an import would do, and the rows that it would refuse, by their numbers in the file. */
function DryRun({ found, isTaking, onTake }: { found: PriceImport; isTaking: boolean; onTake: () => void }) {
  const { refused, added, changed } = found;
  return (
    <>
      <p>Nothing is changed yet. The list would bring: {outcome(found)}.</p>
      {refused.length > 0 && (
        <table className="refused">
          <caption>{counted(refused.length, 'row')} refused: mend them in the file and choose it again</caption>
          <thead>
            <tr>
              <th scope="col" className="figure">
                Row
              </th>
              <th scope="col">Why</th>
            </tr>
          </thead>
          <tbody>
            {refused.slice(0, SHOWN_ROWS).map(({ row, reason }) => (
              <tr key={`${row} ${reason}`}>
                <td className="figure">{row}</td>
                <td>{reason}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {refused.length > SHOWN_ROWS && <p className="aside">and {number(refused.length - SHOWN_ROWS)} more rows</p>}
      {refused.length === 0 && added + changed > 0 && (
        <button type="button" className="paper-button" disabled={isTaking} onClick={onTake}>
          Take it into the book
        </button>
      )}
    </>
  );
}

/** So many refused rows are shown; a list with more needs another look at the whole file. */
const SHOWN_ROWS = 200;
