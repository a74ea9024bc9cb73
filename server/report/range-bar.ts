import type { Range } from '../estimate/answer.ts';
import { GREY, INK, type Sheet } from './sheet.ts';

/** What the bar takes below its upper edge, in points. */
export const RANGE_BAR_PT = 15;

interface Bar {
  range: Range;
  totalCents: number;
  x: number;
  y: number;
  widthPt: number;
}

/**
 * A range as a bar: its ends are where one in ten costs less, and one in ten more; the long stroke is the middle, the
 * open circle the likely total. The words stand below it, so that the bar itself is decoration.
 */
export function drawRangeBar({ doc }: Sheet, { range, totalCents, x, y, widthPt }: Bar): void {
  const lowest = Math.min(range.p10Cents, totalCents);
  const highest = Math.max(range.p90Cents, totalCents);
  const spanCents = Math.max(1, highest - lowest);
  const xOf = (cents: number) => x + 3 + ((cents - lowest) / spanCents) * (widthPt - 6);
  const middleY = y + 6;
  const stroke = (fromX: number, fromY: number, toX: number, toY: number, weightPt: number) =>
    doc.moveTo(fromX, fromY).lineTo(toX, toY).lineWidth(weightPt).strokeColor(INK).stroke();
  stroke(xOf(range.p10Cents), middleY, xOf(range.p90Cents), middleY, 2.5);
  stroke(xOf(range.p10Cents), middleY - 4, xOf(range.p10Cents), middleY + 4, 0.75);
  stroke(xOf(range.p90Cents), middleY - 4, xOf(range.p90Cents), middleY + 4, 0.75);
  stroke(xOf(range.p50Cents), middleY - 6, xOf(range.p50Cents), middleY + 6, 1.25);
  doc.circle(xOf(totalCents), middleY, 2.8).lineWidth(1).fillColor('#ffffff').strokeColor(GREY).fillAndStroke();
}
