import fc from 'fast-check';
import { WALLS } from '../../../server/estimate/vocabulary.ts';
import { randomJob } from '../random-jobs.ts';

/** What a leg may state besides its kind and length; a field that its kind has no use for is a note. */
const legDetails = fc.record(
  {
    riseFt: fc.constantFrom(0, 2, 6),
    through: fc.constantFrom(...WALLS),
    bendsDeg: fc.constantFrom(0, 90, 270),
    soil: fc.constantFrom(['clay'], ['rocky'], ['frozen']),
    coverIn: fc.constantFrom(20, 30),
    headroom: fc.constantFrom('standing', 'crawling'),
  },
  { requiredKeys: [] },
);

/** A raceway that is there, on a leg of its own. */
const thereAlready = fc.record({
  kind: fc.constant('existing-raceway' as const),
  lengthFt: fc.integer({ min: 5, max: 60 }),
  type: fc.constantFrom('pvc-40' as const, 'emt' as const, 'rmc' as const),
  tradeSize: fc.constantFrom('1', '1-1/4', '2'),
  place: fc.constantFrom('indoor' as const, 'outdoor' as const, 'underground' as const),
});

/** What an option and its site may ask for beside the runs. */
const beside = fc.record(
  {
    spareConduit: fc.constant({ toA: 60 }),
    dataConduit: fc.constant({ tradeSize: '3/4' }),
    loadManagement: fc.constant({ kind: 'service-monitor', maxA: 32 }),
    serviceUpgrade: fc.constant({ toA: 200, supply: 'overhead', meter: 'replace' }),
    roughInOnly: fc.boolean(),
  },
  { requiredKeys: [] },
);
const site = fc.record(
  {
    hazards: fc.constantFrom(['asbestos'], ['lead-paint', 'plaster'], ['knob-and-tube']),
    existingSupply: fc.constantFrom('removed', 'none'),
    work: fc.constantFrom('retrofit', 'new-construction'),
  },
  { requiredKeys: [] },
);

/** A random job with what stands beside runs, details of legs, and raceways that are there already. */
export const oddJob = fc
  .record({
    job: randomJob,
    details: fc.array(legDetails, { minLength: 5, maxLength: 5 }),
    beside,
    site,
    there: fc.option(thereAlready, { nil: undefined }),
  })
  .map(({ job, details, beside: more, site: about, there }) => ({
    ...job,
    site: { ...job.site, ...about },
    route: [...job.route.slice(0, 4).map((leg, at) => ({ ...leg, ...details[at] })), ...(there ? [there] : [])],
    options: job.options.map((option) => ({ ...option, ...more })),
  }));
