import type { Finding } from '../../server/estimate/answer.ts';

type Severity = Finding['severity'];

/** Sign and word of a severity; the color only repeats them. */
export function SeverityWord({ severity }: { severity: Severity }) {
  return (
    <span className={`severity ${severity}`}>
      <svg viewBox="0 0 12 12" aria-hidden="true">
        <path d={SIGNS[severity]} />
      </svg>
      {severity}
    </span>
  );
}

const SIGNS: Record<Severity, string> = {
  stop: 'M3.6 .5h4.8L11.5 3.6v4.8L8.4 11.5H3.6L.5 8.4V3.6z',
  caution: 'M6 .8 11.6 11H.4z',
  note: 'M6 1a5 5 0 1 0 0 10A5 5 0 0 0 6 1z',
  ok: 'M1.2 6.4 4.4 9.8 10.8 2.2',
};

/** An article as it is cited: `NEC 2023, 210.8(F)`. */
export function Article({ citation }: { citation: NonNullable<Finding['citation']> }) {
  return (
    <cite>
      {citation.code} {citation.edition}, {citation.article}
    </cite>
  );
}
