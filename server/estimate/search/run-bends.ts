/*
 * Bends of raceway along a run, as the take-off counts them between pull points.
 */
import { isOpened } from '../takeoff/way.ts';
import type { Bends, Node } from './layers.ts';
import { isNewConduit, statedDeg, type Tools } from './run-rates.ts';
import { isOpenedBetween } from './run-tally.ts';

/** Does raceway turn where two nodes meet? */
export const turnsBetween = (before: Node, after: Node) =>
  !isOpened(before.choice.stretch) && !isOpened(after.choice.stretch);

/** Eighths of 360°, whole ones, so that a bound stays below. */
const eighths = (deg: number) => Math.floor(deg / 45);

/** Does raceway of a node climb out of the ground at its start (`end` 0) or its end (1)? */
export function climbsAt({ question: { model } }: Tools, piece: number, { choice }: Node, end: 0 | 1): boolean {
  const ditch = model.ditchOf[piece];
  return isNewConduit(choice) && ditch !== undefined && model.ditchOf[piece + (end === 0 ? -1 : 1)] !== ditch;
}

/** Bends that raceway has at its beginning, in eighths. */
export function openingBends(tools: Tools, piece: number, after: Node): number {
  if (!isNewConduit(after.choice)) return 0;
  return (climbsAt(tools, piece, after, 0) ? 2 : 0) + eighths(statedDeg(after.choice));
}

/** As the take-off counts them: one where raceway turns above ground, one or two where it climbs, and what a leg states. */
export function bendsAt(tools: Tools, at: number, { before, after }: { before?: Node; after?: Node }): Bends {
  const place = tools.question.model.places[at];
  if (!place || !before || !after) return { isOpened: true, before: 0, after: 0 };
  const [falls, rises] = [climbsAt(tools, at - 1, before, 1), climbsAt(tools, at, after, 0)];
  if (isOpenedBetween(before.choice, after.choice, place)) {
    return { isOpened: true, before: falls ? 2 : 0, after: openingBends(tools, at, after) };
  }
  const turn = isNewConduit(after.choice) && turnsBetween(before, after) ? 2 : 0;
  const own = eighths(statedDeg(after.choice));
  return { isOpened: false, before: 0, after: turn + (falls ? 4 : 0) + (rises ? 4 : 0) + own };
}
