import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import type { MeterAnswer } from '../../server/estimate/meter/meter-answer.ts';
import { ApiProblem, call } from '../api.ts';
import { Article, SeverityWord } from './severity.tsx';

interface Asked {
  file: File;
  solar: boolean;
}

/** Asks what a utility's file says of the load. It is sent by what it begins with: browsers name CSV in many ways. */
async function readMeter({ file, solar }: Asked, { edition, voltageV }: MeterFileProps): Promise<MeterAnswer> {
  const isXml = (await file.slice(0, 200).text()).trimStart().startsWith('<');
  const query = new URLSearchParams({ solar: String(solar) });
  if (edition !== undefined) query.set('edition', edition);
  if (voltageV !== undefined) query.set('voltageV', String(voltageV));
  const body = new Blob([file], { type: isXml ? 'application/xml' : 'text/csv' });
  return (await call(`/api/meter-readings?${query}`, { method: 'POST', body })).json() as Promise<MeterAnswer>;
}

interface MeterFileProps {
  /** Of the code whose articles are cited. */
  edition?: string | undefined;
  voltageV?: number | undefined;
  /** What takes the load, where there is a place for it. */
  onTake?: ((load: NonNullable<MeterAnswer['load']>) => void) | undefined;
}

/** A utility's interval file: what was found in it, what is to be minded, and its peak as the load of the house. */
export function MeterFile(props: MeterFileProps) {
  const [file, setFile] = useState<File>();
  const [solar, setSolar] = useState(false);
  const reading = useMutation({ mutationFn: (asked: Asked) => readMeter(asked, props) });
  const look = (chosen: File | undefined, hasSolar: boolean) => {
    setFile(chosen);
    setSolar(hasSolar);
    if (chosen) reading.mutate({ file: chosen, solar: hasSolar });
    else reading.reset();
  };
  return (
    <div className="meter-file">
      <p className="sentence">
        <label>
          The utility&rsquo;s interval data, as CSV or as Green Button XML:{' '}
          <input
            type="file"
            accept=".csv,.xml,.txt,text/csv,application/xml,text/xml"
            onChange={(event) => look(event.currentTarget.files?.[0], solar)}
          />
        </label>{' '}
        <label>
          <input type="checkbox" checked={solar} onChange={(event) => look(file, event.currentTarget.checked)} /> there
          is solar, storage or peak shaving behind this meter
        </label>
      </p>
      <div role="status">
        {reading.isPending && <p className="hint">It is being read …</p>}
        {reading.error && <Refused error={reading.error} />}
        {reading.data && <MeterFound found={reading.data} onTake={props.onTake} />}
      </div>
    </div>
  );
}

const NAMED = 5;

/** What could not be read, by row, column and value; the first few of them. */
function Refused({ error }: { error: Error }) {
  const errors = error instanceof ApiProblem ? error.errors : [];
  if (errors.length === 0) return <p className="word-problem">{error.message}</p>;
  return (
    <>
      <p>This file cannot be read so. Mend it and choose it again:</p>
      <ul className="plain-list">
        {errors.slice(0, NAMED).map(({ path, message }) => (
          <li key={path + message} className="word-problem">
            {path} {message}
          </li>
        ))}
      </ul>
      {errors.length > NAMED && <p className="word-problem">and {errors.length - NAMED} more like these.</p>}
    </>
  );
}

function MeterFound({ found, onTake }: { found: MeterAnswer } & Pick<MeterFileProps, 'onTake'>) {
  const { because, findings, load } = found;
  const [taken, setTaken] = useState<MeterAnswer>();
  return (
    <>
      {because.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <ul className="findings">
        {findings.map(({ severity, message, citation }) => (
          <li key={message}>
            <SeverityWord severity={severity} />
            <div>
              {message} {citation && <Article citation={citation} />}
            </div>
          </li>
        ))}
      </ul>
      {onTake && load && (
        <p className="commands">
          <button
            type="button"
            className="paper-button"
            onClick={() => {
              onTake(load);
              setTaken(found);
            }}
          >
            Take it as the load: {load.peakA} A over {load.days} days
          </button>{' '}
          {taken === found && <span>Taken.</span>}
        </p>
      )}
      {onTake && !load && <p>It cannot stand for the load of the house: list what the house has instead.</p>}
    </>
  );
}
