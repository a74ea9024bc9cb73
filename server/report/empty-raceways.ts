import type { SectionInput } from '../drawing/section.ts';
import type { DescriptionOption } from '../estimate/description.ts';

/** The empty raceways that an option asks for beside its runs, as the section draws them. */
export function emptyRacewaysOf({
  spareConduit,
  dataConduit,
}: DescriptionOption): NonNullable<SectionInput['emptyRaceways']> {
  return [...(spareConduit ? ['spare' as const] : []), ...(dataConduit ? ['data' as const] : [])];
}
