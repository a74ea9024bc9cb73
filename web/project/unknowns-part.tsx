import { counted, wholeDollars } from '../../server/drawing/wording.ts';
import type { EstimateOption, Unknown } from '../../server/estimate/answer.ts';
import type { Description } from '../../server/estimate/description.ts';
import { factOrPathInWords } from './path-words.ts';

const WHO: Record<Unknown['whoCanTell'], string> = {
  you: 'you can tell',
  inspector: 'an inspector can tell',
  electrician: 'an electrician can tell',
  utility: 'the utility can tell',
};

/** Less is written as $0. */
const LEAST_CENTS = 50;

interface UnknownsProps {
  option: EstimateOption;
  description: Description;
  onShowField: (path: string) => void;
}

/** What to find out first: by how much the range narrows once it is known. What narrows nothing is folded away. */
export function UnknownsPart({ option: { unknowns = [] }, description, onShowField }: UnknownsProps) {
  if (unknowns.length === 0) return null;
  const counting = unknowns.filter(({ swingCents }) => swingCents >= LEAST_CENTS);
  const idle = unknowns.filter(({ swingCents }) => swingCents < LEAST_CENTS);
  return (
    <section className="detail-part" id="unknowns">
      <h2>What to find out first</h2>
      {counting.length > 0 ? (
        <UnknownsTable unknowns={counting} description={description} onShowField={onShowField} />
      ) : (
        <p>Nothing that is not known yet moves this price.</p>
      )}
      {idle.length > 0 && (
        <details className="more">
          <summary>{counted(idle.length, 'fact')} more that would not narrow it</summary>
          <UnknownsTable unknowns={idle} description={description} onShowField={onShowField} />
        </details>
      )}
    </section>
  );
}

function UnknownsTable({
  unknowns,
  description,
  onShowField,
}: Pick<UnknownsProps, 'description' | 'onShowField'> & { unknowns: readonly Unknown[] }) {
  return (
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
                {factOrPathInWords(path, description)}
              </button>{' '}
              <small>{WHO[whoCanTell]}</small>
              <small className="block">{howToFindOut}</small>
            </th>
            <td className="figure">{wholeDollars(swingCents)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
