import type { z } from 'zod';
import { closed } from '../input-problems.ts';
import { BOUNDS, CONDUCTOR_SIZES, LINE_CLASSES, METALS, SCOPES, WIRING_METHODS } from '../vocabulary.ts';
import { basisPoints, cents, count, day, flag, listOf, oneOf, quantity, text } from './fields.ts';

const classes = () => listOf(oneOf(LINE_CLASSES), LINE_CLASSES.length, 'classes');
const scopes = () => listOf(oneOf(SCOPES), SCOPES.length, 'scopes');
const feet = (most: number) => quantity({ unit: 'feet', least: 0, most });
const percent = (standard: number) => quantity({ unit: 'percent', least: 0, most: 100 }).default(standard);

const Makeup = closed({
  panelFt: feet(50).default(5),
  boxFt: feet(20).default(1),
  outletFt: feet(20).default(1),
  wastePercent: closed({ cable: percent(5), conductor: percent(3), conduit: percent(5) }).prefault({}),
});
const Markup = closed({
  materialBp: basisPoints().default(0),
  laborBp: basisPoints().default(0),
  equipmentBp: basisPoints().default(0),
  feeBp: basisPoints().default(0),
});

const Incentive = closed({
  name: text(),
  kind: oneOf(['fixed', 'percent']),
  cents: cents().optional(),
  bp: basisPoints().optional(),
  capCents: cents().optional(),
  of: classes(),
  until: day().optional(),
  certain: flag().default(true),
}).superRefine((incentive, context) => {
  const field = incentive.kind === 'fixed' ? 'cents' : 'bp';
  if (incentive[field] !== undefined) return;
  context.addIssue({
    code: 'custom',
    path: [field],
    message: `must be stated of an incentive that is ${incentive.kind}`,
  });
});

/** Who does the work, how it is reckoned and what is added to the cost. Money in whole cents, shares in basis points. */
export const Terms = closed({
  who: oneOf(['contractor', 'owner']).default('contractor'),
  ownerDoes: scopes().default([]),
  ownerHourCents: cents().default(0),
  laborRate: text().optional(),
  laborRateIs: oneOf(['cost', 'billed']).default('cost'),
  crew: listOf(closed({ rate: text(), count: count('people', 1, 20) }), 10, 'members of the crew').optional(),
  crewSize: count('people', 1, 20).default(1),
  hoursPerDay: quantity({ unit: 'hours', more: 0, most: 24 }).default(8),
  travel: closed({
    minutesEachWay: quantity({ unit: 'minutes', least: 0, most: 600 }).default(30),
    milesEachWay: quantity({ unit: 'miles', least: 0, most: 500 }).default(15),
  }).prefault({}),
  minimumCents: cents().default(0),
  makeup: Makeup.prefault({}),
  offcuts: oneOf(['charged', 'stock']).default('charged'),
  markup: Markup.prefault({}),
  overheadBp: basisPoints().default(0),
  profitBp: basisPoints().default(0),
  profitOn: oneOf(['cost', 'price']).default('cost'),
  contingencyBp: basisPoints().default(0),
  discountCents: cents().default(0),
  taxBp: basisPoints().default(0),
  taxOn: classes().default(['material']),
  taxBase: oneOf(['cost', 'price']).default('cost'),
  incentives: listOf(Incentive, 40, 'incentives').default([]),
}).superRefine((terms, context) => {
  if (terms.profitOn !== 'price' || terms.profitBp < BOUNDS.maxBp) return;
  context.addIssue({
    code: 'custom',
    path: ['profitBp'],
    message: `must be below ${BOUNDS.maxBp} where profit is taken on the price, not ${terms.profitBp}`,
  });
});
export type Terms = z.output<typeof Terms>;

/** Something that the user adds to every option. `lowCents` and `highCents` are ends of the unit price. */
export const Extra = closed({
  description: text(),
  class: oneOf(LINE_CLASSES),
  scope: oneOf(SCOPES).default('other'),
  quantity: quantity({ unit: 'units', more: 0, most: 1_000_000 }),
  unit: text(),
  unitPriceCents: quantity({ unit: 'cents', least: 0, most: BOUNDS.maxCents }),
  lowCents: quantity({ unit: 'cents', least: 0, most: BOUNDS.maxCents }).optional(),
  highCents: quantity({ unit: 'cents', least: 0, most: BOUNDS.maxCents }).optional(),
  hours: quantity({ unit: 'hours', least: 0, most: 10_000 }).optional(),
}).superRefine((extra, context) => {
  const { lowCents, unitPriceCents, highCents } = extra;
  if (extra.quantity * (highCents ?? unitPriceCents) >= BOUNDS.maxCents) {
    context.addIssue({ code: 'custom', path: ['quantity'], message: 'must keep the sum below 100 million dollars' });
  }
  if (lowCents !== undefined && lowCents > unitPriceCents) {
    context.addIssue({
      code: 'custom',
      path: ['lowCents'],
      message: `must be at most unitPriceCents, ${unitPriceCents}`,
    });
  }
  if (highCents !== undefined && highCents < unitPriceCents) {
    context.addIssue({
      code: 'custom',
      path: ['highCents'],
      message: `must be at least unitPriceCents, ${unitPriceCents}`,
    });
  }
});
export type Extra = z.output<typeof Extra>;

/** Somebody else's quote: what it asks, what it covers, and what it says will be built. */
export const Bid = closed({
  from: text(),
  optionId: text(),
  totalCents: cents(),
  taxIncluded: flag().default(true),
  date: day().optional(),
  covers: scopes(),
  offers: closed({
    ocpdA: quantity({ unit: 'amperes', more: 0, most: 400 }).optional(),
    metal: oneOf(METALS).optional(),
    size: oneOf(CONDUCTOR_SIZES).optional(),
    method: oneOf(WIRING_METHODS).optional(),
    amps: quantity({ unit: 'amperes', least: BOUNDS.minChargingA, most: BOUNDS.maxChargingA }).optional(),
    gfci: flag().optional(),
    panelA: quantity({ unit: 'amperes', more: 0, most: 800 }).optional(),
  }).optional(),
});

/** How the car is driven, and what electricity costs. */
export const Driving = closed({
  cars: listOf(
    closed({
      milesPerDay: quantity({ unit: 'miles', least: 0, most: 1000 }),
      milesPerKwh: quantity({ unit: 'miles per kWh', more: 0, most: 20 }).default(3.5),
      parkedHours: quantity({ unit: 'hours', more: 0, most: 24 }),
      maxA: quantity({ unit: 'amperes', least: BOUNDS.minChargingA, most: 200 }).optional(),
    }),
    12,
    'cars',
  ).min(1, { error: 'must describe at least one car' }),
  later: count('cars', 0, 12).default(0),
  electricityCentsPerKwh: quantity({ unit: 'cents per kWh', least: 0, most: 1000 }).optional(),
});

/** The purchase of the house, for a buyer. */
export const Purchase = closed({
  closing: day().optional(),
  loan: closed({
    annualRateBp: basisPoints(),
    years: quantity({ unit: 'years', more: 0, most: 50 }),
  }),
});
