import { z } from 'zod';
import { closed, shown } from '../input-problems.ts';
import {
  BOUNDS,
  CONDUCTOR_SIZES,
  CROSSINGS,
  DIGS,
  FINISHES,
  HEADROOMS,
  LEG_DEFAULTS,
  LEG_KINDS,
  legDefaults,
  RACEWAY_PLACES,
  RACEWAY_TYPES,
  REINFORCEMENTS,
  REPLACES,
  SOILS,
  TRADE_SIZES,
  TRAFFICS,
  WALLS,
  WIRING_METHODS,
} from '../vocabulary.ts';
import { count, flag, listOf, oneOf, quantity, text } from './fields.ts';

const feet = () => quantity({ unit: 'feet', more: 0, most: BOUNDS.legFt });

/** A guessed length in feet: what it may be at least, most likely, and at most. */
const GuessedFt = closed({ low: feet(), likely: feet(), high: feet() }).superRefine((ft, context) => {
  if (ft.low <= ft.likely && ft.likely <= ft.high) return;
  context.addIssue({
    code: 'custom',
    message: `must rise from low over likely to high, not ${ft.low}, ${ft.likely}, ${ft.high}`,
    path: ft.low > ft.likely ? ['low'] : ['high'],
  });
});

const LengthFt = z.union([feet(), GuessedFt], {
  error: ({ input }) =>
    typeof input === 'number'
      ? `must be a number of feet, more than 0 and at most ${BOUNDS.legFt}, not ${shown(input)}`
      : `must be a number of feet, such as 41 or 12.5, or { low, likely, high }, not ${shown(input)}`,
});

const Soil = oneOf(SOILS);
/** One kind of soil or several; what is wrong with a single one stands at the field itself. */
const Soils = z
  .preprocess(
    (stated, context) => {
      if (typeof stated !== 'string') return stated;
      for (const { message } of Soil.safeParse(stated).error?.issues ?? []) {
        context.addIssue({ code: 'custom', message, input: stated });
      }
      return [stated];
    },
    listOf(Soil, SOILS.length, 'kinds of soil').min(1, { error: 'must name at least one kind of soil' }),
  )
  .meta({ textForm: `One kind of soil: ${SOILS.join(', ')}.` });

const Crossing = closed({ what: oneOf(CROSSINGS), count: count('lines', 1, 50).default(1) });
const Occupant = closed({
  insulation: oneOf(['thwn-2', 'xhhw-2', 'use-2', 'bare']),
  size: oneOf(CONDUCTOR_SIZES),
  count: count('conductors', 1, 60),
});

/** The flat shape of every leg. A stated field that its kind has no use for is a finding, never a refusal. */
const StatedLeg = closed({
  kind: oneOf(LEG_KINDS),
  lengthFt: LengthFt,
  riseFt: quantity({ unit: 'feet', least: 0, most: 200 }).default(0),
  method: oneOf(['auto', ...WIRING_METHODS]).default('auto'),
  across: flag().optional(),
  headroom: oneOf(HEADROOMS).optional(),
  through: oneOf(WALLS).optional(),
  soil: Soils.optional(),
  crossings: listOf(Crossing, 20, 'crossings').optional(),
  coverIn: quantity({ unit: 'inches', more: 0, most: 120 }).optional(),
  dig: oneOf(DIGS).optional(),
  thicknessIn: quantity({ unit: 'inches', more: 0, most: 24 }).optional(),
  widthIn: quantity({ unit: 'inches', least: 4, most: 60 }).optional(),
  restore: flag().optional(),
  replace: oneOf(REPLACES).optional(),
  finish: oneOf(FINISHES).optional(),
  reinforcement: oneOf(REINFORCEMENTS).nullable().optional(),
  traffic: oneOf(TRAFFICS).optional(),
  bendsDeg: quantity({ unit: 'degrees', least: 0, most: 3600 }).optional(),
  ambientC: quantity({ unit: 'degrees Celsius', least: -40, most: 80 }).optional(),
  note: text().optional(),
  type: oneOf(RACEWAY_TYPES).optional(),
  tradeSize: oneOf(TRADE_SIZES).optional(),
  occupiedBy: listOf(Occupant, 20, 'kinds of conductor').optional(),
  place: oneOf(RACEWAY_PLACES).optional(),
});
type StatedLeg = z.output<typeof StatedLeg>;

/** Fills in what holds where a field that the leg's kind has a use for was not stated. */
function withDefaults(leg: StatedLeg): StatedLeg {
  return { ...legDefaults(leg.kind), ...leg } as StatedLeg;
}

/** One stretch of the route, of one kind. Lengths in feet, depths and thicknesses in inches. */
export const Leg = StatedLeg.superRefine((leg, context) => {
  if (leg.kind !== 'existing-raceway') return;
  for (const field of ['type', 'tradeSize'] as const) {
    if (leg[field] !== undefined) continue;
    const words = field === 'type' ? RACEWAY_TYPES : TRADE_SIZES;
    context.addIssue({
      code: 'custom',
      path: [field],
      message: `must be stated of an existing raceway: one of ${words.join(', ')}`,
    });
  }
}).transform(withDefaults);
export type Leg = z.output<typeof Leg>;

/** What a leg says of a field that its kind has a use for, or what holds where it says nothing. */
export function legField<Field extends keyof typeof LEG_DEFAULTS>(leg: Leg, field: Field): NonNullable<Leg[Field]> {
  return (leg[field] ?? LEG_DEFAULTS[field]) as NonNullable<Leg[Field]>;
}

/** The three points of a leg's length, in feet; a measured length is all three. */
export function legFeet(leg: Leg): { low: number; likely: number; high: number } {
  const { lengthFt } = leg;
  return typeof lengthFt === 'number' ? { low: lengthFt, likely: lengthFt, high: lengthFt } : lengthFt;
}
