import type { PlannedOption } from '../plan-types.ts';
import type { ConductorSize } from '../vocabulary.ts';
import { isUpTo } from './sizes.ts';
import { isInside, type Stretch } from './way.ts';

/** The age from which framing is regular enough, and that up to which panels are small and boxes crowded. Common practice, no source. */
const REGULAR_FRAMING_FROM = 1950;
const SMALL_PANELS_UNTIL = 1980;

/** How many people the crew has. */
export function headsOf({ description: { terms } }: PlannedOption): number {
  const { crew, crewSize } = terms;
  return Math.max(1, crew ? crew.reduce((sum, { count }) => sum + count, 0) : crewSize);
}

/** Conductors above this size are pulled by two: one alone takes longer. Common practice, no source. */
const PULLED_ALONE_UP_TO: ConductorSize = '2';

/** What makes pulling conductors into raceway harder: a large size and nobody who feeds them in at the other end. */
export function pullFactors(plan: PlannedOption, size: ConductorSize): string[] {
  return headsOf(plan) === 1 && !isUpTo(size, PULLED_ALONE_UP_TO) ? ['factor-one-man'] : [];
}

/** Is the house being built, its framing open? */
export function isNewConstruction({ description }: PlannedOption): boolean {
  return description.site.work === 'new-construction';
}

/** What makes work inside the house harder or easier: its age, or open framing. */
export function indoorFactors(plan: PlannedOption): string[] {
  if (isNewConstruction(plan)) return ['factor-new-construction'];
  const { yearBuilt } = plan.description.site;
  return yearBuilt !== undefined && yearBuilt < REGULAR_FRAMING_FROM ? ['factor-old-house-pre-1950'] : [];
}

/** What makes work in the house's panel harder. */
export function panelFactors(plan: PlannedOption): string[] {
  const { yearBuilt } = plan.description.site;
  if (isNewConstruction(plan) || yearBuilt === undefined || yearBuilt > SMALL_PANELS_UNTIL) return [];
  return yearBuilt < REGULAR_FRAMING_FROM ? ['factor-old-house-pre-1950'] : ['factor-old-house-1950-1980'];
}

/** What makes running cable or raceway along a stretch harder or easier. */
export function stretchFactors(plan: PlannedOption, stretch: Stretch): string[] {
  const { stated, place, kind } = stretch;
  const headroom =
    stated?.headroom === 'crawling'
      ? ['factor-crawlspace']
      : stated?.headroom === 'crouching'
        ? ['factor-crouching']
        : [];
  const attic = kind === 'attic' ? ['factor-attic'] : [];
  const cold = stated?.soil?.includes('frozen') ? ['factor-rain-cold'] : [];
  return [...(isInside(place) ? indoorFactors(plan) : []), ...headroom, ...attic, ...cold];
}

/** Must the stretch be fished behind a finished surface? Not where the framing is still open. */
export function isFished(plan: PlannedOption, { kind }: Stretch): boolean {
  return (kind === 'finished-ceiling' || kind === 'finished-wall') && !isNewConstruction(plan);
}
