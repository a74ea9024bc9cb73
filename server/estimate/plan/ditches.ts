import {
  type BurialLocation,
  type BuriedWiring,
  buriedWiringOf,
  checkCover,
  coverDepthIn,
} from '../../electrical/cover.ts';
import type { Finding, RunLeg } from '../answer.ts';
import { type Leg, legField } from '../description/leg.ts';
import type { Ditch, PlacedLeg, PlannedRun } from '../plan-types.ts';
import { isDitch } from '../vocabulary.ts';
import { findingOf, type Job } from './job.ts';

/** A slab of at least so many inches counts as cover of its own row; a thinner one of at least 2 in as another. NEC Table 300.5(A). */
const SLAB_IN = { full: 4, least: 2 } as const;
/** Up to this rating a 120 V circuit with ground-fault protection may lie shallower. NEC Table 300.5(A), column 4. */
const SHALLOW_TO_A = 20;
/** Outside diameter over the trade size, and of a cable, in inches. From memory; rounded up to the whole inch it is dug for. */
const OVER_TRADE_SIZE_IN = 0.4;
const CABLE_IN = 1;

/**
 * Rows of Table 300.5(A) that a leg could be under. The table does not say which of two wins, so the planner takes the
 * deepest: a strip cut out of a drive lies under a slab and under a drive. Where the work leaves the lot, what vehicles
 * drive over may be a street.
 */
export function burialLocations(leg: Leg, rightOfWay: boolean): BurialLocation[] {
  const rows: BurialLocation[] = [];
  const surfaced = leg.kind === 'concrete-cut' && legField(leg, 'restore');
  const thicknessIn = legField(leg, 'thicknessIn');
  if (surfaced && thicknessIn >= SLAB_IN.full) rows.push('under-4in-slab');
  else if (surfaced && thicknessIn >= SLAB_IN.least) rows.push('under-2in-concrete');
  else rows.push('elsewhere');
  const driven = legField(leg, 'traffic') === 'vehicle';
  if (driven) rows.push('dwelling-driveway');
  if (rightOfWay && (driven || leg.kind === 'asphalt-cut' || leg.kind === 'bore')) rows.push('street');
  return rows;
}

/** What of a run decides which column of the table it is under. */
export type Protected = Pick<PlannedRun, 'poles' | 'ocpdA' | 'breaker'>;

/** The cover that a run has over a dug leg by the table, and what the description raises it to, in inches. */
export function leastCoverIn(job: Job, { stated }: PlacedLeg, run: Protected, method: RunLeg['method']): number {
  const { code, permit } = job.description.site;
  const locations = burialLocations(stated, permit?.rightOfWay ?? false);
  const wiring = wiringOf(run, { method });
  const leastIn = Math.max(0, ...locations.map((location) => coverDepthIn({ wiring, location })));
  return Math.max(leastIn, code.minimumCoverIn ?? 0, stated.coverIn ?? 0);
}

/** How thick a cable or a raceway is in the ditch, in whole inches. */
export function thicknessIn(conduit: RunLeg['conduit']): number {
  return Math.ceil(Math.max(CABLE_IN, conduit ? inches(conduit.tradeSize) + OVER_TRADE_SIZE_IN : CABLE_IN));
}

/** Which column of the table a leg of a run is under; a 120 V circuit on a ground-fault breaker has one of its own. */
function wiringOf(run: Protected, { method }: Pick<RunLeg, 'method'>): BuriedWiring {
  const shallow = run.poles === 1 && run.ocpdA <= SHALLOW_TO_A && run.breaker.kind === 'gfci';
  if (shallow) return 'gfci-20a-120v';
  return method === 'nm-b' || method === 'ser' ? 'cable' : buriedWiringOf(method);
}

/** Is the leg dug or bored, so that its cover is ours to choose? */
export function isDug({ stated }: PlacedLeg): boolean {
  return isDitch(stated.kind) || stated.kind === 'bore';
}

interface Cover {
  leg: number;
  leastIn: number;
  coverIn: number;
  /** The rows of the table that the leg could be under, each with what it asks for, the deepest first. */
  rows: { location: BurialLocation; wiring?: BuriedWiring; leastIn: number }[];
}

/** The cover that every run of a leg has at least, by the table, and what the description raises it to. */
function coverOf(job: Job, { leg, stated }: PlacedLeg, runs: readonly PlannedRun[]): Cover {
  const { code, permit } = job.description.site;
  const locations = burialLocations(stated, permit?.rightOfWay ?? false);
  const wirings = runs.flatMap((run) =>
    run.legs.filter((runLeg) => runLeg.leg === leg).map((runLeg) => wiringOf(run, runLeg)),
  );
  const rows = locations
    .map((location) => {
      const [deepest] = wirings
        .map((wiring) => ({ wiring, leastIn: coverDepthIn({ wiring, location }) }))
        .sort((a, b) => b.leastIn - a.leastIn);
      return { location, leastIn: 0, ...deepest };
    })
    .sort((a, b) => b.leastIn - a.leastIn);
  const leastIn = rows[0]?.leastIn ?? 0;
  return { leg, leastIn, coverIn: Math.max(leastIn, code.minimumCoverIn ?? 0, stated.coverIn ?? 0), rows };
}

