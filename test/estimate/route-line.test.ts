import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Leg } from '../../server/estimate/description/leg.ts';
import { parseRouteLine, printRouteLine, RouteLineError } from '../../server/estimate/route-line.ts';
import {
  CONDUCTOR_SIZES,
  CROSSINGS,
  DIGS,
  FINISHES,
  HEADROOMS,
  LEG_KINDS,
  RACEWAY_PLACES,
  RACEWAY_TYPES,
  REINFORCEMENTS,
  REPLACES,
  SOILS,
  TRADE_SIZES,
  TRAFFICS,
  WALLS,
  WIRING_METHODS,
} from '../../server/estimate/vocabulary.ts';

const refusalOf = (line: string): string => {
  try {
    parseRouteLine(line);
  } catch (error) {
    if (error instanceof RouteLineError) return error.message;
    throw error;
  }
  return 'not refused';
};

/** Lines by the written form (ours), with the legs that they state. */
const READ: [string, Record<string, unknown>[]][] = [
  ['', []],
  ['35 joists', [{ kind: 'joists', lengthFt: 35 }]],
  [
    '  35   joists,12.5 under-deck ',
    [
      { kind: 'joists', lengthFt: 35 },
      { kind: 'under-deck', lengthFt: 12.5 },
    ],
  ],
  ['41 lawn-trench clay', [{ kind: 'lawn-trench', lengthFt: 41, soil: ['clay'] }]],
  ['41 lawn-trench clay wet hand', [{ kind: 'lawn-trench', lengthFt: 41, soil: ['clay', 'wet'], dig: 'hand' }]],
  ['24..27..32 lawn-trench', [{ kind: 'lawn-trench', lengthFt: { low: 24, likely: 27, high: 32 } }]],
  [
    '9 concrete-cut 4in rebar vehicle',
    [{ kind: 'concrete-cut', lengthFt: 9, thicknessIn: 4, reinforcement: 'rebar', traffic: 'vehicle' }],
  ],
  ['9 concrete-cut reinforcement=unknown', [{ kind: 'concrete-cut', lengthFt: 9, reinforcement: null }]],
  ['8 crawlspace crouching', [{ kind: 'crawlspace', lengthFt: 8, headroom: 'crouching' }]],
  ['8 bore gas water', [{ kind: 'bore', lengthFt: 8, crossings: [{ what: 'gas' }, { what: 'water' }] }]],
  ['8 bore crossings=gas', [{ kind: 'bore', lengthFt: 8, crossings: [{ what: 'gas' }] }]],
  [
    '8 bore crossings="gas 2, water"',
    [{ kind: 'bore', lengthFt: 8, crossings: [{ what: 'gas', count: 2 }, { what: 'water' }] }],
  ],
  [
    '30 existing-raceway pvc-40 1-1/4 underground occupiedBy="thwn-2 10 3, bare 10 1"',
    [
      {
        kind: 'existing-raceway',
        lengthFt: 30,
        type: 'pvc-40',
        tradeSize: '1-1/4',
        place: 'underground',
        occupiedBy: [
          { insulation: 'thwn-2', size: '10', count: 3 },
          { insulation: 'bare', size: '10', count: 1 },
        ],
      },
    ],
  ],
  [
    '30 existing-raceway type=emt tradeSize=2',
    [{ kind: 'existing-raceway', lengthFt: 30, type: 'emt', tradeSize: '2' }],
  ],
  [
    '6 interior-surface method=emt ambientC=-5 riseFt=.5',
    [{ kind: 'interior-surface', lengthFt: 6, method: 'emt', ambientC: -5, riseFt: 0.5 }],
  ],
  [
    '6 joists across=false note="past the \\"blue\\" pipe, then down"',
    [{ kind: 'joists', lengthFt: 6, across: false, note: 'past the "blue" pipe, then down' }],
  ],
  ['6 joists note=a=b', [{ kind: 'joists', lengthFt: 6, note: 'a=b' }]],
];

