import type { Estimate, EstimateOption, Run, RunLeg } from '../../server/estimate/answer.ts';
import { readDescription } from '../../server/estimate/description.ts';
import { CIRCUIT_32, CIRCUIT_48, DESCRIPTION, ESTIMATE, PANEL_90 } from './fixture.ts';

/*
 * The answer of fixture.ts with every part that an answer can have. All of it is made up by hand: no program computed
 * it, so that what a paper prints of it can only have been read from here.
 */

const citation = { code: 'NEC', edition: '2023' as const, article: '300.5(B)' };
const OTHERS: RunLeg['others'] = [
  { method: 'rmc', moreCents: 21_450, because: 'Lawful here as well.' },
  { method: 'uf-b', because: 'Lawful here, but nothing of it is sold that would do.' },
  { method: 'nm-b', forbiddenBy: citation, because: 'NM-B may not lie in the ground.' },
];
const TASK_KEYS = ['task-dig-lawn', 'task-pull-outside', 'task-pour', 'task-charger'];

function withReasons(run: Run): Run {
  return {
    ...run,
    legs: run.legs.map((leg) => ({ ...leg, because: [`made up for leg ${leg.leg + 1}`], others: OTHERS })),
    terminations: [{ at: 'workshop', metal: 'aluminum', size: '2', compound: true }],
    runnersUp: [{ summary: 'the same in rigid steel', amountCents: 648_900 }],
    proof: { proven: false, gapCents: 12_300 },
  };
}

function fullOption(option: EstimateOption): EstimateOption {
  const tasks = option.lines
    .filter(({ key }) => TASK_KEYS.includes(key))
    .map(({ key, quantity, legs }) => ({
      key,
      quantity: quantity * 2,
      unit: 'ft',
      hoursPerUnit: 0.4,
      factor: 1.25,
      hours: quantity,
      legs,
      because: [`reckoned by hand for ${key}`],
    }));
  return {
    ...option,
    runs: option.runs.map(withReasons),
    later: { cents: 367_300, because: 'A feeder of 125 A pulled through the spare conduit later: $3,673.' },
    labor: { ...option.labor, tasks },
    range: {
      p10Cents: 700_000,
      p50Cents: 860_000,
      p90Cents: 1_210_000,
      likelyCents: option.totals.totalCents,
      because: ['half of all cases lie higher, for prices can rise further than they can fall'],
      shape: { fromCents: 600_000, stepCents: 50_000, shares: [0.05, 0.15, 0.25, 0.2, 0.05, 0.02, 0.08, 0.15, 0.05] },
      humps: [
        { chance: 0.72, p50Cents: 790_000 },
        { chance: 0.28, p50Cents: 1_150_000 },
      ],
      drivers: [{ name: 'lead-paint', lowCents: 810_000, highCents: 905_000 }],
      chances: [{ name: 'new-service', chance: 0.28, addsCents: 360_000, because: 'nobody has read the main breaker' }],
    },
    unknowns: [
      { path: 'site.service.ratingA', swingCents: 144_000, howToFindOut: 'read the handle', whoCanTell: 'you' },
      { path: 'route.2.lengthFt', swingCents: 15_200, howToFindOut: 'pace it twice', whoCanTell: 'you' },
      { path: 'site.hazards', swingCents: 9_900, howToFindOut: 'ask for reports', whoCanTell: 'inspector' },
      { path: 'site.load', swingCents: 0, howToFindOut: 'ask for the highest demand', whoCanTell: 'utility' },
    ],
    budget: {
      likelyCents: 860_000,
      planForCents: 1_210_000,
      monthlyCents: 5_436,
      monthlyPlanForCents: 7_648,
      totalInterestCents: 1_096_960,
      confidence: 'medium',
      because: [
        'Medium: eight of ten cases lie between $7,000 and $12,100, 59 % of the middle apart, and site.service.ratingA alone swings 17 %.',
        'Closing is 2026-06-01.',
      ],
      askSeller: ['May we see the permits of electrical work?'],
    },
    steps: [{ amps: 44, of: 'charging', differenceCents: -3_810, because: '44 A is the most on 6 AWG cable.' }],
    service: {
      method: 'measured',
      demandA: 88.75,
      addedA: 120,
      withA: 208.75,
      spareA: -8.75,
      fits: 'no',
      readings: [{ method: '220.87', reading: 'the charger in full, at 125 %', withA: 208.75, fits: false }],
      remedies: [
        { kind: 'lower-amps', amps: 40, differenceCents: -41_200, detail: 'at 40 A the service carries it' },
        { kind: 'service-upgrade', amps: 300, detail: 'the utility is waited for' },
      ],
    },
  };
}

/** The household of the fixture as a buyer would state it, with a bid that was received. */
export const FULL_DESCRIPTION = readDescription({
  ...DESCRIPTION,
  asOf: '2026-04-14',
  purchase: { closing: '2026-06-01', loan: { annualRateBp: 650, years: 30 } },
  options: DESCRIPTION.options.map((option) =>
    option.id === 'panel-90' ? { ...option, spareConduit: { toA: 125 } } : option,
  ),
  bids: [{ from: 'Larkspur Electric', optionId: 'panel-90', totalCents: 512_000, covers: ['wire', 'trench'] }],
});