/** Consecutive dug legs; a bore between two ditches, or at the end of one, continues it. */
export function ditchLegs(route: readonly PlacedLeg[]): number[][] {
  const ditches: number[][] = [];
  route.forEach((placed, at) => {
    if (!isDug(placed)) return;
    const before = route[at - 1];
    const last = ditches.at(-1);
    if (last && before && isDug(before)) last.push(placed.leg);
    else ditches.push([placed.leg]);
  });
  return ditches;
}

/** How thick what lies in the ditch is, in whole inches. */
function wiringIn(runs: readonly PlannedRun[], legs: readonly number[]): number {
  const thickIn = runs.flatMap((run) =>
    run.legs.filter(({ leg }) => legs.includes(leg)).map(({ conduit }) => thicknessIn(conduit)),
  );
  return Math.max(CABLE_IN, ...thickIn);
}

/** A trade size such as `1-1/4` as a number. */
function inches(tradeSize: string): number {
  return tradeSize.split('-').reduce((sum, part) => {
    const [over = 0, under = 1] = part.split('/').map(Number);
    return sum + over / under;
  }, 0);
}

/** The option's ditches, each with its deepest cover; the runs with that cover on their legs; a finding for each leg. */
export function digDitches(
  job: Job,
  runs: readonly PlannedRun[],
): { ditches: Ditch[]; runs: PlannedRun[]; findings: Finding[] } {
  const dug = ditchLegs(job.route).map((legs) => {
    const covers = legs.flatMap((leg) => {
      const placed = job.route[leg];
      return placed ? coverOf(job, placed, runs) : [];
    });
    const coverIn = Math.max(...covers.map((cover) => cover.coverIn));
    return { covers, ditch: { legs, coverIn, depthIn: coverIn + wiringIn(runs, legs) } };
  });
  const coverOfLeg = new Map(dug.flatMap(({ ditch }) => ditch.legs.map((leg) => [leg, ditch.coverIn] as const)));
  return {
    ditches: dug.map(({ ditch }) => ditch),
    runs: runs.map((run) => ({ ...run, legs: run.legs.map((runLeg) => withCover(runLeg, coverOfLeg)) })),
    findings: dug.flatMap(({ covers, ditch }) =>
      covers.flatMap((cover) => [coverFinding(job, cover, ditch), ...drivenDoubt(job, cover, ditch)]),
    ),
  };
}

function withCover(runLeg: RunLeg, coverOfLeg: ReadonlyMap<number, number>): RunLeg {
  const coverIn = coverOfLeg.get(runLeg.leg);
  return coverIn === undefined ? runLeg : { ...runLeg, coverIn };
}

const ROW_WORDS = {
  elsewhere: 'all other places',
  'under-2in-concrete': 'below 2 in of concrete',
  'under-building': 'under a building',
  'under-4in-slab': 'under a slab of 4 in',
  street: 'streets',
  'dwelling-driveway': 'driveways of dwellings',
} as const satisfies Record<BurialLocation, string>;

/** Which row of the table gives the depth, and that the deepest of several is taken. */
function rowsInWords([deepest, ...others]: Cover['rows']): string {
  if (!deepest) return '';
  const row = ` by the row for ${ROW_WORDS[deepest.location]}`;
  if (others.length === 0) return row;
  const beside = others
    .map(({ location, leastIn }) => `${leastIn} in by the row for ${ROW_WORDS[location]}`)
    .join(', ');
  return `${row}, and ${beside}: the deepest of them is taken`;
}

function coverFinding(job: Job, { leg, leastIn, coverIn, rows }: Cover, ditch: Ditch): Finding {
  const deeper =
    ditch.coverIn > coverIn
      ? ' The ditch keeps the cover of its deepest leg.'
      : coverIn > leastIn
        ? ' Deeper than that was asked for.'
        : '';
  const [deepest] = rows;
  const checked =
    deepest?.wiring &&
    checkCover({ ...deepest, wiring: deepest.wiring, leg, coverIn: ditch.coverIn, edition: job.edition });
  if (checked && checked.severity !== 'ok') return checked;
  return findingOf(job.edition, {
    rule: 'cover',
    severity: 'ok',
    message: `${ditch.coverIn} in of cover; at least ${leastIn} in is required here${rowsInWords(rows)}.${deeper}`,
    cites: 'cover',
    numbers: { coverIn: ditch.coverIn, leastIn },
    leg,
  });
}

/** What a car mostly drives over, and what it often does, where it is taken as walked on: that is what nobody stated. */
const DRIVEN: Partial<Record<Leg['kind'], Finding['severity']>> = {
  'asphalt-cut': 'caution',
  'concrete-cut': 'note',
  'gravel-trench': 'note',
};

/** Says what cover would be asked for if cars drove over a leg. */
function drivenDoubt(job: Job, { leg }: Cover, { coverIn }: Ditch): Finding[] {
  const stated = job.route[leg]?.stated;
  const severity = stated && legField(stated, 'traffic') === 'foot' ? DRIVEN[stated.kind] : undefined;
  const neededIn = coverDepthIn({ wiring: 'rmc', location: 'dwelling-driveway' });
  if (!severity || coverIn >= neededIn) return [];
  const message = `Taken as walked on only, under ${coverIn} in of cover. A drive of a dwelling asks for ${neededIn} in: where cars drive over this leg, say so.`;
  const numbers = { coverIn, neededIn };
  return [findingOf(job.edition, { rule: 'cover-of-a-drive', severity, message, cites: 'cover', numbers, leg })];
}
