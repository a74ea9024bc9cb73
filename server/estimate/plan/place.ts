import type { Finding } from '../answer.ts';
import { legFeet, legField } from '../description/leg.ts';
import { type Description, type DescriptionOption, type Leg, routeOf } from '../description.ts';
import type { Place, PlacedLeg } from '../plan-types.ts';
import { LEG_FIELDS, type LegKind } from '../vocabulary.ts';
import { findingOf, type Job } from './job.ts';

/** Around conductors under a roof in summer, in °C. Common practice, no source; a leg may state its own. */
const ATTIC_C = 50;

/**
 * What the place of a leg is like for a wiring method. A vented crawlspace counts as dry, which a finding says
 * (common practice, no source); outside walls and the space under an open deck are wet (NEC Article 100, Location).
 */
const PLACE_OF: Record<Exclude<LegKind, 'existing-raceway'>, Place> = {
  joists: 'dry-concealed',
  'finished-ceiling': 'dry-concealed',
  'finished-wall': 'dry-concealed',
  crawlspace: 'dry-concealed',
  attic: 'attic',
  'interior-surface': 'dry-exposed',
  'exterior-wall': 'wet-above-ground',
  'under-deck': 'wet-above-ground',
  'lawn-trench': 'underground',
  'gravel-trench': 'underground',
  'planting-bed': 'underground',
  'concrete-cut': 'under-slab',
  'asphalt-cut': 'underground',
  'pavers-lift': 'underground',
  bore: 'underground',
  'overhead-span': 'overhead',
};
const PLACE_OF_RACEWAY = {
  indoor: 'dry-exposed',
  outdoor: 'wet-above-ground',
  underground: 'underground',
} as const satisfies Record<string, Place>;

/** What a leg's place is like. */
export function placeOf(leg: Leg): Place {
  return leg.kind === 'existing-raceway' ? PLACE_OF_RACEWAY[legField(leg, 'place')] : PLACE_OF[leg.kind];
}

/** Is the place below grade? */
export function isBuried(place: Place): boolean {
  return place === 'underground' || place === 'under-slab';
}

/** Is the place out of doors, wet as the code has it? */
export function isWet(place: Place): boolean {
  return isBuried(place) || place === 'wet-above-ground' || place === 'overhead';
}

/** The legs of an option's route with their lengths, places and temperatures. */
export function placedRoute(description: Description, option: DescriptionOption): PlacedLeg[] {
  const siteC = description.site.ambientC;
  return routeOf(description, option).map((stated, leg) => {
    const place = placeOf(stated);
    const usualC = place === 'attic' ? Math.max(ATTIC_C, siteC) : siteC;
    return { leg, stated, feet: legFeet(stated), place, ambientC: stated.ambientC ?? usualC };
  });
}

/** The place of the stretch from the end of the route to an outlet. */
export function tailPlace({ outdoors }: { outdoors: boolean }): Place {
  return outdoors ? 'wet-above-ground' : 'dry-exposed';
}

/** Fields that every kind of leg has a use for. */
const SERVES_ALL = ['kind', 'lengthFt', 'riseFt', 'method', 'through', 'bendsDeg', 'ambientC', 'note'];

/** What is worth knowing of the legs themselves: fields of no use, and places that are taken to be dry. */
export function routeFindings({ route, edition }: Job): Finding[] {
  return route.flatMap(({ leg, stated }) => {
    const useful: readonly string[] = [...SERVES_ALL, ...LEG_FIELDS[stated.kind]];
    const idle = Object.keys(stated).filter((field) => !useful.includes(field));
    const unused = idle.map((field) =>
      findingOf(edition, {
        rule: 'unused-field',
        severity: 'note',
        message: `A leg of kind ${stated.kind} has no use for ${field}; it changes nothing here.`,
        numbers: { field },
        leg,
      }),
    );
    return stated.kind === 'crawlspace' ? [...unused, crawlspaceNote(leg, edition)] : unused;
  });
}

function crawlspaceNote(leg: number, edition: Job['edition']): Finding {
  return findingOf(edition, {
    rule: 'crawlspace-dry',
    severity: 'note',
    message:
      'The crawlspace is taken to be dry. If it is damp, nonmetallic-sheathed cable may not be used there: ask for ' +
      'UF-B or a raceway on this leg.',
    cites: 'nm-b-places',
    leg,
  });
}
