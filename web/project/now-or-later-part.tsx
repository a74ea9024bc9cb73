import { nowOrLaterRows } from '../../server/drawing/comparison-words.ts';
import { wholeDollars } from '../../server/drawing/wording.ts';
import type { Estimate, NowOrLater } from '../../server/estimate/answer.ts';

/** Doing it once, prepared, or twice: what the open option asks for now, and what would come later either way. */
export function NowOrLaterPart({ comparison, optionId }: { comparison: Estimate['comparison']; optionId: string }) {
  const found = (comparison.nowOrLater ?? []).filter(({ option }) => option === optionId);
  if (found.length === 0) return null;
  return (
    <section className="detail-part" id="now-or-later">
      <h2>Once or twice</h2>
      {found.map((one) => (
        <OnceOrTwice key={one.kind} one={one} />
      ))}
    </section>
  );
}

function OnceOrTwice({ one }: { one: NowOrLater }) {
  return (
    <>
      <p>{one.because}</p>
      <table className="now-or-later" aria-label={`Once or twice: ${one.kind.replaceAll('-', ' ')}`}>
        <thead>
          <tr>
            <td />
            <th scope="col" className="figure">
              Now
            </th>
            <th scope="col" className="figure">
              Later
            </th>
            <th scope="col" className="figure">
              Together
            </th>
          </tr>
        </thead>
        <tbody>
          {nowOrLaterRows(one).map(({ words, nowCents, laterCents, sumCents }) => (
            <tr key={words}>
              <th scope="row">{words}</th>
              <td className="figure">{wholeDollars(nowCents)}</td>
              <td className="figure">{laterCents === undefined ? '–' : wholeDollars(laterCents)}</td>
              <td className="figure">{wholeDollars(sumCents)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="aside">Sums at today’s prices; what is not built later is not paid later.</p>
    </>
  );
}
