import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { number, wholeDollars } from '../../server/drawing/wording.ts';
import type { EstimateOption } from '../../server/estimate/answer.ts';

/** Totals of the options at one place of the curve; an option that cannot be had there is missing. */
export interface CurvePoint {
  at: number;
  totals: Readonly<Record<string, number>>;
}

interface CurvesProps {
  title: string;
  unit: string;
  points: readonly CurvePoint[];
  options: readonly EstimateOption[];
  openId: string;
}

const WIDTH = 380;
const HEIGHT = 190;
const LEFT = 52;
const RIGHT = 34;
const TOP = 8;
const FOOT = 26;
/** Lines are told apart by their dashes and by a letter at their end, for colors belong to the trade. */
const DASHES = ['none', '6 3', '2 3', '10 3 2 3', '1 2', '12 4'];

/** Totals over one thing that grows, a line an option, and the same figures as a table. */
export function TotalCurves({ title, unit, points, options, openId }: CurvesProps) {
  const shown = options.filter(({ id }) => points.some(({ totals }) => totals[id] !== undefined));
  if (points.length < 2 || shown.length === 0) return null;
  const letters = new Map(shown.map(({ id }, at) => [id, String.fromCharCode(97 + at)]));
  return (
    <figure className="curve">
      <figcaption>{title}</figcaption>
      <Curves points={points} unit={unit} shown={shown} openId={openId} letters={letters} />
      <ul className="curve-key">
        {shown.map(({ id, label }) => (
          <li key={id} className={id === openId ? 'open' : undefined}>
            {letters.get(id)} {label}
          </li>
        ))}
      </ul>
      <details className="more">
        <summary>The figures</summary>
        <CurveTable title={title} points={points} unit={unit} shown={shown} />
      </details>
    </figure>
  );
}

interface ShownProps {
  points: readonly CurvePoint[];
  unit: string;
  shown: readonly EstimateOption[];
}

function scalesOf(points: readonly CurvePoint[]) {
  const places = points.map(({ at }) => at);
  const all = points.flatMap(({ totals }) => Object.values(totals));
  return {
    x: scaleLinear([Math.min(...places), Math.max(...places)], [LEFT, WIDTH - RIGHT]),
    y: scaleLinear([Math.min(...all), Math.max(...all)], [HEIGHT - FOOT, TOP]).nice(4),
  };
}

function Curves({
  points,
  unit,
  shown,
  openId,
  letters,
}: ShownProps & { openId: string; letters: Map<string, string> }) {
  const { x, y } = scalesOf(points);
  const places = (id: string) =>
    points.flatMap(({ at, totals }): [number, number][] => {
      const cents = totals[id];
      return cents === undefined ? [] : [[x(at), y(cents)]];
    });
  return (
    <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      {y.ticks(4).map((cents) => (
        <g key={cents} className="tick">
          <line x1={LEFT} x2={WIDTH - RIGHT} y1={y(cents)} y2={y(cents)} />
          <text x={LEFT - 6} y={y(cents) + 3.5} textAnchor="end">
            {wholeDollars(cents)}
          </text>
        </g>
      ))}
      {points.map(({ at }) => (
        <text key={at} x={x(at)} y={HEIGHT - 8} textAnchor="middle">
          {number(at, 0)}
        </text>
      ))}
      <text x={WIDTH} y={HEIGHT - 8} textAnchor="end">
        {unit}
      </text>
      {shown.map(({ id }, at) => (
        <Curve key={id} places={places(id)} dash={DASHES[at % DASHES.length] ?? 'none'} isOpen={id === openId} />
      ))}
      {endsOf(shown, places).map(({ at: [endX, endY], ids }) => (
        <text key={ids.join(' ')} x={endX + 5} y={endY + 3.5} className={ids.includes(openId) ? 'open' : undefined}>
          {ids.map((id) => letters.get(id)).join(' ')}
        </text>
      ))}
    </svg>
  );
}

/** Where curves end, those that end at one place together. */
function endsOf(shown: readonly EstimateOption[], places: (id: string) => [number, number][]) {
  const ends: { at: [number, number]; ids: string[] }[] = [];
  for (const { id } of shown) {
    const end = places(id).at(-1);
    if (!end) continue;
    const same = ends.find(({ at }) => at[0] === end[0] && at[1] === end[1]);
    if (same) same.ids.push(id);
    else ends.push({ at: end, ids: [id] });
  }
  return ends;
}

interface CurveProps {
  places: [number, number][];
  dash: string;
  isOpen: boolean;
}

function Curve({ places, dash, isOpen }: CurveProps) {
  const path = line()(places) ?? '';
  return (
    <g className={isOpen ? 'curve-line open' : 'curve-line'}>
      <path d={path} strokeDasharray={dash} />
      {places.map(([cx, cy]) => (
        <circle key={cx} cx={cx} cy={cy} r={isOpen ? 2.4 : 1.6} />
      ))}
    </g>
  );
}

function CurveTable({ title, points, unit, shown }: ShownProps & { title: string }) {
  return (
    <div className="scrolls-sideways">
      <table aria-label={`Total ${title.toLowerCase()}`}>
        <thead>
          <tr>
            <th scope="col" className="figure">
              {unit}
            </th>
            {shown.map(({ id, label }) => (
              <th key={id} scope="col" className="figure">
                {label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {points.map(({ at, totals }) => (
            <tr key={at}>
              <th scope="row" className="figure">
                {number(at, 1)}
              </th>
              {shown.map(({ id }) => {
                const cents = totals[id];
                return (
                  <td key={id} className="figure">
                    {cents === undefined ? 'cannot be had' : wholeDollars(cents)}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
