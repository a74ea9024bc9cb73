import { conduitFill, type FillConductor, type FillInsulation } from '../../electrical/conduit-fill.ts';
import { BeyondTableError } from '../../electrical/errors.ts';
import type { Finding, RunLeg } from '../answer.ts';
import type { Section } from '../plan-types.ts';
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
export function conductorsIn(section: Filled, { poles, neutral }: Circuit): FillConductor[] {
  const insulation = section.insulation as FillInsulation; // a raceway holds singles or a quad of USE-2 only
  const insulated = section.cable?.conductors ?? poles + (neutral ? 1 : 0);
  return [
    { insulation, size: section.size, count: insulated },
    { insulation, size: section.groundSize, count: 1 },
  ];
}

interface Raceway {
  /** Nothing where what is there is too full: nothing can be pulled into it. */
  conduit?: Conduit;
  /** Nothing where it fits. */
  problem?: Finding;
}

/**
 * The raceway of a piece: the smallest that is sold and holds the conductors, or the one that is there with what it
 * holds already. NEC Chapter 9 Table 1. A raceway that is too full is a stop.
 */
export function racewayFor(job: Job, circuit: Circuit, section: Filled, piece: LaidPiece): Raceway {
  const conductors = conductorsIn(section, circuit);
  const { placed, method } = piece;
  if (placed?.stated.kind === 'existing-raceway') return existingRaceway(job, circuit, conductors, piece);
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

function existingRaceway(job: Job, circuit: Circuit, conductors: FillConductor[], { placed }: LaidPiece): Raceway {
  const { type = 'pvc-40', tradeSize = '1', occupiedBy = [] } = placed?.stated ?? {}; // the description insists on both
  const fill = filled({ type, tradeSize, conductors: [...conductors, ...occupiedBy] });
  const fillPercent = round(fill?.fillPercent ?? 0);
  if (fill?.fits) return { conduit: { type, tradeSize, fillPercent } };
  const problem = findingOf(job.edition, {
    rule: 'conduit-fill',
    severity: 'stop',
    message:
      `The ${tradeSize} in ${type} that is there would be ${fillPercent.toFixed(1)} % full: too full. Pull out what it ` +
      'holds, charge with fewer amperes, or lay a new raceway.',
    cites: 'conduit-fill',
    numbers: { fillPercent, tradeSize },
    run: circuit.name,
    ...(placed && { leg: placed.leg }),
  });
  return { problem };
}

/** How full a raceway is, or nothing where the tables end. */
function filled(question: Parameters<typeof conduitFill>[0]) {
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
