import { wholeDollars } from '../../server/drawing/wording.ts';
import type { Range } from '../../server/estimate/answer.ts';

/** The ends that several bars share, in cents, so that they can be compared by eye. */
export interface BarScale {
  fromCents: number;
  toCents: number;
}

/** A range as a bar with its ends and its middle marked, and written beside it. */
export function RangeBar({ range, scale }: { range: Range; scale: BarScale }) {
  const { p10Cents, p50Cents, p90Cents } = range;
  const at = (cents: number) => (100 * (cents - scale.fromCents)) / Math.max(1, scale.toCents - scale.fromCents);
  return (
    <>
      <svg className="range-bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
        <line className="range-base" x1="0" x2="100" y1="4" y2="4" />
        <line className="range-span" x1={at(p10Cents)} x2={at(p90Cents)} y1="4" y2="4" />
        {[p10Cents, p50Cents, p90Cents].map((cents, mark) => (
          <line
            key={['low', 'middle', 'high'][mark]}
            className="range-mark"
            x1={at(cents)}
            x2={at(cents)}
            y1="0"
            y2="8"
          />
        ))}
      </svg>
      <span className="range-words">
        {wholeDollars(p10Cents)} to {wholeDollars(p90Cents)}, half of the time below {wholeDollars(p50Cents)}
      </span>
    </>
  );
}

/** The scale that holds all of some ranges. */
export function scaleOf(ranges: readonly Range[]): BarScale {
  return {
    fromCents: Math.min(...ranges.map(({ p10Cents }) => p10Cents)),
    toCents: Math.max(...ranges.map(({ p90Cents }) => p90Cents)),
  };
}
