import type { RuleKey } from '../../electrical/citations.ts';
import type { Finding } from '../answer.ts';
import type { LegKind } from '../vocabulary.ts';
import { findingOf, type Job } from './job.ts';

type Hazard = NonNullable<Job['description']['site']['hazards']>[number];

/** Houses built before these years may have lead paint (the year it was banned in the USA, from memory) and asbestos (common practice, no source). */
const MAY_HAVE_BEFORE = { leadPaint: 1978, asbestos: 1985 };
/** Legs along which surfaces of the house are opened, drilled or walked through. */
const OPENED: readonly LegKind[] = ['finished-ceiling', 'finished-wall', 'attic', 'exterior-wall'];

const SAID: Record<Exclude<Hazard, 'plaster'>, string> = {
  'knob-and-tube':
    'Knob-and-tube wiring needs air around it and joints that nobody disturbs: it is not extended, not bundled with new cable and not buried in insulation. An electrician looks at it before holes are drilled near it.',
  'aluminum-branch':
    'Aluminum branch wiring loosens at its joints under a load that lasts. Nothing that charges hangs on it before its joints were repaired; the new circuit does not touch it.',
  asbestos:
    'Asbestos: what is drilled or opened is sampled first and worked wet and sealed off; the test and that care are priced. Taking it out is for a licensed crew and is not.',
  'lead-paint':
    'Lead paint: whoever is paid to disturb it must be certified for it, seals off the place and cleans with care, which is priced. Children and pregnant women stay away meanwhile.',
};

/** Asbestos and lead paint are no matter of the electrical code. */
const CITES: Partial<Record<Hazard, RuleKey>> = {
  'knob-and-tube': 'knob-and-tube',
  'aluminum-branch': 'dissimilar-metals',
};

/** What is to be known of materials in the house before anybody opens it. A retrofit's; new walls hold none of it. */
export function hazardFindings(job: Job): Finding[] {
  const { hazards, work } = job.description.site;
  if (work === 'new-construction') return [];
  if (hazards === null) return unknownHazards(job);
  return hazards.flatMap((hazard) => (hazard === 'plaster' ? [] : stated(job, hazard)));
}

function stated(job: Job, hazard: Exclude<Hazard, 'plaster'>): Finding {
  const usesOld =
    job.option.feed === 'existing-receptacle' && (hazard === 'aluminum-branch' || hazard === 'knob-and-tube');
  const message = usesOld
    ? `${SAID[hazard]} The outlet that is there may hang on it: give the charger a circuit of its own.`
    : SAID[hazard];
  const severity = usesOld ? 'stop' : 'caution';
  const cites = CITES[hazard];
  return findingOf(job.edition, { rule: 'hazard', severity, message, numbers: { hazard }, ...(cites && { cites }) });
}

function unknownHazards(job: Job): Finding[] {
  const { yearBuilt } = job.description.site;
  const opened = job.route.some(({ stated: leg }) => OPENED.includes(leg.kind) || leg.through !== undefined);
  if (yearBuilt === undefined || !opened) return [];
  const may = [
    ...(yearBuilt < MAY_HAVE_BEFORE.leadPaint ? ['lead paint'] : []),
    ...(yearBuilt < MAY_HAVE_BEFORE.asbestos ? ['asbestos'] : []),
  ];
  if (may.length === 0) return [];
  const message = `A house of ${yearBuilt} may have ${may.join(' and ')}, and surfaces are opened here. Whether it has is not known and not priced: a laboratory tests a sample, an inspector tests paint.`;
  return [findingOf(job.edition, { rule: 'hazard', severity: 'caution', message, numbers: { yearBuilt } })];
}

/** Steel in a slab that nobody knows of: likeliest there is none in a walk or a patio. Common practice, no source. */
export function unknownSteelFindings(job: Job): Finding[] {
  return job.route
    .filter(({ stated: leg }) => leg.reinforcement === null)
    .map(({ leg }) =>
      findingOf(job.edition, {
        rule: 'slab-steel',
        severity: 'note',
        message:
          'Whether the slab has steel in it is not known; it is priced without, which is likeliest. With mesh or bars it is slower to break out: a magnet, or a cover meter, finds them.',
        numbers: { path: `route.${leg}.reinforcement` },
        leg,
      }),
    );
}
