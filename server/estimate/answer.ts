import { z } from 'zod';
import {
  CONDUCTOR_SIZES,
  EDITIONS,
  LINE_CLASSES,
  METALS,
  RACEWAY_TYPES,
  SCOPES,
  TRADE_SIZES,
  WIRING_METHODS,
} from './vocabulary.ts';

/*
 * The shape of an estimate. What an estimate says is described here once: the OpenAPI document, the page's types and
 * the papers all come from it. Money is whole cents, lengths are feet, depths inches, indices count from 0.
 */

const cents = z.int();
const because = z.array(z.string());
const legs = z.array(z.int().nonnegative());
const Metal = z.enum(METALS);
const Size = z.enum(CONDUCTOR_SIZES);
const TradeSize = z.enum(TRADE_SIZES);

/** Where a rule stands in the code, as data, so that each edition prints its own number. */
export const Citation = z.object({ code: z.string(), edition: z.enum(EDITIONS), article: z.string() });
export type Citation = z.output<typeof Citation>;

export const SEVERITIES = ['ok', 'note', 'caution', 'stop'] as const;
/** One check of a rule, with its numbers. */
export const Finding = z.object({
  rule: z.string(),
  severity: z.enum(SEVERITIES),
  message: z.string(),
  citation: Citation.optional(),
  numbers: z.record(z.string(), z.union([z.number(), z.string(), z.boolean()])),
  leg: z.int().nonnegative().optional(),
  run: z.string().optional(),
});
export type Finding = z.output<typeof Finding>;

/** What a method that was not used on a leg is forbidden by, or would cost more. */
const OtherMethod = z.object({
  method: z.enum(WIRING_METHODS),
  forbiddenBy: Citation.optional(),
  moreCents: cents.optional(),
  because: z.string(),
});

/** One leg of a run, as it will be built. */
export const RunLeg = z.object({
  leg: z.int().nonnegative(),
  method: z.enum(WIRING_METHODS),
  insulation: z.enum(['nm-b', 'uf-b', 'ser', 'thwn-2', 'xhhw-2', 'use-2']),
  conduit: z.object({ type: z.enum(RACEWAY_TYPES), tradeSize: TradeSize, fillPercent: z.number() }).optional(),
  coverIn: z.number().optional(),
  because,
  others: z.array(OtherMethod),
});
export type RunLeg = z.output<typeof RunLeg>;

const Wire = z.object({
  use: z.enum(['ungrounded', 'neutral', 'ground', 'cable']),
  metal: Metal,
  size: Size,
  insulation: z.string(),
  count: z.int().positive(),
  cutLengthFt: z.number(),
  legs,
});
export type Wire = z.output<typeof Wire>;

const Breaker = z.object({
  ocpdA: z.number(),
  poles: z.int(),
  spaces: z.int(),
  kind: z.enum(['standard', 'gfci']),
  because,
});
const Disconnect = z.object({
  at: z.string(),
  ratingA: z.number(),
  kind: z.enum(['main-breaker', 'non-fused-switch', 'breaker-lock']),
  because,
});
const Conductor = z.object({ metal: Metal, size: Size, ampacityA: z.number() });
const Termination = z.object({ at: z.string(), metal: Metal, size: Size, compound: z.boolean() });

/** One set of conductors with its overcurrent device, as planned. Loads before the 125 % of continuous ones. */
export const Run = z.object({
  name: z.string(),
  role: z.enum(['feeder', 'branch-circuit']),
  from: z.string(),
  to: z.string(),
  lengthFt: z.number(),
  lengthRangeFt: z.object({ low: z.number(), high: z.number() }).optional(),
  loadA: z.number(),
  continuousA: z.number(),
  ocpdA: z.number(),
  poles: z.int(),
  breaker: Breaker,
  neutral: z.boolean(),
  separateNeutral: z.boolean(),
  disconnect: Disconnect.optional(),
  /** What lands at its end: along all of the run, unless it begins as something else. */
  conductor: Conductor,
  /** Where metal or size change at one splice: what the run is until there, along which legs. */
  begins: z.object({ conductor: Conductor, until: z.string(), legs }).optional(),
  neutralSize: Size.optional(),
  groundSize: Size,
  terminations: z.array(Termination),
  wire: z.array(Wire),
  legs: z.array(RunLeg),
  dropPercent: z.number(),
  dropV: z.number(),
  runnersUp: z.array(z.object({ summary: z.string(), amountCents: cents })),
  proof: z.object({ proven: z.boolean(), gapCents: cents }),
});
export type Run = z.output<typeof Run>;

export const Grounding = z.object({
  electrodes: z.array(z.object({ kind: z.string(), count: z.int().positive() })),
  conductorSize: Size,
  because,
});
export type Grounding = z.output<typeof Grounding>;

