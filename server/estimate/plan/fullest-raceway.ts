import type { PlannedRun } from '../plan-types.ts';
import { isDitch, type RacewayType, TRADE_SIZES, type TradeSize } from '../vocabulary.ts';
import { conductorsIn, filled } from './conduit.ts';
import type { Job } from './job.ts';

/** A raceway with what it holds: `fillPercent` of its whole area. */
export interface FilledRaceway {
  type: RacewayType;
  tradeSize: TradeSize;
  fillPercent: number;
  /** Comes out of the ground in schedule 80, whose thicker wall leaves less room. */
  riser: boolean;
}

/** The fullest raceway of a run, its risers of schedule 80 included; nothing where it has none. NEC Chapter 9 Tables 1 and 4. */
export function fullestRaceway(job: Job, run: PlannedRun): FilledRaceway | undefined {
  const laid = [...run.legs.map(({ conduit }) => conduit), run.tail?.conduit].flatMap((conduit) =>
    conduit ? [{ ...conduit, riser: false }] : [],
  );
  return [...laid, ...risersOf(job, run)].reduce<FilledRaceway | undefined>(
    (fullest, one) => (fullest && fullest.fillPercent >= one.fillPercent ? fullest : one),
    undefined,
  );
}

/** The schedule 80 that goes on from schedule 40 in a ditch: at least its trade size, larger where that is too small. */
function risersOf(job: Job, run: PlannedRun): FilledRaceway[] {
  return run.legs.flatMap(({ leg, conduit }) => {
    const kind = job.route[leg]?.stated.kind;
    const section = run.sections.find(({ legs }) => legs.includes(leg));
    if (conduit?.type !== 'pvc-40' || !section || !kind || !(isDitch(kind) || kind === 'bore')) return [];
    const conductors = conductorsIn(section, run);
    const from = TRADE_SIZES.indexOf(conduit.tradeSize);
    for (const tradeSize of TRADE_SIZES.slice(from)) {
      const fill = filled({ type: 'pvc-80', tradeSize, conductors });
      if (fill?.fits) return [{ type: 'pvc-80', tradeSize, fillPercent: round(fill.fillPercent), riser: true }];
    }
    return [];
  });
}

/** Percent to four decimals, as every result. */
function round(percent: number): number {
  return Math.round(percent * 10_000) / 10_000;
}
