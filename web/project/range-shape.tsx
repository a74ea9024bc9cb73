import { scaleLinear } from 'd3-scale';
import { number, wholeDollars } from '../../server/drawing/wording.ts';
import type { Range } from '../../server/estimate/answer.ts';

const WIDTH = 600;
const HEIGHT = 70;
/** Room for the chances of humps above all strokes, so that none is struck through. */
const HEAD = 26;
/** Room for the three written marks below the bars. */
const FOOT = 24;
/** Where the chances stand on, and where the strokes begin below them. */
const HUMP_Y = -5;
const MARK_TOP = -2;
/** The middle is written only where it has so much room to both ends; the heading says it anyway. */
const MIDDLE_ROOM = 90;
/** A sum at an end stands outside its stroke where it has so much room to the edge of the drawing, else inside. */
const END_ROOM = 60;

/** How often the total lies where, as bars; p10, the middle and p90 marked and written, humps with their chances. */
export function RangeShape({ range }: { range: Range }) {
  const { shape, humps = [], p10Cents, p50Cents, p90Cents } = range;
  const { fromCents, stepCents, shares } = shape;
  const x = scaleLinear([fromCents, fromCents + stepCents * shares.length], [0, WIDTH]);
  const y = scaleLinear([0, Math.max(...shares)], [0, HEIGHT]);
  const barWidth = x(fromCents + stepCents);
  const isCutLow = x(p10Cents) < END_ROOM;
  const isCutHigh = x(p90Cents) > WIDTH - END_ROOM;
  const marks = [
    { name: 'p10', cents: p10Cents, anchor: isCutLow ? 'start' : 'end' },
    { name: 'middle', cents: p50Cents, anchor: 'middle' },
    { name: 'p90', cents: p90Cents, anchor: isCutHigh ? 'end' : 'start' },
  ] as const;
  // a sum that turned inward takes the room of its side
  const hasRoom =
    x(p50Cents) - x(p10Cents) >= (isCutLow ? MIDDLE_ROOM : MIDDLE_ROOM / 2) &&
    x(p90Cents) - x(p50Cents) >= (isCutHigh ? MIDDLE_ROOM : MIDDLE_ROOM / 2);
  return (
    <svg
      className="range-shape"
      viewBox={`0 ${-HEAD} ${WIDTH} ${HEIGHT + FOOT + HEAD}`}
      role="img"
      aria-label={`Of ${number(100)} cases, 80 lie between ${wholeDollars(p10Cents)} and ${wholeDollars(p90Cents)}`}
    >
      {shares.map((share, at) => {
        const middle = fromCents + stepCents * (at + 0.5);
        const isWithin = middle >= p10Cents && middle <= p90Cents;
        return (
          <rect
            key={middle}
            className={isWithin ? 'within' : 'beyond'}
            x={x(fromCents + stepCents * at)}
            y={HEIGHT - y(share)}
            width={Math.max(0, barWidth - 1)}
            height={y(share)}
          />
        );
      })}
      <line x1="0" x2={WIDTH} y1={HEIGHT} y2={HEIGHT} />
      {humps.map(({ chance, p50Cents: middleCents }) => (
        <text key={middleCents} className="hump" x={x(middleCents)} y={HUMP_Y} textAnchor="middle">
          {number(chance * 100, 0)} %
        </text>
      ))}
      {marks.map(({ name, cents, anchor }) => (
        <g key={name}>
          <line className="mark" x1={x(cents)} x2={x(cents)} y1={MARK_TOP} y2={HEIGHT + 4} />
          {(name !== 'middle' || hasRoom) && (
            <text x={x(cents)} y={HEIGHT + FOOT - 5} textAnchor={anchor}>
              {wholeDollars(cents)}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}