/** All three options with every part of an answer. */
export const FULL: Estimate = {
  ...ESTIMATE,
  description: FULL_DESCRIPTION,
  options: [CIRCUIT_32, CIRCUIT_48, PANEL_90].map(fullOption),
  bids: [
    {
      from: 'Larkspur Electric',
      optionId: 'panel-90',
      totalCents: 512_000,
      levelledCents: 733_300,
      place: 'within',
      missing: ['permit', 'hard-surface'],
      findings: [
        {
          rule: 'bid-breaker',
          severity: 'caution',
          message: 'A breaker of 60 A was offered; 90 A were asked for.',
          citation: { ...citation, article: '625.41' },
          numbers: {},
        },
      ],
      questions: ['Who takes out the permit?'],
    },
  ],
  comparison: {
    ...ESTIMATE.comparison,
    rows: ESTIMATE.comparison.rows.map((row) =>
      row.option === 'panel-90'
        ? { ...row, overnight: { hours: 10, miles: 362.88, centsPerMile: 2291, because: 'made up' } }
        : row,
    ),
    crossings: {
      byDistance: [
        {
          lengthFt: 84.6,
          cheaperBelow: 'circuit-32',
          cheaperAbove: 'panel-90',
          totalCents: 861_200,
          isLeast: true,
          because: 'made up',
        },
      ],
      byAmps: [],
    },
    nowOrLater: [
      {
        option: 'panel-90',
        kind: 'spare-conduit',
        prepared: { nowCents: 831_500, laterCents: 367_300, sumCents: 1_198_800 },
        unprepared: { nowCents: 800_100, laterCents: 702_200, sumCents: 1_502_300 },
        savesCents: 303_500,
        because: 'The spare conduit adds $314 now; made up by hand.',
      },
    ],
    byDistance: [
      { lengthFt: 18, totals: { 'circuit-32': 611_100, 'panel-90': 788_800 } },
      { lengthFt: 36, totals: { 'circuit-32': 655_500, 'panel-90': 831_500 } },
      { lengthFt: 108, totals: { 'circuit-32': 812_200 } },
    ],
    byAmps: [
      { amps: 16, totals: { 'circuit-32': 598_700, 'panel-90': 801_300 } },
      { amps: 48, totals: { 'circuit-32': 640_600, 'panel-90': 831_500 } },
    ],
  },
};

/** What every output that shows all of an option says of it, wherever it breaks its lines. */
export const SAID_OF_IT = [
  // why each leg is so, and why not otherwise
  'Made up for leg 3.',
  'Rigid steel: $215 more.',
  'UF-B cable: lawful here, but nothing of it is sold that would do.',
  'Forbidden here: NM-B cable.',
  'Legs 1–6: NM-B may not lie in the ground (NEC 2023, 300.5(B)).',
  // proof and runners-up: 123.00 is less than the fixture's cost of the work, 6,203.93
  'Another lawful plan could save $123 at most; that none saves anything is not proven.',
  'The same in rigid steel',
  '$6,489',
  // range
  '$7,000 to $12,100, half of the time below $8,600',
  'Half of all cases lie higher, for prices can rise further than they can fall.',
  'not one price with a margin but 2: about $7,900 with a chance of 72 %, about $11,500 with a chance of 28 %',
  'ead paint',
  '$8,100',
  '$9,050',
  'New service',
  '28 %',
  '$3,600 more',
  // unknowns
  'Rating of the service',
  '$1,440',
  'Read the handle.',
  'Length of leg 3, lawn',
  // service, remedies, steps, later
  '208.8 A',
  'Charge with less, 40 A',
  '$412 less',
  'A larger service, 300 A',
  'not priced',
  'Charging, 44 A',
  '$38 less',
  'Later: $3,673, not in the total',
  // now against later
  'Once or twice',
  'The spare conduit adds $314 now; made up by hand.',
  'Twice, without it',
  '$15,023',
  // comparison and bid
  'The price by distance',
  '$8,122',
  'The price by amperes of charging',
  'From about 85 ft on “Panel in the workshop, 90 A” is the cheapest, before it “One circuit, 32 A”; there both cost $8,612.',
  'No two of the lines cross: what costs less does so all along.',
  '$22.91 for each of 363 miles in 10 h',
  '$7,333',
  'It does not say that it covers: permit and inspections, hard surfaces.',
  'A breaker of 60 A was offered; 90 A were asked for. (NEC 2023, 625.41)',
  'To ask: Who takes out the permit?',
  // breakers, terminations, grounding, tasks, visits
  'Main breaker of 100 A, workshop.',
  'brushed, with compound',
  '2 ground rods, on 6 AWG copper',
  'eckoned by hand for task-dig-lawn',
  '1.25',
  'the inspector for the open ditch, 1 day (before the ditch is filled)',
  // the skyline in figures: leg 6 and both ends
  'Both ends and the whole job',
];
