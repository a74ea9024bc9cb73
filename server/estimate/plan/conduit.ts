import { conduitFill, type FillConductor, type FillInsulation } from '../../electrical/conduit-fill.ts';
import { BeyondTableError } from '../../electrical/errors.ts';
import { largerSize, sizeInWords } from '../../electrical/sizes.ts';
import type { Finding, RunLeg } from '../answer.ts';
import type { PlacedLeg, PlannedRun, Section } from '../plan-types.ts';
import { type RacewayType, TRADE_SIZES } from '../vocabulary.ts';
import type { Circuit } from './circuit.ts';
import { findingOf, type Job } from './job.ts';
import type { LaidPiece } from './wiring.ts';

/** Schedule 40 everywhere; risers out of the ground are schedule 80 in the take-off (300.5(D)(4)). */
const TYPE_OF = { pvc: 'pvc-40', emt: 'emt', rmc: 'rmc' } as const satisfies Record<string, RacewayType>;
/** The largest trade size that is planned. Ours: shops that sell to dwellings end there. */
const LARGEST_PLANNED = '3';

type Conduit = NonNullable<RunLeg['conduit']>;
type Filled = Pick<Section, 'insulation' | 'metal' | 'size' | 'groundSize' | 'cable'>;

/** Single conductors of a section, as they fill a raceway; a quad counts by its four conductors. */
export function conductorsIn(
  section: Filled,
  { poles, neutral }: Pick<PlannedRun, 'poles' | 'neutral'>,
): FillConductor[] {
  const insulation = section.insulation as FillInsulation; // a raceway holds singles or a quad of USE-2 only
  const insulated = section.cable?.conductors ?? poles + (neutral ? 1 : 0);
  return [
    { insulation, size: section.size, count: insulated },
    { insulation, size: section.groundSize, count: 1 },
  ];
}

interface Raceway {
  /** Nothing where what is there is too full, or is filled by all circuits together: see `fillExistingRaceways`. */
  conduit?: Conduit;
  /** Nothing where it fits. */
  problem?: Finding;
}

/**
 * The new raceway of a piece: the smallest that is sold and holds the conductors. NEC Chapter 9 Table 1. Each circuit has
 * one of its own.
 */
export function racewayFor(job: Job, circuit: Circuit, section: Filled, piece: LaidPiece): Raceway {
  const conductors = conductorsIn(section, circuit);
  const { placed, method } = piece;
  if (placed?.stated.kind === 'existing-raceway') return {};
  const type = TYPE_OF[method as keyof typeof TYPE_OF]; // only raceway methods come here
  const sold = TRADE_SIZES.filter((tradeSize) => job.book.bySpec({ is: 'raceway', type, tradeSize }));
  for (const tradeSize of sold) {
    const fill = filled({ type, tradeSize, conductors });
    if (fill?.fits) return { conduit: { type, tradeSize, fillPercent: round(fill.fillPercent) } };
  }
  const problem = findingOf(job.edition, {
    rule: 'conduit-not-sold',
    severity: 'stop',
    message: `The price book sells no ${type} that holds these conductors. Add a larger trade size to it, or choose another method.`,
    cites: 'conduit-fill',
    numbers: { type, largestSold: sold.at(-1) ?? 'none' },
    run: circuit.name,
    ...(placed && { leg: placed.leg }),
  });
  const tradeSize = sold.at(-1) ?? LARGEST_PLANNED;
  return {
    conduit: { type, tradeSize, fillPercent: round(filled({ type, tradeSize, conductors })?.fillPercent ?? 0) },
    problem,
  };
}

/** The conductors that an option pulls through one leg. */
function pulledThrough(runs: readonly PlannedRun[], leg: number): FillConductor[] {
  return runs.flatMap((run) =>
    run.sections.flatMap((section) => (section.legs.includes(leg) ? conductorsIn(section, run) : [])),
  );
}

/**
 * Fills the raceways that are there: each with the conductors of all runs that go through it, and with what it holds
 * already. NEC Chapter 9 Table 1. One that is too full is a stop, and nothing can be pulled into it.
 */
export function fillExistingRaceways(
  job: Job,
  runs: readonly PlannedRun[],
): { runs: PlannedRun[]; findings: Finding[] } {
  const there = job.route.filter(({ leg, stated }) => {
    return stated.kind === 'existing-raceway' && runs.some(({ legs }) => legs.some((runLeg) => runLeg.leg === leg));
  });
  const filledLegs = there.map((placed) => ({ leg: placed.leg, ...existingRaceway(job, placed, runs) }));
  const conduitOf = new Map(filledLegs.map(({ leg, conduit }) => [leg, conduit]));
  const withConduit = (runLeg: RunLeg): RunLeg => {
    const conduit = conduitOf.get(runLeg.leg);
    return conduit ? { ...runLeg, conduit } : runLeg;
  };
  return {
    runs: runs.map((run) => ({ ...run, legs: run.legs.map(withConduit) })),
    findings: filledLegs.flatMap(({ problem }) => problem ?? []),
  };
}

function existingRaceway(job: Job, { leg, stated }: PlacedLeg, runs: readonly PlannedRun[]): Raceway {
  const { type = 'pvc-40', tradeSize = '1', occupiedBy = [] } = stated; // the description insists on both
  const fill = filled({ type, tradeSize, conductors: [...pulledThrough(runs, leg), ...occupiedBy] });
  const circuits = runs.filter(({ legs }) => legs.some((runLeg) => runLeg.leg === leg));
  const [only, ...others] = circuits;
  const known = {
    rule: 'conduit-fill',
    severity: 'stop',
    cites: 'conduit-fill',
    leg,
    ...(only && others.length === 0 && { run: only.name }),
  } as const;
  if (!fill) {
    const largest = occupiedBy.map(({ size }) => size).reduce(largerSize, '14');
    const message =
      `occupiedBy names conductors of ${sizeInWords(largest)}, and how much room they take is not in the tables of the ` +
      'code book, which end at 500 kcmil: whether more fits is not known. Lay a new raceway.';
    return { problem: findingOf(job.edition, { ...known, message, numbers: { tradeSize, largest } }) };
  }
  const fillPercent = round(fill.fillPercent);
  if (fill.fits) return { conduit: { type, tradeSize, fillPercent } };
  const company = circuits.length > 1 ? ` with the conductors of ${circuits.length} circuits` : '';
  const message =
    `The ${tradeSize} in ${type} that is there would be ${fillPercent.toFixed(1)} % full${company}: too full. Pull out ` +
    'what it holds, charge with fewer amperes, bring a subpanel to the chargers, or lay a new raceway.';
  const numbers = { fillPercent, tradeSize, circuits: circuits.length };
  return { problem: findingOf(job.edition, { ...known, message, numbers }) };
}

/** How full a raceway is, or nothing where the tables end. */
export function filled(question: Parameters<typeof conduitFill>[0]) {
  try {
    return conduitFill(question);
  } catch (error) {
    if (error instanceof BeyondTableError) return undefined;
    throw error;
  }
}

/** Percent to four decimals, as every result. */
function round(percent: number): number {
  return Math.round(percent * 10_000) / 10_000;
}
