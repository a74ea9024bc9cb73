import { useEffect, useState } from 'react';
import type { CalculationAnswer, CalculationSheet } from '../../server/calculations.ts';
import type { Finding } from '../../server/electrical/findings.ts';
import { isObject, type Json, type JsonObject } from '../json.ts';
import { Article, SeverityWord } from '../parts/severity.tsx';
import { answerLine, terminalCommand } from './copied-lines.ts';
import type { FieldSchema } from './field-schema.ts';
import { figure } from './figures.ts';

interface Shown {
  findings?: Finding[];
  steps?: { name: string }[];
}

/** Is a reason one of the findings or steps that stand on the screen with their own signs and columns? */
function isShownAlready(sentence: string, { findings = [], steps = [] }: Shown): boolean {
  return (
    findings.some(({ message }) => sentence.endsWith(message)) ||
    steps.some(({ name }) => sentence.startsWith(`${name}: `))
  );
}

/** An answer: its figures, why they are so, by which articles, and two ways to take it along. */
export function CalculationResult({
  sheet,
  answer,
  stated,
}: {
  sheet: CalculationSheet;
  answer: CalculationAnswer;
  stated: JsonObject;
}) {
  const { findings, ...figures } = answer.result as JsonObject & { findings?: Finding[] };
  const because = answer.because.filter((sentence) => !isShownAlready(sentence, answer.result as Shown));
  const cited = new Set(findings?.map(({ citation }) => citation?.article));
  const citations = answer.citations.filter(({ article }) => !cited.has(article));
  return (
    <>
      <Figures schema={sheet.result as FieldSchema} group={figures as JsonObject} />
      {findings && <Findings findings={findings} />}
      {because.length > 0 && (
        <>
          <h2>Why</h2>
          <ol className="calc-because">
            {because.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ol>
        </>
      )}
      {citations.length > 0 && (
        <p className="calc-articles">
          {citations.map((citation) => (
            <Article key={citation.article} citation={citation} />
          ))}
        </p>
      )}
      <p className="commands">
        <CopyButton text={answerLine(sheet, answer)}>copy as a line of text</CopyButton>
        <CopyButton text={terminalCommand(sheet.name, stated)}>copy as a command for the terminal</CopyButton>
      </p>
    </>
  );
}

/** Figures with their names, the first of them large; what lies deeper follows as groups and tables. */
function Figures({ schema, group }: { schema: FieldSchema; group: JsonObject }) {
  const figures = Object.entries(group).flatMap(([name, value]) =>
    value === undefined ? [] : [{ name, value, field: schema.properties?.[name] ?? {} }],
  );
  const isDeep = ({ value }: { value: Json }) => typeof value === 'object' && value !== null;
  const [deep, plain] = [figures.filter(isDeep), figures.filter((one) => !isDeep(one))];
  return (
    <dl className="calc-figures">
      {[...plain, ...deep].map((one) => (
        <div key={one.name} className={isDeep(one) ? 'calc-deep' : ''}>
          <dt>{one.field.title ?? one.name}</dt>
          <dd>
            <Value schema={one.field} value={one.value} />
          </dd>
        </div>
      ))}
    </dl>
  );
}

function Value({ schema, value }: { schema: FieldSchema; value: Json }) {
  if (isObject(value)) return <Figures schema={schema} group={value} />;
  if (Array.isArray(value) && value.every(isObject)) return <Rows schema={schema.items ?? {}} rows={value} />;
  return figure(schema, value);
}

function Rows({ schema, rows }: { schema: FieldSchema; rows: JsonObject[] }) {
  const names = Object.keys(schema.properties ?? {});
  return (
    <table className="calc-rows">
      <thead>
        <tr>
          {names.map((name) => (
            <th key={name} scope="col">
              {schema.properties?.[name]?.title ?? name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={JSON.stringify(row)}>
            {names.map((name) => (
              <td key={name} className={typeof row[name] === 'number' ? 'figure' : ''}>
                {row[name] === undefined ? '' : cell(schema.properties?.[name] ?? {}, row[name])}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Pieces of each package are told apart: `35 + 12; 50 ft`. */
function cell(schema: FieldSchema, value: Json): string {
  if (!Array.isArray(value) || !value.every(Array.isArray)) return figure(schema, value);
  return `${value.map((pieces) => pieces.join(' + ')).join('; ')} ${schema.unit ?? ''}`;
}

function Findings({ findings }: { findings: readonly Finding[] }) {
  return (
    <ul className="findings">
      {findings.map(({ rule, severity, message, citation }) => (
        <li key={rule + message}>
          <SeverityWord severity={severity} />
          <div>
            {message} {citation && <Article citation={citation} />}
          </div>
        </li>
      ))}
    </ul>
  );
}

/** Copies a text, and says so for a moment; where copying is not allowed the text is shown instead. */
function CopyButton({ text, children }: { text: string; children: string }) {
  const [outcome, setOutcome] = useState<'copied' | 'shown'>();
  useEffect(() => {
    if (outcome !== 'copied') return;
    const timer = setTimeout(() => setOutcome(undefined), 2000);
    return () => clearTimeout(timer);
  }, [outcome]);
  const copy = () =>
    navigator.clipboard.writeText(text).then(
      () => setOutcome('copied'),
      () => setOutcome('shown'),
    );
  return (
    <span>
      <button
        type="button"
        className="text-button"
        onClick={() => (navigator.clipboard ? copy() : setOutcome('shown'))}
      >
        {children}
      </button>
      <span role="status" className="calc-copied">
        {outcome === 'copied' ? ' copied' : ''}
      </span>
      {outcome === 'shown' && <code className="calc-text">{text}</code>}
    </span>
  );
}
