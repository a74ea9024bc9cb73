import { describe, expect, it } from 'vitest';
import { DEMO_PROJECT } from '../../db/demo.ts';
import { descriptionJsonSchema, readDescription, routeOf } from '../../server/estimate/description.ts';
import { InputError, type InputProblem } from '../../server/estimate/input-problems.ts';
import { soundDescription, withValue } from './description-example.ts';
import { REFUSALS } from './refusals.ts';

/** What is refused in an input; none when it is taken. */
function problemsIn(input: unknown): readonly InputProblem[] {
  try {
    readDescription(input);
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
}

describe('a description', () => {
  it('is taken when only what has no default is stated', () => {
    expect(problemsIn(soundDescription())).toEqual([]);
  });

  it('has its defaults filled in as the contract of names lists them', () => {
    const { site, options, terms, route } = readDescription(soundDescription());
    expect(site).toMatchObject({
      work: 'retrofit',
      hazards: null,
      existingSupply: 'none',
      ambientC: 30,
      temperatureSwingF: 100,
      code: { edition: '2023', nonmetallicCable: true, terminalsC: 75, chargerReading: 'both' },
    });
    expect(options[0]).toMatchObject({ metal: 'auto', maxDropPercent: 3, roughInOnly: false });
    expect(options[0]?.chargers[0]).toMatchObject({
      setting: 'label-and-restricted',
      terminals: 'copper',
      mount: 'wall',
      outdoors: false,
    });
    expect(terms).toMatchObject({
      who: 'contractor',
      laborRateIs: 'cost',
      crewSize: 1,
      hoursPerDay: 8,
      travel: { minutesEachWay: 30, milesEachWay: 15 },
      makeup: { panelFt: 5, boxFt: 1, outletFt: 1, wastePercent: { cable: 5, conductor: 3, conduit: 5 } },
      offcuts: 'charged',
      profitOn: 'cost',
      taxOn: ['material'],
      taxBase: 'cost',
    });
    expect(route[0]).toEqual({
      kind: 'joists',
      lengthFt: 30,
      riseFt: 0,
      method: 'auto',
      across: true,
      headroom: 'standing',
    });
    expect(route[1]).toMatchObject({ soil: ['loam'], dig: 'auto', traffic: 'foot', restore: true });
  });

  it('has nobody stand upright in a crawlspace unless that is said', () => {
    const crawlspace = (headroom?: string) =>
      readDescription({
        ...soundDescription(),
        route: [{ kind: 'crawlspace', lengthFt: 9, ...(headroom && { headroom }) }],
      }).route[0]?.headroom;
    expect(crawlspace()).toBe('crawling');
    expect(crawlspace('crouching')).toBe('crouching');
  });

  it('puts chargers outdoors, and a main breaker into the panel of another building, unless that is denied', () => {
    const subpanel = { ratingA: 100, spaces: 8 };
    const option = { ...soundDescription().options[0], feed: 'subpanel', subpanel };
    const read = (building: string, stated: object) =>
      readDescription({ ...soundDescription(), site: { ...soundDescription().site, building }, options: [stated] })
        .options[0];
    expect(read('outdoor', option)?.chargers[0]?.outdoors).toBe(true);
    expect(read('detached', option)?.subpanel?.mainBreaker).toBe(true);
    expect(read('attached', option)?.subpanel?.mainBreaker).toBe(false);
    expect(read('detached', { ...option, subpanel: { ...subpanel, mainBreaker: false } })?.subpanel?.mainBreaker).toBe(
      false,
    );
  });

  it('reads the same whether its route is a list or a line', () => {
    const line = { ...soundDescription(), route: '30 joists, 40 lawn-trench' };
    expect(readDescription(line)).toEqual(readDescription(soundDescription()));
  });

  it('comes back unchanged when what was read is read again', () => {
    const once = readDescription(DEMO_PROJECT.description);
    expect(readDescription(JSON.parse(JSON.stringify(once)))).toEqual(once);
  });

  it('may do without a route where nothing is run', () => {
    const receptacle = { circuitA: 20, sharedWith: [], gfci: true, grounded: true };
    const option = {
      id: 'a',
      label: 'The outlet that is there',
      feed: 'existing-receptacle',
      receptacle,
      chargers: [{ amps: 12, connection: 'receptacle-5-20', equipment: 'owned' }],
    };
    expect(problemsIn({ ...soundDescription(), route: [], options: [option] })).toEqual([]);
    expect(problemsIn({ ...soundDescription(), options: [{ ...option, receptacle: undefined }] })).toEqual([
      { path: 'options.0.receptacle', message: 'must be stated for the feed "existing-receptacle"' },
    ]);
  });

  it('lets an option follow a route of its own', () => {
    const stated = soundDescription();
    const own = withValue(stated, 'options.1.route', '12 attic');
    const description = readDescription(own);
    expect(description.options.map((option) => routeOf(description, option).map(({ kind }) => kind))).toEqual([
      ['joists', 'lawn-trench'],
      ['attic'],
    ]);
  });
});

describe('a mistake', () => {
  it.each(REFUSALS.map((refusal) => [refusal.title, refusal] as const))(
    'is answered with its path, its value and what is allowed: %s',
    (_title, { at, value, path, message }) => {
      expect(problemsIn(withValue(soundDescription(), at, value))).toContainEqual({ path, message });
    },
  );

  it('is named beside every other mistake of the same description', () => {
    const bad = withValue(withValue(soundDescription(), 'route.0.lengthFt', -5), 'title', 4);
    expect(problemsIn(bad).map(({ path }) => path)).toEqual(['title', 'route.0.lengthFt']);
  });

  it('is answered also where the description is no object', () => {
    const fields = 'title, asOf, site, route, options, chances, extras, driving, terms, purchase, bids';
    const message = `must be an object with ${fields}, not []`;
    expect(problemsIn([])).toEqual([{ path: '', message }]);
  });

  it('is answered in few words, however many there are', () => {
    const crowd = Object.fromEntries(Array.from({ length: 50_000 }, (_, at) => [`field${at}`, 0]));
    expect(problemsIn({ ...soundDescription(), ...crowd })).toHaveLength(100);
  });
});

describe('the JSON Schema', () => {
  const schema = JSON.stringify(descriptionJsonSchema());

  it('offers the line beside the list of legs, for the description and for each option', () => {
    expect(schema.split('A route line, such as')).toHaveLength(3);
  });

  it('offers one kind of soil beside the list, and refuses unknown fields as the reader does', () => {
    expect(schema).toContain(
      '{"type":"string","description":"One kind of soil: loam, clay, rocky, roots, frozen, wet."}',
    );
    expect(descriptionJsonSchema()).toMatchObject({ type: 'object', additionalProperties: false });
  });
});
