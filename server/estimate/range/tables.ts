import type { Line } from '../answer.ts';
import { betaQuantiles, pertShape } from '../beta.ts';
import { MINIMUM_CHARGE } from '../minimum-charge.ts';
import type { LineClass } from '../vocabulary.ts';
import { type Group, groupOf } from './causes.ts';
import { TABLE, TABLE_SIZE } from './draws.ts';
import { normalChance } from './normal.ts';

/** Three points of what a line comes to, in cents. */
export interface Ends {
  low: number;
  likely: number;
  high: number;
}

/** One line through several ways that the job may be: what it comes to in each, nothing where that way has no such line. */
export interface Mover {
  line: Line;
  /** What it is called among the drivers: its group's name, or its own. */
  name: string;
  group: Group | undefined;
  ends: (Ends | undefined)[];
}

/** All lines of several ways that the job may be, matched; and, by way, what does not move, in cents by class. */
export interface Matched {
  movers: Mover[];
  fixed: Record<LineClass, Float64Array>;
}

const NOTHING: Ends = { low: 0, likely: 0, high: 0 };

/**
 * Matches the lines of several ways that the job may be. What makes a job up to its minimum is left out: it is reckoned
 * anew with each draw. So is a line that has no price.
 */
export function matched(ways: readonly (readonly Line[])[]): Matched {
  const all: Mover[] = [];
  const named = new Map<string, Namesakes>();
  /** One line may stand in several ways: what it is known by is put together once. */
  const ofLine = new Map<Line, Namesakes>();
  ways.forEach((lines, way) => {
    for (const line of lines) {
      if (!line.priced || line.key === MINIMUM_CHARGE) continue;
      const namesakes = ofLine.get(line) ?? namesakesOf(named, line);
      ofLine.set(line, namesakes);
      if (namesakes.way !== way) namesakes.seen = 0;
      namesakes.way = way;
      const known = namesakes.movers[namesakes.seen] ?? mover(line, ways.length);
      known.ends[way] = { low: line.lowCents, likely: line.amountCents, high: line.highCents };
      if (namesakes.seen === namesakes.movers.length) {
        namesakes.movers.push(known);
        all.push(known);
      }
      namesakes.seen += 1;
    }
  });
  const still = (one: Mover) => one.ends.every((ends) => !ends || ends.low >= ends.high);
  return { movers: all.filter((one) => !still(one)), fixed: fixedOf(all.filter(still), ways.length) };
}

/** Lines of one name, in the order in which a way has them: the first of one way is the first of another. */
interface Namesakes {
  movers: Mover[];
  /** How many were seen in the way that is gone through. */
  way: number;
  seen: number;
}

function namesakesOf(named: Map<string, Namesakes>, line: Line): Namesakes {
  const name = `${line.key} ${line.class} ${line.scope} ${line.package?.size ?? line.unit}`;
  const namesakes = named.get(name) ?? { movers: [], way: -1, seen: 0 };
  named.set(name, namesakes);
  return namesakes;
}

function mover(line: Line, ways: number): Mover {
  const group = groupOf(line);
  const name = group && !group.apart ? group.name : line.description;
  return { line, name, group, ends: Array<Ends | undefined>(ways).fill(undefined) };
}

function fixedOf(still: readonly Mover[], ways: number): Matched['fixed'] {
  const none = () => new Float64Array(ways);
  const fixed = { material: none(), labor: none(), equipment: none(), fee: none() };
  for (const { line, ends } of still) {
    const sums = fixed[line.class];
    ends.forEach((one, way) => {
      sums[way] = (sums[way] ?? 0) + (one?.likely ?? 0);
    });
  }
  return fixed;
}

/** Chances of the table's scores. */
const CHANCES = Array.from({ length: TABLE_SIZE }, (_, at) => normalChance(at / TABLE.perScore - TABLE.lastScore));
/** Quantiles between a line's ends, 0 to 1, by where its likely value lies, in hundredths; made when first asked for. */
const UNIT_TABLES: (number[] | undefined)[] = [];

function unitTable(hundredths: number): number[] {
  const known = UNIT_TABLES[hundredths];
  if (known) return known;
  const made = betaQuantiles(CHANCES, pertShape({ low: 0, likely: hundredths / 100, high: 1 }));
  UNIT_TABLES[hundredths] = made;
  return made;
}

/** What a line comes to by score, from the lowest up, written into `into` from an entry on. */
export function writeTable(into: Float64Array, from: number, { low, likely, high }: Ends): void {
  const span = high - low;
  if (span <= 0) {
    into.fill(likely, from, from + TABLE_SIZE);
    return;
  }
  const unit = unitTable(Math.round((100 * (likely - low)) / span));
  for (let at = 0; at < TABLE_SIZE; at++) into[from + at] = low + span * (unit[at] ?? 0);
}

/** A mover's tables in some of the ways, one behind the other; a single one where all are alike. */
export function tablesOf({ ends }: Mover, ways: readonly number[]): Float64Array {
  const [first = NOTHING, ...others] = ways.map((way) => ends[way] ?? NOTHING);
  const alike = others.every(
    ({ low, likely, high }) => low === first.low && likely === first.likely && high === first.high,
  );
  const shown = alike ? [first] : [first, ...others];
  const tables = new Float64Array(shown.length * TABLE_SIZE);
  for (const [at, one] of shown.entries()) writeTable(tables, at * TABLE_SIZE, one);
  return tables;
}

/** What a mover comes to in one way more than in another, by score; nothing where it is the same in both. */
export function differenceTable({ ends }: Mover, { from, to }: { from: number; to: number }): Float64Array | undefined {
  const before = ends[from] ?? NOTHING;
  const after = ends[to] ?? NOTHING;
  if (before.low === after.low && before.likely === after.likely && before.high === after.high) return undefined;
  const table = new Float64Array(TABLE_SIZE);
  const subtracted = new Float64Array(TABLE_SIZE);
  writeTable(table, 0, after);
  writeTable(subtracted, 0, before);
  return table.map((value, at) => value - (subtracted[at] ?? 0));
}
