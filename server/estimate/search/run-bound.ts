/*
 * The least that a run costs, piece by piece and joint by joint: a layered graph of what may be chosen, in which the
 * length of a path is never more than what its plan costs.
 */
import { ABOVE_GRADE_FT } from '../takeoff/way.ts';
import { startTerminations } from '../takeoff/wire.ts';
import { type Choice, mayFollow, mayJoin } from './choices.ts';
import { type Bends, type Layers, MOST_NODES, type Node, wiringIndex } from './layers.ts';
import { leastOf } from './least-price.ts';
import { jointPart, once, stretchPart } from './parts.ts';
import { bendsAt, climbsAt, openingBends, turnsBetween } from './run-bends.ts';
import {
  type RunQuestion,
  racewayCents,
  ratesOf,
  segmentRates,
  segmentStart,
  type Tools,
  toolsOf,
  wayOver,
} from './run-rates.ts';
import { isOpenedBetween, lieOf } from './run-tally.ts';
import { sectionPrices } from './section-prices.ts';

/** Finds the layers of a run. */
export function layersOf(question: RunQuestion): Layers {
  const { model, sized, parts } = question;
  const tools = toolsOf(question);
  const { run, cents } = tools;
  const nodes = sized.choices.map((choices, piece) => nodesOf(tools, choices, piece));
  const { places } = model;
  const last = nodes.length - 1;
  const turns = new Map<number, Bends>();
  const steps = new Map<number, number>();
  const starts = new Map<number, number>();
  const finishes = new Map<number, number>();
  return {
    nodes,
    changesAt: sized.begins?.pieces,
    ...sectionPrices(tools, nodes),
    bends: (piece, from, to) => {
      const at = (piece * MOST_NODES + from) * MOST_NODES + to;
      const known = turns.get(at);
      if (known) return known;
      const [before, after] = [nodes[piece]?.[from], nodes[piece + 1]?.[to]];
      const found = bendsAt(tools, piece + 1, { ...(before && { before }), ...(after && { after }) });
      turns.set(at, found);
      return found;
    },
    opening: (piece, to) => {
      const after = nodes[piece]?.[to];
      return after ? openingBends(tools, piece, after) : 0;
    },
    closing: (piece, from) => {
      const before = nodes[piece]?.[from];
      return before && climbsAt(tools, piece, before, 1) ? 2 : 0;
    },
    step: (piece, from, to) =>
      once(steps, (piece * MOST_NODES + from) * MOST_NODES + to, () => {
        const [before, after] = [nodes[piece]?.[from], nodes[piece + 1]?.[to]];
        const isChange = sized.begins?.pieces === piece + 1;
        const follows = isChange ? mayJoin : mayFollow;
        if (!before || !after || !follows(before.choice, after.choice)) return Number.POSITIVE_INFINITY;
        const sameDitch = model.ditchOf[piece] !== undefined && model.ditchOf[piece] === model.ditchOf[piece + 1];
        if (sameDitch && question.oneCover && before.coverIn !== after.coverIn) return Number.POSITIVE_INFINITY;
        return stepCents(tools, piece + 1, before, after);
      }),
    startCents: (to) =>
      once(starts, to, () => {
        const node = nodes[0]?.[to];
        if (!node || node.choice.phase === 'carried-out') return Number.POSITIVE_INFINITY;
        const landing = parts.plan.option.roughInOnly ? 0 : cents(startTerminations(wayOver(run, node.choice.stretch)));
        return places[0] ? landing + endCents(tools, 0, { after: node }) : landing;
      }),
    endCents: (from) =>
      once(finishes, from, () => {
        const node = nodes[last]?.[from];
        if (!node || node.choice.phase === 'carried-in') return Number.POSITIVE_INFINITY;
        const ends = question.endsCents(node.choice);
        return places[last + 1] ? ends + endCents(tools, last + 1, { before: node }) : ends;
      }),
  };
}

/** The least that a run costs by its pieces alone, whatever joins them: quick to know, and less than any way. */
export function floorCents({ nodes, startCents, endCents, leastPerFt }: Layers): number {
  const least = (some: readonly number[]) => Math.min(...some);
  const first = nodes[0] ?? [];
  const last = nodes.at(-1) ?? [];
  const pieces = nodes.map((some) => least(some.map((node) => node.cents + leastPerFt(node.wiring) * node.wireFt)));
  const ends = least(first.map((_, at) => startCents(at))) + least(last.map((_, at) => endCents(at)));
  return pieces.reduce((sum, cents) => sum + cents, ends);
}

