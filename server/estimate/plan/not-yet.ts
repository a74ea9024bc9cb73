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
  return NOT_YET.filter(({ stated }) => stated(job)).map(({ path, would }) =>
    findingOf(job.edition, {
      rule: 'not-yet-considered',
      severity: 'caution',
      message: `${path} was stated and is not considered yet: ${would}.`,
      numbers: { path },
    }),
  );
}
