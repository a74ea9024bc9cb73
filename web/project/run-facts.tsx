import type { ReactNode } from 'react';
import { conductorSize, conductorsInWords, conductorsOf, counted, number } from '../../server/drawing/wording.ts';
import type { Run } from '../../server/estimate/answer.ts';
import { ReasonsList } from './reasons-list.tsx';

const DISCONNECTS: Record<NonNullable<Run['disconnect']>['kind'], string> = {
  'main-breaker': 'main breaker',
  'non-fused-switch': 'switch without fuses',
  'breaker-lock': 'lock on the breaker',
};

/** What a run is made of, as a title block: load, breaker, wire, disconnect, ends, drop. */
export function RunFacts({ run }: { run: Run }) {
  const { loadA, continuousA, breaker, disconnect, dropPercent, dropV } = run;
  return (
    <dl className="facts">
      <Fact name="Load">
        {number(loadA, 1)} A{continuousA > 0 && `, ${number(continuousA, 1)} A of it for hours, which count at 125 %`}
      </Fact>
      <Fact name="Breaker" because={breaker.because}>
        {number(breaker.ocpdA)} A, {breaker.poles === 1 ? 'one pole' : 'two poles'},{' '}
        {counted(breaker.spaces, 'full-size space')}, {breaker.kind === 'gfci' ? 'with GFCI' : 'standard'}
      </Fact>
      <Fact name="Wire">
        <Conductors run={run} />
      </Fact>
      {disconnect && (
        <Fact name="Disconnect" because={disconnect.because}>
          {DISCONNECTS[disconnect.kind]} of {number(disconnect.ratingA)} A, {disconnect.at}
        </Fact>
      )}
      {run.terminations.length > 0 && (
        <Fact name="Ends">
          {run.terminations.map(({ at, metal, size, compound }) => (
            <span key={`${at} ${metal} ${size}`} className="block">
              {at}: {conductorSize(size)} {metal}
              {compound && ', with anti-oxidant compound'}
            </span>
          ))}
        </Fact>
      )}
      <Fact name="Voltage drop">
        {number(dropPercent)} %, {number(dropV, 1)} V
      </Fact>
    </dl>
  );
}

function Conductors({ run }: { run: Run }) {
  const { begins, conductor, neutral, neutralSize, separateNeutral, groundSize } = run;
  return (
    <>
      {conductorsInWords(run)}, good for{' '}
      {conductorsOf(run)
        .map(({ ampacityA }) => `${number(ampacityA)} A`)
        .join(' and ')}
      {begins && `, joined at ${begins.until}`};{' '}
      {neutral ? `neutral ${conductorSize(neutralSize ?? conductor.size)}` : 'no neutral'}
      {separateNeutral && ', kept apart from the ground'}; ground {conductorSize(groundSize)}
    </>
  );
}

function Fact({ name, because = [], children }: { name: string; because?: readonly string[]; children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {because.length === 0 ? (
          children
        ) : (
          <details className="reason">
            <summary>{children}</summary>
            <ReasonsList because={because} />
          </details>
        )}
      </dd>
    </div>
  );
}