function nodesOf(tools: Tools, choices: readonly Choice[], piece: number): Node[] {
  const { model, oneCover, sized } = tools.question;
  const ditch = model.ditchOf[piece];
  if (ditch === undefined) return choices.map((choice) => nodeOf(tools, { choice, coverIn: 0, piece }));
  const leastIn = tools.question.leastCoverIn(ditch);
  const covers = sized.choices
    .flatMap((some, at) => (model.ditchOf[at] === ditch ? some : []))
    .map((one) => Math.max(leastIn, one.coverIn));
  const levels = [...new Set(covers)].filter((coverIn) => tools.question.allows(ditch, coverIn));
  return choices.flatMap((choice) =>
    (oneCover ? levels.filter((coverIn) => coverIn >= choice.coverIn) : [Math.max(leastIn, choice.coverIn)]).map(
      (coverIn) => nodeOf(tools, { choice, coverIn, piece }),
    ),
  );
}

function nodeOf(tools: Tools, { choice, coverIn, piece }: { choice: Choice; coverIn: number; piece: number }): Node {
  const { question, run } = tools;
  const { model, parts, least } = question;
  const wiring = wiringIndex(choice, question.sized);
  if (model.nowhere) return { choice, coverIn, cents: 0, wireFt: 0, wiring, pullBoxCents: 0 };
  const lie = lieOf({ model, coversIn: [] }, piece);
  const { rises, falls } = lie;
  const part = stretchPart(parts, run, choice, { ...lie, coverIn });
  const { stretch } = choice;
  const upFt = (Number(rises) + Number(falls)) * (coverIn / 12 + ABOVE_GRADE_FT);
  const ft = stretch.lengthFt + stretch.riseFt + upFt;
  const { pullPerFt } = ratesOf(tools, choice);
  const { perPullBox } = segmentRates(tools, choice);
  const dig = stretch.leg === undefined ? 0 : question.digCents(stretch.leg, coverIn + choice.thickIn);
  const cents = leastOf(least, part) + ft * pullPerFt + dig + racewayCents(tools, choice, ft);
  return {
    choice,
    coverIn,
    cents,
    wireFt: ft,
    wiring,
    pullBoxCents: perPullBox,
  };
}

function jointCents(tools: Tools, at: number, sides: { before?: Node; after?: Node; coverIn: number }): number {
  const { question, run } = tools;
  const place = question.model.places[at];
  if (!place) return 0;
  const [before, after] = [sides.before?.choice, sides.after?.choice];
  return leastOf(question.least, jointPart(question.parts, run, place, { before, after, coverIn: sides.coverIn }));
}

function endCents(tools: Tools, at: number, sides: { before?: Node; after?: Node }): number {
  const coverIn = Math.max(sides.before?.coverIn ?? 0, sides.after?.coverIn ?? 0);
  const begins = sides.after ? segmentStart(tools, sides.after.choice) : 0;
  return jointCents(tools, at, { ...sides, coverIn }) + begins;
}

/** What it takes to go from a node to one of the piece at `at`, whatever else the run is. */
export function joinCents(question: RunQuestion, at: number, [before, after]: readonly [Node, Node]): number {
  return stepCents(toolsOf(question), at, before, after);
}

function stepCents(tools: Tools, at: number, before: Node, after: Node): number {
  const { model } = tools.question;
  const place = model.places[at];
  if (!place) return 0;
  const sameDitch = model.ditchOf[at - 1] === model.ditchOf[at];
  const coverIn = sameDitch ? 0 : Math.max(before.coverIn, after.coverIn);
  const cents = jointCents(tools, at, { before, after, coverIn });
  if (isOpenedBetween(before.choice, after.choice, place)) return cents + segmentStart(tools, after.choice);
  const { perElbow, perPart } = segmentRates(tools, after.choice);
  return cents + (turnsBetween(before, after) ? perElbow : 0) + (coverIn > 0 ? perPart : 0);
}
