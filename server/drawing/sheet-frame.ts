import type { Point } from './drawing.ts';

/** From feet above the ground to points on the sheet. One scale for all heights and depths. */
export interface Frame {
  groundY: number;
  ptPerFtUp: number;
  /** The highest that is drawn. */
  topFt: number;
  /** The house is cut off above this height; a break line says so. */
  houseTopFt: number;
  bottomY: number;
}

/** The ordinate of a height in feet above the ground, in points, y down. */
export function yOf({ groundY, ptPerFtUp }: Frame, heightFt: number): number {
  return groundY - heightFt * ptPerFtUp;
}

/** A point of the sheet from an abscissa in points and a height in feet. */
export function at(frame: Frame, x: number, heightFt: number): Point {
  return [x, yOf(frame, heightFt)];
}