/** One priced row. `amountCents` is quantity × unit price, rounded once; a line without a price has neither. */
export const Line = z.object({
  key: z.string(),
  description: z.string(),
  class: z.enum(LINE_CLASSES),
  scope: z.enum(SCOPES),
  quantity: z.number(),
  unit: z.string(),
  unitPriceCents: z.number(),
  amountCents: cents,
  lowCents: cents,
  highCents: cents,
  package: z.object({ size: z.number(), unit: z.string() }).optional(),
  taken: z.number(),
  takenUnit: z.string(),
  leftOver: z.number(),
  hours: z.number().optional(),
  legs,
  priced: z.boolean(),
  stale: z.boolean(),
  because,
});
export type Line = z.output<typeof Line>;

const Task = z.object({
  key: z.string(),
  quantity: z.number(),
  /** So much of the unit lies there, where hours are reckoned for more or less of it: a deeper ditch, a thicker slab. */
  inPlace: z.number().optional(),
  unit: z.string(),
  hoursPerUnit: z.number(),
  factor: z.number(),
  hours: z.number(),
  legs,
  because,
});
export type Task = z.output<typeof Task>;
export const VISIT_REASONS = ['work', 'trench-inspection', 'rough-inspection', 'final-inspection', 'utility'] as const;
const Visit = z.object({ why: z.enum(VISIT_REASONS), days: z.number(), because });
export type Visit = z.output<typeof Visit>;

/** Person-hours, the days they take the crew, and who comes when. */
export const Labor = z.object({
  hours: z.number(),
  workingDays: z.number(),
  ownerHours: z.number(),
  tasks: z.array(Task),
  visits: z.array(Visit),
});
export type Labor = z.output<typeof Labor>;

const ScheduleStep = z.object({ step: z.string(), workDays: z.number(), waitDays: z.number(), because });
export type ScheduleStep = z.output<typeof ScheduleStep>;

/** Every total follows from the lines and the terms, to the cent. */
export const Totals = z.object({
  materialCents: cents,
  laborCents: cents,
  equipmentCents: cents,
  feeCents: cents,
  costCents: cents,
  markupCents: cents,
  overheadCents: cents,
  contingencyCents: cents,
  profitCents: cents,
  discountCents: cents,
  taxCents: cents,
  totalCents: cents,
  incentiveCents: cents,
  netCents: cents,
});
export type Totals = z.output<typeof Totals>;

const Charging = z.object({
  kW: z.number(),
  milesPerHour: z.number(),
  hoursForDailyMiles: z.number().optional(),
  coversDailyMiles: z.boolean().optional(),
});
const ServiceCheck = z.object({
  method: z.string(),
  demandA: z.number().optional(),
  addedA: z.number().optional(),
  withA: z.number().optional(),
  spareA: z.number().optional(),
  fits: z.enum(['yes', 'no', 'depends', 'unknown']),
  readings: z.array(z.object({ method: z.string(), reading: z.string(), withA: z.number(), fits: z.boolean() })),
  remedies: z.array(
    z.object({
      kind: z.enum(['lower-amps', 'load-management', 'free-spaces', 'service-upgrade', 'measure']),
      amps: z.number().optional(),
      differenceCents: cents.optional(),
      detail: z.string(),
    }),
  ),
});
export type ServiceCheck = z.output<typeof ServiceCheck>;

/** A setting near by at which the price is another one; below 0 where it costs less. */
const Step = z.object({
  amps: z.number(),
  /** What is set to `amps`: the chargers, or the feeder of the subpanel. */
  of: z.enum(['charging', 'feeder']),
  differenceCents: cents,
  because: z.string(),
});
export type Step = z.output<typeof Step>;

/** What an option may cost, without contingency. */
export const Range = z.object({
  p10Cents: cents,
  p50Cents: cents,
  p90Cents: cents,
  /** The total of the likeliest case: what likely values add up to, not the middle of what may come. */
  likelyCents: cents,
  because,
  /** How often the total lies where: bars of one width from the least that was drawn, shares of all draws. */
  shape: z.object({ fromCents: cents, stepCents: cents, shares: z.array(z.number()) }),
  /** Two, where a fact that nobody knows parts the range: each with its chance and its middle. */
  humps: z.array(z.object({ chance: z.number(), p50Cents: cents })).optional(),
  drivers: z.array(z.object({ name: z.string(), lowCents: cents, highCents: cents })),
  chances: z.array(z.object({ name: z.string(), chance: z.number(), addsCents: cents, because: z.string() })),
});
export type Range = z.output<typeof Range>;

export const WHO_CAN_TELL = ['you', 'inspector', 'electrician', 'utility'] as const;
/** A fact that nobody knows: by how much the p10–p90 range narrows, on average, once it is known. */
export const Unknown = z.object({
  path: z.string(),
  swingCents: cents,
  howToFindOut: z.string(),
  whoCanTell: z.enum(WHO_CAN_TELL),
});
export type Unknown = z.output<typeof Unknown>;

/** What to carry into the purchase of the house. */
export const Budget = z.object({
  likelyCents: cents,
  planForCents: cents,
  monthlyCents: cents,
  monthlyPlanForCents: cents,
  totalInterestCents: cents,
  confidence: z.enum(['low', 'medium', 'high']),
  because,
  /** What to ask of the seller, in sentences. */
  askSeller: z.array(z.string()),
});
export type Budget = z.output<typeof Budget>;

