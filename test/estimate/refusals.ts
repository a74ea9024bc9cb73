import { circuit } from './description-example.ts';

/** One mistake: what is put where in the sound description, and the path and whole message that answer it. */
export interface Refusal {
  title: string;
  at: string;
  value: unknown;
  path: string;
  message: string;
}

const KINDS =
  'joists, finished-ceiling, finished-wall, crawlspace, attic, interior-surface, exterior-wall, under-deck, ' +
  'lawn-trench, gravel-trench, planting-bed, concrete-cut, asphalt-cut, pavers-lift, bore, overhead-span, existing-raceway';
const SCOPES =
  'wire, conduit, boxes, panel, breaker, outlet, charger, trench, hard-surface, restoration, grounding, permit, ' +
  'service-upgrade, load-management, travel, other';
const FEET = 'must be a number of feet, more than 0 and at most 3000';

/** Builds a refusal whose problem stands where the mistake was made. */
const here = (title: string, at: string, value: unknown, message: string): Refusal => ({
  title,
  at,
  value,
  path: at,
  message,
});

/** A refusal whose problem stands deeper than the value that was put in. */
const inside = (path: string, refusal: Refusal): Refusal => ({ ...refusal, path });

/** Mistakes in the parts of a description, each with its whole message; the bounds are those that the contract of names gives. */
export const REFUSALS: readonly Refusal[] = [
  here('a negative length', 'route.0.lengthFt', -5, `${FEET}, not -5`),
  here('a length of nothing', 'route.1.lengthFt', 0, `${FEET}, not 0`),
  here('a length beyond reason', 'route.0.lengthFt', 1_000_000_000, `${FEET}, not 1000000000`),
  here('a length without end', 'route.0.lengthFt', Number.POSITIVE_INFINITY, `${FEET}, not Infinity`),
  here('the first foot too many', 'route.0.lengthFt', 3001, `${FEET}, not 3001`),
  here(
    'a length in words',
    'route.0.lengthFt',
    'thirty',
    'must be a number of feet, such as 41 or 12.5, or { low, likely, high }, not "thirty"',
  ),
  inside(
    'route.0.lengthFt.high',
    here('a guess out of bounds', 'route.0.lengthFt', { low: 10, likely: 20, high: 4000 }, `${FEET}, not 4000`),
  ),
  inside(
    'route.0.lengthFt.low',
    here(
      'a guess that falls',
      'route.0.lengthFt',
      { low: 10, likely: 8, high: 20 },
      'must rise from low over likely to high, not 10, 8, 20',
    ),
  ),
  inside(
    'route.0.lengthFt.hihg',
    here(
      'a guess with a field misspelt',
      'route.0.lengthFt',
      { low: 10, likely: 12, high: 20, hihg: 20 },
      'is not a field that is known here ("hihg"); did you mean "high"?',
    ),
  ),
  here('a kind that is none', 'route.1.kind', 'moat', `must be one of ${KINDS}, not "moat"`),
  here(
    'a misspelt field',
    'route.0.lenghtFt',
    30,
    'is not a field that is known here ("lenghtFt"); did you mean "lengthFt"?',
  ),
  here(
    'a field of another program',
    'budget',
    5,
    'is not a field that is known here ("budget"); allowed are title, asOf, site, route, options, chances, extras, ' +
      'driving, terms, purchase, bids',
  ),
  here(
    'a misspelt field of the site',
    'site.exisitingSupply',
    'none',
    'is not a field that is known here ("exisitingSupply"); did you mean "existingSupply"?',
  ),
  here('an empty route', 'route', [], 'must have at least one leg from the panel to the car'),
  here('an empty route line', 'route', '   ', 'must have at least one leg from the panel to the car'),
  here('a route of another type', 'route', 7, 'must be a list of legs, not 7'),
  here(
    'sixty-one legs',
    'route',
    Array.from({ length: 61 }, () => ({ kind: 'joists', lengthFt: 1 })),
    'must hold at most 60 legs, not 61',
  ),
  here('sixty-one legs in a line', 'route', `${'1 joists, '.repeat(60)}1 joists`, 'must hold at most 60 legs, not 61'),
  here(
    'a route line with words between',
    'route',
    '30 joists, some lawn-trench',
    'leg 2: "some" is not a length in feet, such as 41, 12.5 or the guess 24..27..32',
  ),
  here('a route line with a negative length', 'route', '30 joists, -4 lawn-trench', `leg 2: lengthFt ${FEET}, not -4`),
  inside(
    'options.0.route.0.lengthFt',
    here('a bad leg of an option', 'options.0.route', [{ kind: 'joists', lengthFt: -3 }], `${FEET}, not -3`),
  ),
  here(
    'a bad line of an option',
    'options.0.route',
    '30 joist, 3 lawn-trench cley',
    'leg 1: "joist" is not understood; did you mean "joists"?; leg 2: "cley" is not understood; did you mean "clay"?',
  ),
  here(
    'a kind of soil that is none',
    'route.1.soil',
    'lava',
    'must be one of loam, clay, rocky, roots, frozen, wet, not "lava"',
  ),
  inside(
    'route.1.soil.1',
    here(
      'one bad soil of two',
      'route.1.soil',
      ['clay', 'lava'],
      'must be one of loam, clay, rocky, roots, frozen, wet, not "lava"',
    ),
  ),
  inside(
    'route.1.crossings.0.what',
    here(
      'a crossing that is none',
      'route.1.crossings',
      [{ what: 'lava' }],
      'must be one of gas, water, sewer, irrigation, communications, private-electric, tree-root-zone, not "lava"',
    ),
  ),
  inside(
    'route.0.tradeSize',
    here(
      'a raceway without its size',
      'route.0',
      { kind: 'existing-raceway', lengthFt: 20, type: 'emt' },
      'must be stated of an existing raceway: one of 1/2, 3/4, 1, 1-1/4, 1-1/2, 2, 2-1/2, 3, 3-1/2, 4',
    ),
  ),
  here('no options', 'options', [], 'must hold at least one option'),
  here(
    'thirteen options',
    'options',
    Array.from({ length: 13 }, (_, at) => circuit(`o${at}`, 48)),
    'must hold at most 12 options, not 13',
  ),
  here('two options of one id', 'options.1.id', 'a', 'must be unique; "a" is the id of an earlier option'),
  here(
    'a feed that is none',
    'options.0.feed',
    'magic',
    'must be one of existing-receptacle, dedicated-circuit, subpanel, not "magic"',
  ),
  inside(
    'options.0.subpanel',
    here('a subpanel feed without its panel', 'options.0.feed', 'subpanel', 'must be stated for the feed "subpanel"'),
  ),
  here(
    'a panel on a circuit',
    'options.0.subpanel',
    { ratingA: 100, spaces: 8 },
    'must be left out for the feed "dedicated-circuit": only the feed "subpanel" has one',
  ),
  here(
    'a circuit without a charger',
    'options.0.chargers',
    [],
    'must name at least one charger for the feed "dedicated-circuit"; only a subpanel may do without',
  ),
  here(
    'nine chargers',
    'options.0.chargers',
    Array.from({ length: 9 }, () => ({ amps: 16, connection: 'hardwired', equipment: 'owned' })),
    'must hold at most 8 chargers, not 9',
  ),
  ...[0, 5, 81, 10_000].map((amps) =>
    here(
      `${amps} A of charging`,
      'options.0.chargers.0.amps',
      amps,
      `must be a number of amperes, at least 6 and at most 80, not ${amps}`,
    ),
  ),
  here(
    'charging in words',
    'options.0.chargers.0.amps',
    'biggest',
    'must be 6 to 80 amperes, or "largest", not "biggest"',
  ),
  here(
    'a drop of nothing',
    'options.0.maxDropPercent',
    0,
    'must be a number of percent, more than 0 and at most 20, not 0',
  ),
  here(
    'a part of a cent',
    'terms.discountCents',
    10.5,
    'must be a whole number of cents, at least 0 and at most 10000000000, not 10.5',
  ),
  here(
    'a discount below nothing',
    'terms.discountCents',
    -1,
    'must be a whole number of cents, at least 0 and at most 10000000000, not -1',
  ),
  inside(
    'terms.markup.laborBp',
    here(
      'a markup below nothing',
      'terms.markup',
      { laborBp: -500 },
      'must be a whole number of basis points (100 are one percent), at least 0 and at most 10000, not -500',
    ),
  ),
  here(
    'an overhead above all',
    'terms.overheadBp',
    10_001,
    'must be a whole number of basis points (100 are one percent), at least 0 and at most 10000, not 10001',
  ),
  here('a class that is none', 'terms.taxOn.1', 'love', 'must be one of material, labor, equipment, fee, not "love"'),
  inside(
    'terms.ownerDoes.1',
    here(
      'an owner who does what is no scope',
      'terms.ownerDoes',
      ['trench', 'sleeping'],
      `must be one of ${SCOPES}, not "sleeping"`,
    ),
  ),
  inside(
    'site.code.edition',
    here('an edition that is none', 'site.code', { edition: '1999' }, 'must be one of 2020, 2023, 2026, not "1999"'),
  ),
  inside(
    'site.code.terminalsC',
    here('terminals of 90 °C', 'site.code', { terminalsC: 90 }, 'must be 60 or 75 degrees Celsius, not 90'),
  ),
  ...[0, 801].map((ratingA) =>
    here(
      `a service of ${ratingA} A`,
      'site.service.ratingA',
      ratingA,
      `must be a number of amperes, at least 30 and at most 800, not ${ratingA}`,
    ),
  ),
  here(
    'a day that does not exist',
    'asOf',
    '2026-02-30',
    'must be a day that exists, such as 2026-03-02, not "2026-02-30"',
  ),
  here('a title of 501 characters', 'title', 'x'.repeat(501), 'must have at most 500 characters, not 501'),
  here('a blank title', 'title', ' ', 'must not be empty'),
  here('no title', 'title', undefined, 'must be a text, not nothing'),
  inside(
    'bids.0.optionId',
    here(
      'a bid on no option',
      'bids',
      [{ from: 'the first electrician', optionId: 'z', totalCents: 400_000, covers: ['wire'] }],
      'must be the id of an option (a, b), not "z"',
    ),
  ),
];
