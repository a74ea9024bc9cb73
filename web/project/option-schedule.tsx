import { type ReactNode, useRef } from 'react';
import { overnightInWords } from '../../server/drawing/comparison-words.ts';
import { conductorsInWords, counted, number, wholeDollars } from '../../server/drawing/wording.ts';
import type { Estimate, EstimateOption, Overnight, Range, Run } from '../../server/estimate/answer.ts';
import { RangeBar, scaleOf } from '../parts/range-bar.tsx';
import { SeverityWord } from '../parts/severity.tsx';
import { useGoesOn } from '../parts/use-goes-on.ts';
import { plain } from '../parts/words.ts';
import { ChangeMark } from './change-mark.tsx';
import { contingencyInWords, headlineOf } from './headline.ts';
import { LimitChain } from './limit-chain.tsx';
import type { Changes } from './use-changes.ts';

interface ScheduleProps {
  estimate: Estimate;
  ranged: Estimate | undefined;
  changes: Changes;
  openId: string | undefined;
  onOpen: (optionId: string) => void;
}

/** From so many options on, their columns are narrower. */
const MANY = 4;

type Row = { head: string; cell: (option: EstimateOption) => ReactNode };

/** The options side by side: columns of one schedule whose rows are what people decide by. */
export function OptionSchedule({ estimate, ranged, changes, openId, onOpen }: ScheduleProps) {
  const rows = rowsOf({ estimate, ranged, changes });
  const { options } = estimate;
  const frame = useRef<HTMLElement>(null);
  const goesOn = useGoesOn(frame);
  return (
    <section
      className={goesOn ? 'schedule-frame goes-on' : 'schedule-frame'}
      ref={frame}
      aria-label="Options side by side"
    >
      <table className={options.length >= MANY ? 'schedule many' : 'schedule'}>
        <thead>
          <tr>
            <td className="row-head" />
            {options.map(({ id, label }) => (
              <th key={id} scope="col" className={id === openId ? 'open' : undefined}>
                <button type="button" aria-pressed={id === openId} onClick={() => onOpen(id)}>
                  {label}
                </button>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ head, cell }) => (
            <tr key={head}>
              <th scope="row" className="row-head">
                {head}
              </th>
              {options.map((option) => (
                <td key={option.id} className={option.id === openId ? 'open' : undefined}>
                  {cell(option)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function rowsOf({ estimate, ranged, changes }: Pick<ScheduleProps, 'estimate' | 'ranged' | 'changes'>): Row[] {
  const { cheapest, rows } = estimate.comparison;
  const cheapestLabel = estimate.options.find(({ id }) => id === cheapest)?.label;
  return [
    {
      head: 'Total',
      cell: (option) => (
        <Total
          option={option}
          range={ranged?.options.find(({ id }) => id === option.id)?.range}
          changeCents={changes.get(option.id)}
          isCheapest={option.id === cheapest}
        />
      ),
    },
    { head: 'Range', cell: (option) => <RangeCell option={option} ranged={ranged} /> },
    {
      head: 'What more money buys',
      cell: (option) => {
        const row = rows.find((each) => each.option === option.id);
        if (!row || option.id === cheapest) return cheapest === option.id ? 'the least that can be built' : '–';
        return <Buys differenceCents={row.differenceCents} than={cheapestLabel} buys={row.buys} />;
      },
    },
    { head: 'Gives the car', cell: (option) => <Charging option={option} /> },
    {
      head: 'A mile of a night',
      cell: ({ id }) => <Night overnight={rows.find(({ option }) => option === id)?.overnight} />,
    },
    { head: 'House service', cell: (option) => <Service option={option} /> },
    { head: 'Breaker and wire', cell: (option) => <Runs runs={option.runs} /> },
    { head: 'Weakest link', cell: (option) => <LimitChain option={option} description={estimate.description} /> },
    { head: 'Hours and days', cell: ({ labor }) => <Days labor={labor} /> },
    { head: 'Stops and warns', cell: (option) => <Warnings option={option} /> },
  ];
}

function Total({
  option,
  range,
  changeCents,
  isCheapest,
}: {
  option: EstimateOption;
  range: Range | undefined;
  changeCents: number | undefined;
  isCheapest: boolean;
}) {
  const { totals, complete, buildable } = option;
  const { cents, ifNothingTurnsUpCents } = headlineOf(totals, range);
  return (
    <>
      <span className="total">{wholeDollars(cents)}</span>
      {isCheapest && <span className="aside"> cheapest</span>}
      {ifNothingTurnsUpCents !== undefined && (
        <span className="aside block">
          the middle of its range; {wholeDollars(ifNothingTurnsUpCents)} if nothing turns up
        </span>
      )}
      <ChangeMark changeCents={changeCents} />
      {!complete && <span className="lacking">without what has no price yet</span>}
      {!buildable && <span className="lacking">cannot be built as stated</span>}
      {totals.netCents !== totals.totalCents && (
        <span className="aside block">{wholeDollars(totals.netCents)} after incentives</span>
      )}
    </>
  );
}

function RangeCell({ option, ranged }: { option: EstimateOption; ranged: Estimate | undefined }) {
  const mine = ranged?.options.find(({ id }) => id === option.id);
  if (!ranged || !mine?.range) return <span className="range-words">is being drawn …</span>;
  const isOlder = mine.totals.totalCents !== option.totals.totalCents;
  const contingency = contingencyInWords(mine.totals);
  const all = ranged.options.flatMap(({ range }) => (range ? [range] : []));
  return (
    <div className={isOlder ? 'older' : undefined}>
      <RangeBar range={mine.range} scale={scaleOf(all)} />
      {contingency && <span className="aside block">{contingency}</span>}
    </div>
  );
}

function Buys({ differenceCents, than, buys }: { differenceCents: number; than: string | undefined; buys: string[] }) {
  const more = differenceCents >= 0 ? 'more' : 'less';
  return (
    <>
      {than !== undefined && (
        <>
          {wholeDollars(Math.abs(differenceCents))} {more} than “{than}”
        </>
      )}
      {buys.length > 0 && (
        <ul className="plain-list">
          {buys.map((what) => (
            <li key={what}>{what}</li>
          ))}
        </ul>
      )}
    </>
  );
}

function Charging({ option: { charging } }: { option: EstimateOption }) {
  if (!charging) return <>no charger yet</>;
  const { kW, milesPerHour, hoursForDailyMiles, coversDailyMiles } = charging.together;
  return (
    <>
      {number(kW, 1)} <small>kW</small>, {number(milesPerHour, 0)} <small>miles an hour</small>
      {hoursForDailyMiles !== undefined && (
        <span className="block">
          the day’s miles in {number(hoursForDailyMiles, 1)} <small>h</small>
          {coversDailyMiles === false && ', longer than the car is parked'}
        </span>
      )}
    </>
  );
}

function Night({ overnight }: { overnight: Overnight | undefined }) {
  if (!overnight) return <>–</>;
  return (
    <>
      {overnightInWords(overnight)}
      <details className="more">
        <summary>why</summary>
        {overnight.because}
      </details>
    </>
  );
}

const FITS: Record<EstimateOption['service']['fits'], string> = {
  yes: 'carries it',
  no: 'cannot carry it',
  depends: 'depends on how the AHJ reads the code',
  unknown: 'not known: the load is not known',
};

function Service({ option: { service } }: { option: EstimateOption }) {
  const { demandA, withA } = service;
  return (
    <>
      {FITS[service.fits]}
      {demandA !== undefined && withA !== undefined && (
        <span className="block aside">
          {number(demandA, 0)} A now, {number(withA, 0)} A with it
        </span>
      )}
    </>
  );
}

function Runs({ runs }: { runs: readonly Run[] }) {
  if (runs.length === 0) return <>what is there; the voltage lost on it is not known</>;
  return (
    <ul className="plain-list">
      {runs.map((run) => (
        <li key={run.name}>
          {run.name}: {run.ocpdA} A, {run.poles}-pole{run.breaker.kind === 'gfci' ? ' GFCI' : ''};{' '}
          {conductorsInWords(run)}
        </li>
      ))}
    </ul>
  );
}

function Days({ labor }: { labor: EstimateOption['labor'] }) {
  return (
    <>
      {number(labor.hours, 1)} <small>h</small>, {counted(labor.workingDays, 'working day')}
      {labor.ownerHours > 0 && <span className="block aside">{number(labor.ownerHours, 1)} h of them the owner’s</span>}
      {labor.visits.length > 0 && (
        <span className="block aside">
          visits: {[...new Set(labor.visits.map(({ why }) => plain(why)))].join(', ')}
        </span>
      )}
    </>
  );
}

function Warnings({ option: { findings } }: { option: EstimateOption }) {
  const counts = (['stop', 'caution', 'note'] as const).map((severity) => ({
    severity,
    found: findings.filter((finding) => finding.severity === severity),
  }));
  const [first] = findings.filter(({ severity }) => severity === 'stop');
  return (
    <>
      <span className="severity-counts">
        {counts.map(({ severity, found }) =>
          found.length > 0 ? (
            <span key={severity}>
              {found.length} <SeverityWord severity={severity} />
            </span>
          ) : null,
        )}
      </span>
      {first && <span className="block">{first.message}</span>}
    </>
  );
}
