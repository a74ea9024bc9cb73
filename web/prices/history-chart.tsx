import { scaleLinear, scaleUtc } from 'd3-scale';
import { area, curveStepAfter, line } from 'd3-shape';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import type { PriceHistoryEntry } from '../api.ts';
import { dayOf } from '../parts/dates.ts';
import { pointText } from './change-words.ts';

const WIDTH = 360;
const HEIGHT = 96;
const LEFT = 4;
const RIGHT = 72;
const TOP = 10;
const FOOT = 20;

interface Place {
  at: Date;
  item: PriceItem;
}

/** How the price moved: the likely one as a line, low to high as a band around it. The table beside says it in figures. */
export function HistoryChart({ item, entries }: { item: PriceItem; entries: readonly PriceHistoryEntry[] }) {
  const places = [...entries].reverse().map(({ at, item: was }): Place => ({ at: new Date(at), item: was }));
  const [first] = places;
  const last = places.at(-1);
  if (!first || !last || places.length < 2) return null;
  const { x, y } = scalesOf(places);
  const drawn = [...places, { at: x.domain()[1] ?? last.at, item: last.item }];
  const band = area<Place>()
    .x(({ at }) => x(at))
    .y0(({ item: was }) => y(was.low))
    .y1(({ item: was }) => y(was.high))
    .curve(curveStepAfter);
  const likely = line<Place>()
    .x(({ at }) => x(at))
    .y(({ item: was }) => y(was.likely))
    .curve(curveStepAfter);
  const alt = `The likely price went from ${pointText(first.item.likely, item)} to ${pointText(last.item.likely, item)}.`;
  return (
    <svg className="history-chart" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={alt}>
      <path className="band" d={band(drawn) ?? ''} />
      <path className="likely" d={likely(drawn) ?? ''} />
      {places.map(({ at, item: was }) => (
        <circle key={at.toISOString()} cx={x(at)} cy={y(was.likely)} r="2" />
      ))}
      <line x1={LEFT} x2={WIDTH - RIGHT} y1={HEIGHT - FOOT} y2={HEIGHT - FOOT} />
      {pointLabels(last.item, y).map(({ text, top }) => (
        <text key={text} x={WIDTH - RIGHT + 5} y={top}>
          {text}
        </text>
      ))}
      <text x={LEFT} y={HEIGHT - 5}>
        {dayOf(first.at.toISOString())}
      </text>
      <text x={WIDTH - RIGHT} y={HEIGHT - 5} textAnchor="end">
        {dayOf(last.at.toISOString())}
      </text>
    </svg>
  );
}

/** An hour at least, so that changes within a minute are still a line; prices from 0, so that heights are true. */
function scalesOf(places: readonly Place[]) {
  const times = places.map(({ at }) => at.getTime());
  const start = Math.min(...times);
  const end = Math.max(...times);
  const span = Math.max(end - start, 3_600_000);
  const highest = Math.max(...places.map(({ item }) => item.high), Number.MIN_VALUE);
  return {
    x: scaleUtc([new Date(start), new Date(start + span * 1.06)], [LEFT, WIDTH - RIGHT]),
    y: scaleLinear([0, highest], [HEIGHT - FOOT, TOP]),
  };
}

const LINE_PX = 11;

/** Ends and middle of the last state, written beside it; they step aside where they would lie on each other. */
function pointLabels(item: PriceItem, y: (value: number) => number): { text: string; top: number }[] {
  const labels = [item.high, item.likely, item.low].map((value) => ({
    text: pointText(value, item),
    top: y(value) + 3,
  }));
  labels.forEach((label, at) => {
    const above = labels[at - 1];
    if (above) label.top = Math.max(label.top, above.top + LINE_PX);
  });
  const tooLow = Math.max(0, (labels.at(-1)?.top ?? 0) - (HEIGHT - FOOT + 3));
  return labels
    .map(({ text, top }) => ({ text, top: top - tooLow }))
    .filter(({ text }, at, all) => all.findIndex((other) => other.text === text) === at);
}