/** What may be laid now for a job that comes later. */
export const PREPARED = ['rough-in', 'spare-conduit'] as const;

/** One way of feeding the car, planned, taken off and priced. */
export const EstimateOption = z.object({
  id: z.string(),
  label: z.string(),
  complete: z.boolean(),
  buildable: z.boolean(),
  runs: z.array(Run),
  /** What finishing a rough-in, or using a spare conduit, costs later, as a job of its own. */
  later: z
    .object({
      cents,
      because: z.string(),
      /** Each thing that is only laid now: using it later, and what the same costs then without it. */
      ways: z.array(z.object({ kind: z.enum(PREPARED), cents, withoutItCents: cents.optional() })).optional(),
    })
    .optional(),
  grounding: Grounding.optional(),
  dropPercent: z.number(),
  lines: z.array(Line),
  labor: Labor,
  schedule: z.array(ScheduleStep),
  totals: Totals,
  range: Range.optional(),
  unknowns: z.array(Unknown).optional(),
  budget: Budget.optional(),
  steps: z.array(Step).optional(),
  charging: z
    .object({ together: Charging, perCharger: z.array(Charging.extend({ limitedBy: z.string() })) })
    .optional(),
  service: ServiceCheck,
  findings: z.array(Finding),
});
export type EstimateOption = z.output<typeof EstimateOption>;

/** Totals of the options that can be built and priced there, by their ids. */
const TotalsByOption = z.record(z.string(), cents);

/** Miles that a night at an option puts back, and the option's net total for each of them; no money where it is not sound. */
const Overnight = z.object({
  hours: z.number(),
  miles: z.number(),
  centsPerMile: cents.optional(),
  because: z.string(),
});
export type Overnight = z.output<typeof Overnight>;

/** Where the curves of two options cross, by straight lines between the points that were planned. */
const crossing = {
  /** Costs less before the crossing, and the one that does from there on. */
  cheaperBelow: z.string(),
  cheaperAbove: z.string(),
  /** What both cost there. */
  totalCents: cents,
  /** Does no other option cost less there? Then the cheapest of all changes. */
  isLeast: z.boolean(),
  because: z.string(),
};
const Crossings = z.object({
  byDistance: z.array(z.object({ lengthFt: z.number(), ...crossing })),
  byAmps: z.array(z.object({ amps: z.number(), ...crossing })),
});
export type Crossings = z.output<typeof Crossings>;

/** Money now and money later, both at today's prices. */
const NowAndThen = z.object({ nowCents: cents, laterCents: cents, sumCents: cents });
/** Preparing a later job now, against doing it then from the start. */
const NowOrLater = z.object({
  option: z.string(),
  kind: z.enum(PREPARED),
  prepared: NowAndThen,
  unprepared: NowAndThen,
  /** Of a rough-in: all of it built now. */
  atOnceCents: cents.optional(),
  /** By so much preparing costs less in the end; below 0 where it costs more. */
  savesCents: cents,
  because: z.string(),
});
export type NowOrLater = z.output<typeof NowOrLater>;

const Comparison = z.object({
  cheapest: z.string().nullable(),
  rows: z.array(
    z.object({
      option: z.string(),
      buildable: z.boolean(),
      differenceCents: cents,
      buys: z.array(z.string()),
      overnight: Overnight.optional(),
    }),
  ),
  /** With the longest trench, or else the longest leg, so long; each option planned anew. */
  byDistance: z.array(z.object({ lengthFt: z.number(), totals: TotalsByOption })).optional(),
  /** With all chargers set to so much; each option planned anew. */
  byAmps: z.array(z.object({ amps: z.number(), totals: TotalsByOption })).optional(),
  /** Along both curves, in their order; none of options of which one costs less everywhere. */
  crossings: Crossings.optional(),
  nowOrLater: z.array(NowOrLater).optional(),
});
export type Comparison = z.output<typeof Comparison>;

export const BID_PLACES = ['below', 'within', 'above'] as const;
/** A bid that was received, made comparable with the option it is for. */
export const LevelledBid = z.object({
  from: z.string(),
  optionId: z.string(),
  totalCents: cents,
  /** With its tax, and with what the estimate asks for the scopes that it leaves out. */
  levelledCents: cents,
  /** Against p10 and p90 of the option's range. */
  place: z.enum(BID_PLACES).optional(),
  missing: z.array(z.enum(SCOPES)),
  findings: z.array(Finding),
  questions: z.array(z.string()),
});
export type LevelledBid = z.output<typeof LevelledBid>;

/** The whole answer. `description` comes back with its defaults filled in. */
export const Estimate = z.object({
  description: z.record(z.string(), z.unknown()),
  bookRevision: z.int().nonnegative(),
  complete: z.boolean(),
  notices: z.array(z.string()),
  options: z.array(EstimateOption),
  bids: z.array(LevelledBid),
  comparison: Comparison,
});
type EstimateShape = z.output<typeof Estimate>;
export type Estimate = Omit<EstimateShape, 'description'> & { description: import('./description.ts').Description };
