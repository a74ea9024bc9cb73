import type { Description } from '../estimate/description.ts';
import { readDescription } from '../estimate/description.ts';
import { InputError } from '../estimate/input-problems.ts';
import { UsageError } from './usage-error.ts';

/** A job in one line of the terminal, as it was typed. */
export interface OneLineForm {
  route: string;
  feed?: string | undefined;
  charger?: string | undefined;
  building?: string | undefined;
  service?: string | undefined;
}

/** Ratings of panels that are sold, in amperes: common practice, no source. The first that carries the feeder. */
const PANEL_RATINGS_A = [100, 125, 150, 200, 225, 400];
/** Spaces of the panel that `--feed` asks for. */
const PANEL_SPACES = 12;

/** Which word of the command line a field came from. */
const OPTION_OF_PATH: Readonly<Record<string, string>> = {
  route: '--route',
  'site.building': '--building',
  'site.service.ratingA': '--service',
  'options.0.chargers.0.amps': '--charger',
  'options.0.subpanel.feederA': '--feed',
};

/**
 * Makes a description of the one-line form: detached building and unknown service unless stated, a charger that is
 * wired in and owned already.
 * @throws {UsageError} for words that cannot be read; {InputError} with the name of the option that is at fault
 */
export function descriptionOfLine({ route, feed, charger, building, service }: OneLineForm): Description {
  if (charger === undefined && feed === undefined) {
    throw new UsageError('--charger must be stated, such as --charger 48A; only with --feed may it be left out.');
  }
  const amps = charger === 'largest' ? charger : amperes('--charger', charger);
  const chargers = amps === undefined ? [] : [{ amps, connection: 'hardwired', equipment: 'owned' }];
  try {
    return readDescription({
      title: `Route line: ${route}`.slice(0, 500),
      site: {
        building: building ?? 'detached',
        service: { ratingA: amperes('--service', service) ?? null, freeSpaces: null },
        load: { method: 'unknown' },
      },
      route,
      options: [feed === undefined ? circuitOf({ amps, chargers }) : panelOf({ feed, building, chargers })],
    });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(error.problems.map(({ path, message }) => ({ path: OPTION_OF_PATH[path] ?? path, message })));
  }
}

function circuitOf({ amps, chargers }: { amps: unknown; chargers: unknown[] }) {
  return { id: 'circuit', label: `One circuit, ${amps} A`, feed: 'dedicated-circuit', chargers };
}

function panelOf({ feed, building, chargers }: { feed: string; building: string | undefined; chargers: unknown[] }) {
  const feederA = amperes('--feed', feed) ?? 0;
  return {
    id: 'panel',
    label: `Subpanel, ${feederA} A`,
    feed: 'subpanel',
    chargers,
    subpanel: {
      ratingA: PANEL_RATINGS_A.find((ratingA) => ratingA >= feederA) ?? feederA,
      spaces: PANEL_SPACES,
      feederA,
      enclosure: building === 'outdoor' ? 'outdoor' : 'indoor',
    },
  };
}

/** Reads `48A` or `48`. */
function amperes(option: string, typed: string | undefined): number | undefined {
  if (typed === undefined) return undefined;
  const digits = /^(\d+(?:\.\d+)?)\s*A?$/i.exec(typed.trim())?.[1];
  if (digits !== undefined) return Number(digits);
  throw new UsageError(`${option} must be amperes, such as 48A, not "${typed}".`);
}
