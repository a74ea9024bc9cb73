import type { Finding } from '../answer.ts';
import { findingOf, type Job } from './job.ts';

/**
 * Least heights of conductors in the air, in feet, at up to 300 V to ground: over residential property and driveways, and
 * over a street. NEC 225.18, from memory.
 */
const LEAST_ABOVE_FT = { property: 12, street: 18 } as const;
/** Least height over a roof that a span crosses, in feet, and past its edge. NEC 225.19(A), from memory. */
const LEAST_ABOVE_ROOF_FT = 8.5;
const PAST_ROOF_EDGE_FT = 3;

/** What holds for spans in the air: what carries them, and how high they hang at their lowest. */
export function overheadFindings(job: Job): Finding[] {
  return job.route
    .filter(({ place }) => place === 'overhead')
    .flatMap(({ leg }) => [messenger(job, leg), clearance(job, leg), roof(job, leg)]);
}

function messenger({ edition }: Job, leg: number): Finding {
  const message =
    'The cable hangs on a messenger that carries its weight, wind and ice, anchored at both ends; the cable itself is not to be pulled tight.';
  return findingOf(edition, { rule: 'overhead-messenger', severity: 'note', message, cites: 'overhead-span', leg });
}

function clearance({ edition }: Job, leg: number): Finding {
  const { property, street } = LEAST_ABOVE_FT;
  const message =
    `At its lowest, on the hottest day, the span hangs at least ${property} ft above the ground and a driveway, and ${street} ft ` +
    'above a street. Measure both ends and the sag before you choose it: how high they are was not stated.';
  return findingOf(edition, {
    rule: 'overhead-clearance',
    severity: 'caution',
    message,
    cites: 'overhead-clearance',
    numbers: { propertyFt: property, streetFt: street },
    leg,
  });
}

function roof({ edition }: Job, leg: number): Finding {
  const message =
    `Where it crosses a roof it hangs at least ${LEAST_ABOVE_ROOF_FT} ft above it, and ${PAST_ROOF_EDGE_FT} ft past its edge; steep roofs ` +
    'and short ends at the mast may have less.';
  return findingOf(edition, {
    rule: 'overhead-roof',
    severity: 'note',
    message,
    cites: 'overhead-roof-clearance',
    numbers: { roofFt: LEAST_ABOVE_ROOF_FT },
    leg,
  });
}