/** Mistakes with the whole message that answers them. */
const REFUSED: [string, string][] = [
  ['30 joists, some lawn-trench', 'leg 2: "some" is not a length in feet, such as 41, 12.5 or the guess 24..27..32'],
  ['24..27 attic', 'leg 1: "24..27" is not a length in feet, such as 41, 12.5 or the guess 24..27..32'],
  ['5 joist', 'leg 1: "joist" is not understood; did you mean "joists"?'],
  ['5 crawl', 'leg 1: "crawl" is not understood; did you mean "crawlspace"?'],
  [
    '5 moat',
    'leg 1: "moat" is not a kind of leg; they are joists, finished-ceiling, finished-wall, crawlspace, attic, ' +
      'interior-surface, exterior-wall, under-deck, lawn-trench, gravel-trench, planting-bed, concrete-cut, asphalt-cut, ' +
      'pavers-lift, bore, overhead-span, existing-raceway',
  ],
  [
    '5 attic, , 6 attic',
    'leg 2: there is nothing between the commas; write a length and a kind, such as 41 lawn-trench',
  ],
  ['5 attic,', 'leg 2: there is nothing between the commas; write a length and a kind, such as 41 lawn-trench'],
  ['5 lawn-trench cley', 'leg 1: "cley" is not understood; did you mean "clay"?'],
  ['5 lawn-trench quicksilver', 'leg 1: "quicksilver" is not a word that is known here'],
  [
    '5 lawn-trench cley, 4 concrete-cut rebat',
    'leg 1: "cley" is not understood; did you mean "clay"?; leg 2: "rebat" is not understood; did you mean "rebar"?',
  ],
  ['5 interior-surface emt', 'leg 1: "emt" has two meanings; write method=emt or type=emt'],
  ['5 existing-raceway pvc-40 2', 'leg 1: "2" may count many things; write tradeSize=2, or 2in for a thickness'],
  ['5 lawn-trench hand trencher', 'leg 1: dig is stated twice, as hand and as trencher'],
  ['5 lawn-trench coverIn=deep', 'leg 1: coverIn must be a number, not "deep"'],
  ['5 joists across=yes', 'leg 1: across must be true or false, not "yes"'],
  ['5 joists method=pvd', 'leg 1: "pvd" is not understood; did you mean "pvc"?'],
  ['5 joists headroom=lying', 'leg 1: "lying" is no headroom; it is one of standing, crouching, crawling'],
  ['5 bore coverin=24', 'leg 1: "coverin" is not understood; did you mean "coverIn"?'],
  ['5 bore note="abc', 'leg 1: the quotes of note="abc are not closed or hold a broken escape'],
  [
    '5 bore crossings="gas two"',
    'leg 1: crossings must be items of the form NAME COUNT, such as "gas 2", between commas, not "gas two"',
  ],
  [
    '5 existing-raceway occupiedBy="thwn-2 7 1"',
    'leg 1: occupiedBy must be items of the form INSULATION SIZE COUNT, such as "thwn-2 6 3", between commas, not "thwn-2 7 1"',
  ],
];

/** Lines that are printed as they were read, and ones whose defaults fall away. */
const PRINTED: [string, string][] = [
  [
    '35 joists, 12 under-deck, 41 lawn-trench clay, 9 concrete-cut',
    '35 joists, 12 under-deck, 41 lawn-trench clay, 9 concrete-cut',
  ],
  ['9 concrete-cut 4in loam hand', '9 concrete-cut hand'],
  ['9 joists 4in', '9 joists 4in'],
  ['8 crawlspace crawling, 8 crawlspace standing', '8 crawlspace, 8 crawlspace standing'],
  ['8 bore crossings="gas, water"', '8 bore gas water'],
  ['8 bore crossings="gas 2, water 1"', '8 bore crossings="gas 2, water"'],
  ['1e1 attic riseFt=0 method=auto', '10 attic'],
];

