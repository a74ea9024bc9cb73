import { counted } from '../../server/drawing/wording.ts';
import type { EstimateOption, Finding } from '../../server/estimate/answer.ts';
import { Article, SeverityWord } from '../parts/severity.tsx';
import { plain } from '../parts/words.ts';

const ORDER: readonly Finding['severity'][] = ['stop', 'caution', 'note'];

interface FindingsProps {
  option: EstimateOption;
  onSelectLeg: (leg: number) => void;
}

/** What the rules say of the option: what stops or warns first, what holds one tap away. */
export function FindingsList({ option, onSelectLeg }: FindingsProps) {
  const open = ORDER.flatMap((severity) => option.findings.filter((finding) => finding.severity === severity));
  const held = option.findings.filter(({ severity }) => severity === 'ok');
  return (
    <section className="findings-part" id="checks">
      <h2>Checks</h2>
      <ul className="findings">
        {open.map((finding) => (
          <FindingRow key={keyOf(finding)} finding={finding} onSelectLeg={onSelectLeg} />
        ))}
      </ul>
      {open.length === 0 && <p>Nothing stops or warns.</p>}
      {held.length > 0 && (
        <details className="more">
          <summary>{counted(held.length, 'rule holds', 'rules hold')}</summary>
          <ul className="findings">
            {held.map((finding) => (
              <FindingRow key={keyOf(finding)} finding={finding} onSelectLeg={onSelectLeg} />
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

const keyOf = ({ rule, leg, run, message }: Finding) => [rule, leg, run, message].join(' ');

function FindingRow({ finding, onSelectLeg }: { finding: Finding; onSelectLeg: (leg: number) => void }) {
  const { severity, message, citation, leg, run, numbers } = finding;
  const facts = Object.entries(numbers);
  return (
    <li>
      <SeverityWord severity={severity} />
      <div>
        {message} {citation && <Article citation={citation} />}
        <span className="finding-place">
          {leg !== undefined && (
            <button type="button" className="text-button" onClick={() => onSelectLeg(leg)}>
              leg {leg + 1}
            </button>
          )}
          {run !== undefined && <span>{run}</span>}
        </span>
        {facts.length > 0 && (
          <details className="numbers">
            <summary>{plain(finding.rule)}: its numbers</summary>
            <dl>
              {facts.map(([name, value]) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>{String(value)}</dd>
                </div>
              ))}
            </dl>
          </details>
        )}
      </div>
    </li>
  );
}
