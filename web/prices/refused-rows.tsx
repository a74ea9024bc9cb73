import { counted } from '../../server/drawing/wording.ts';

interface RefusedRowsProps {
  rows: readonly { row: number; reason: string }[];
  /** What is said behind their count: `refused: …`. */
  what: string;
}

/** So many rows are shown; a list with more needs another look at the whole file. */
const SHOWN_ROWS = 200;

/** Rows of a file that were not taken, by their numbers, the heading being row 1, and why. */
export function RefusedRows({ rows, what }: RefusedRowsProps) {
  if (rows.length === 0) return null;
  return (
    <>
      <table className="refused">
        <caption>
          {counted(rows.length, 'row')} {what}
        </caption>
        <thead>
          <tr>
            <th scope="col" className="figure">
              Row
            </th>
            <th scope="col">Why</th>
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, SHOWN_ROWS).map(({ row, reason }) => (
            <tr key={`${row} ${reason}`}>
              <td className="figure">{row}</td>
              <td>{reason}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {rows.length > SHOWN_ROWS && (
        <p className="aside">and {(rows.length - SHOWN_ROWS).toLocaleString('en-US')} more rows</p>
      )}
    </>
  );
}