describe('a route line', () => {
  it.each(READ)('states its legs: %s', (line, legs) => {
    expect(parseRouteLine(line)).toEqual(legs);
  });

  it.each(REFUSED)('names the words that it does not understand: %s', (line, message) => {
    expect(refusalOf(line)).toBe(message);
  });

  it.each(PRINTED)('is printed without defaults: %s', (line, printed) => {
    expect(printRouteLine(parseRouteLine(line))).toBe(printed);
  });

  it('is refused in a message of some length only, however long it is', () => {
    const bad = Array.from({ length: 60 }, () => '5 attic x y').join(', ');
    expect(refusalOf(bad)).toMatch(/; and 100 more like these$/); // 60 legs with 2 words each, of which 20 are named
  });
});

const feet = fc.double({ min: 1e-9, max: 3000, noNaN: true });
const guess = fc.tuple(feet, feet, feet).map((points) => {
  const [low, likely, high] = points.sort((a, b) => a - b);
  return { low, likely, high };
});
const amount = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((value) => value + 0); // no -0
const one = <Word>(words: readonly Word[]) => fc.constantFrom(...words);
const words = fc.string({ unit: 'binary', minLength: 1, maxLength: 60 }).filter((text) => /\S/.test(text));
const crossing = fc.record({ what: one(CROSSINGS), count: fc.integer({ min: 1, max: 50 }) });
const occupant = fc.record({
  insulation: one(['thwn-2', 'xhhw-2', 'use-2', 'bare'] as const),
  size: one(CONDUCTOR_SIZES),
  count: fc.integer({ min: 1, max: 60 }),
});
const raceway = { type: one(RACEWAY_TYPES), tradeSize: one(TRADE_SIZES) };
const special = {
  riseFt: amount(0, 200),
  method: one(['auto', ...WIRING_METHODS] as const),
  across: fc.boolean(),
  headroom: one(HEADROOMS),
  through: one(WALLS),
  soil: fc.array(one(SOILS), { minLength: 1, maxLength: 6 }),
  crossings: fc.array(crossing, { maxLength: 4 }),
  coverIn: amount(0.1, 120),
  dig: one(DIGS),
  thicknessIn: amount(0.1, 24),
  widthIn: amount(4, 60),
  restore: fc.boolean(),
  replace: one(REPLACES),
  finish: one(FINISHES),
  reinforcement: one([...REINFORCEMENTS, null]),
  traffic: one(TRAFFICS),
  bendsDeg: amount(0, 3600),
  ambientC: amount(-40, 80),
  note: words,
  ...raceway,
  occupiedBy: fc.array(occupant, { maxLength: 4 }),
  place: one(RACEWAY_PLACES),
};
const plainLeg = fc.record(
  { kind: one(LEG_KINDS.filter((kind) => kind !== 'existing-raceway')), lengthFt: fc.oneof(feet, guess), ...special },
  { requiredKeys: ['kind', 'lengthFt'] },
);
const racewayLeg = fc.record(
  { ...special, kind: fc.constant('existing-raceway' as const), lengthFt: fc.oneof(feet, guess) },
  { requiredKeys: ['kind', 'lengthFt', 'type', 'tradeSize'] },
);
const legs = fc.array(fc.oneof(plainLeg, racewayLeg), { maxLength: 6 });

describe('every route', () => {
  it('reads back from its line as it was stated', () => {
    fc.assert(
      fc.property(legs, (stated) => {
        const read = parseRouteLine(printRouteLine(stated)).map((leg) => Leg.parse(leg));
        expect(read).toEqual(stated.map((leg) => Leg.parse(leg)));
      }),
      { numRuns: 500 },
    );
  });

  it('has one line only: printing what was read from it prints it again', () => {
    fc.assert(
      fc.property(legs, (stated) => {
        const line = printRouteLine(stated.map((leg) => Leg.parse(leg)));
        expect(printRouteLine(parseRouteLine(line))).toBe(line);
      }),
      { numRuns: 500 },
    );
  });
});
