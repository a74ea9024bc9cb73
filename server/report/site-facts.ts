import type { EstimateOption } from '../estimate/answer.ts';
import type { Description } from '../estimate/description.ts';
import { counted, number } from './wording.ts';

const BUILDINGS = {
  attached: 'in an attached garage',
  detached: 'in a detached building',
  outdoor: 'outdoors',
} as const;

const SERVICE_FITS = {
  yes: 'carries it',
  no: 'does not carry it',
  depends: 'carries it or not, by the reading of the code',
  unknown: 'may not carry it: that is not known',
} as const;

/** The site as a few sentences, what is not known said as such. */
export function siteFacts({ site }: Description): string[] {
  const { service, start } = site;
  const built = site.yearBuilt === undefined ? 'The year of the house is not known' : `Built ${site.yearBuilt}`;
  const rating = service.ratingA === null ? 'service rating not known' : `${service.ratingA} A service`;
  const spaces = service.freeSpaces === null ? 'free spaces not known' : counted(service.freeSpaces, 'free space');
  return [
    `${built}; ${rating}, ${spaces}.`,
    `${site.work === 'retrofit' ? 'The car charges' : 'New construction; the car charges'} ${BUILDINGS[site.building]}.`,
    loadFacts(site.load),
    ...(start
      ? [
          `The route starts at a subpanel${start.feederA === null ? ' whose feeder is not known' : ` fed with ${start.feederA} A`}.`,
        ]
      : []),
    `Read by NEC ${site.code.edition}.`,
  ];
}

function loadFacts(load: Description['site']['load']): string {
  if (load.method === 'unknown') return 'What the house draws is not known.';
  if (load.method === 'measured')
    return `The house drew ${number(load.peakA, 1)} A at most in ${counted(load.days, 'day')}.`;
  return `Its load is listed: ${number(load.floorAreaFt2)} ft² and ${counted(load.appliances.length, 'appliance')}.`;
}

/** Can the service carry the option: `carries it: 148.8 of 200 A`. */
export function serviceVerdict({ service }: EstimateOption, { site }: Description): string {
  const verdict = SERVICE_FITS[service.fits];
  if (service.withA === undefined) return verdict;
  return `${verdict}: ${number(service.withA, 1)} ${site.service.ratingA === null ? 'A' : `of ${site.service.ratingA} A`}`;
}
