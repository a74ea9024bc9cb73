import { wholeDollars } from '../../server/drawing/wording.ts';
import type { EstimateOption, Unknown } from '../../server/estimate/answer.ts';
import { pathInWords } from './path-words.ts';

const WHO: Record<Unknown['whoCanTell'], string> = {
  you: 'you can tell',
  inspector: 'an inspector can tell',
  electrician: 'an electrician can tell',
  utility: 'the utility can tell',
};

interface UnknownsProps {
  option: EstimateOption;
  onShowField: (path: string) => void;
}

/** What to find out first: by how much the range narrows once it is known. */
export function UnknownsPart({ option: { unknowns = [] }, onShowField }: UnknownsProps) {
  if (unknowns.length === 0) return null;
  return (
    <section className="detail-part" id="unknowns">
      <h2>What to find out first</h2>
      <table className="unknowns">
        <thead>
          <tr>
            <th scope="col">Not known</th>
            <th scope="col" className="figure">
              Narrows the range by
            </th>
          </tr>
        </thead>
        <tbody>
          {unknowns.map(({ path, swingCents, howToFindOut, whoCanTell }) => (
            <tr key={path}>
              <th scope="row">
                <button type="button" onClick={() => onShowField(path)}>
                  {pathInWords(path)}
                </button>{' '}
                <small>{WHO[whoCanTell]}</small>
                <small className="block">{howToFindOut}</small>
              </th>
              <td className="figure">{wholeDollars(swingCents)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
