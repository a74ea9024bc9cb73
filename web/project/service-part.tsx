import { number, wholeDollars } from '../../server/drawing/wording.ts';
import type { ServiceCheck } from '../../server/estimate/answer.ts';
import { plain } from '../parts/words.ts';

/** How much the house may draw, by every reading of the code, and what would help where it does not fit. */
export function ServicePart({ service }: { service: ServiceCheck }) {
  const { method, demandA, addedA, withA, spareA, readings, remedies } = service;
  return (
    <section className="detail-part" id="service">
      <h2>House service</h2>
      <p>
        {VERDICTS[service.fits]} The load is {LOADS[method] ?? plain(method)}.
      </p>
      {demandA !== undefined && (
        <dl className="facts">
          <Amperes name="Before" amps={demandA} />
          <Amperes name="Added" amps={addedA} />
          <Amperes name="Together" amps={withA} />
          <Amperes name="Left over" amps={spareA} />
        </dl>
      )}
      {readings.length > 0 && (
        <table className="readings">
          <thead>
            <tr>
              <th scope="col">Reading of the code</th>
              <th scope="col">Article</th>
              <th scope="col" className="figure">
                Together
              </th>
              <th scope="col">It fits</th>
            </tr>
          </thead>
          <tbody>
            {readings.map(({ method: article, reading, withA: together, fits }) => (
              <tr key={`${article} ${reading}`}>
                <th scope="row">{reading}</th>
                <td>{article}</td>
                <td className="figure">{number(together, 1)} A</td>
                <td>{fits ? 'yes' : 'no'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <Remedies remedies={remedies} />
    </section>
  );
}

const VERDICTS: Record<ServiceCheck['fits'], string> = {
  yes: 'It carries the charging by the strictest lawful reading.',
  no: 'It cannot carry the charging, not even by the mildest reading.',
  depends: 'Whether it carries the charging depends on how the AHJ reads the code.',
  unknown: 'Whether it carries the charging is not known, for the load or the service is not known.',
};
const LOADS: Record<string, string> = { unknown: 'not known', measured: 'measured', listed: 'reckoned from a list' };

function Amperes({ name, amps }: { name: string; amps: number | undefined }) {
  if (amps === undefined) return null;
  return (
    <div>
      <dt>{name}</dt>
      <dd>{number(amps, 1)} A</dd>
    </div>
  );
}

function Remedies({ remedies }: Pick<ServiceCheck, 'remedies'>) {
  if (remedies.length === 0) return null;
  return (
    <table className="remedies">
      <thead>
        <tr>
          <th scope="col">What would help</th>
          <th scope="col" className="figure">
            Changes the total by
          </th>
        </tr>
      </thead>
      <tbody>
        {remedies.map(({ kind, amps, differenceCents, detail }) => (
          <tr key={`${kind} ${amps ?? ''} ${detail}`}>
            <th scope="row">
              {plain(kind)}
              {amps !== undefined && `, ${number(amps)} A`}
              <small className="block">{detail}</small>
            </th>
            <td className="figure">{differenceCents === undefined ? 'no price' : signedDollars(differenceCents)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A difference with its sign: `+$320`, `−$120`. */
function signedDollars(cents: number): string {
  return `${cents > 0 ? '+' : ''}${wholeDollars(cents)}`;
}
