import type { Finding } from '../answer.ts';
import { findingOf, type Job } from './job.ts';

/** A field of the description whose effect is not in the figures yet, and when it is stated at all. */
interface NotYet {
  path: string;
  /** What it would change, to follow "not considered yet:". */
  would: string;
  stated: (job: Job) => boolean;
}

const NOT_YET: readonly NotYet[] = [
  {
    path: 'site.hazards',
    would: 'the care that these materials ask for',
    stated: ({ description }) => (description.site.hazards ?? []).some((hazard) => hazard !== 'plaster'),
  },
  {
    path: 'site.service.panel',
    would: 'what a panel of this kind or state must have first',
    stated: ({ description }) => description.site.service.panel !== undefined,
  },
  {
    path: 'site.service.panelBusA',
    would: 'the limit of the panel’s bus',
    stated: ({ description }) => description.site.service.panelBusA !== undefined,
  },
  {
    path: 'site.service.backfeedA',
    would: 'what solar or storage takes of the panel’s bus',
    stated: ({ description }) => (description.site.service.backfeedA ?? 0) > 0,
  },
  {
    path: 'chances',
    would: 'the chances of what is not known',
    stated: ({ description }) => description.chances !== undefined,
  },
  {
    path: 'purchase',
    would: 'the budget for the purchase of the house',
    stated: ({ description }) => description.purchase !== undefined,
  },
  { path: 'bids', would: 'the bids received', stated: ({ description }) => description.bids.length > 0 },
];

/** One caution for each stated field whose effect is not in the figures yet, so that none is passed over in silence. */
export function notYetFindings(job: Job): Finding[] {
  const fields = NOT_YET.filter(({ stated }) => stated(job)).map(({ path, would }) =>
    findingOf(job.edition, {
      rule: 'not-yet-considered',
      severity: 'caution',
      message: `${path} was stated and is not considered yet: ${would}.`,
      numbers: { path },
    }),
  );
  const unknownSteel = job.route
    .filter(({ stated }) => stated.reinforcement === null)
    .map(({ leg }) =>
      findingOf(job.edition, {
        rule: 'not-yet-considered',
        severity: 'caution',
        message: 'reinforcement is not known and is not considered yet: steel in the slab makes it slower to cut.',
        numbers: { path: `route.${leg}.reinforcement` },
        leg,
      }),
    );
  return [...fields, ...unknownSteel];
}
