import { z } from 'zod';
import { addTextForm, day, listOf, quantity, text } from './description/fields.ts';
import { Leg } from './description/leg.ts';
import { optionShape } from './description/option.ts';
import { Site } from './description/site.ts';
import { Bid, Driving, Extra, Purchase, Terms } from './description/terms.ts';
import { closed, type InputProblem, problemsOf, readInput } from './input-problems.ts';
import { parseRouteLine, RouteLineError } from './route-line.ts';
import { BOUNDS } from './vocabulary.ts';

const Legs = listOf(Leg, BOUNDS.legs, 'legs');

/** Ordered legs, or their one-line text form, of which every problem stands at the line itself. */
const Route = z
  .preprocess((stated, context) => {
    if (typeof stated !== 'string') return stated;
    const refuse = (message: string) => context.addIssue({ code: 'custom', message, input: stated });
    try {
      const legs = parseRouteLine(stated);
      const result = Legs.safeParse(legs);
      if (result.success) return legs;
      for (const problem of problemsOf(result.error)) refuse(inLeg(problem));
    } catch (error) {
      if (!(error instanceof RouteLineError)) throw error;
      refuse(error.message);
    }
    return z.NEVER;
  }, Legs)
  .meta({ textForm: 'A route line, such as "35 joists, 41 lawn-trench clay".' });

/** A problem of a line's leg, with the leg counted from 1 as in the line. */
function inLeg({ path, message }: InputProblem): string {
  const [leg, ...field] = path.split('.');
  return leg ? `leg ${Number(leg) + 1}: ${[...field, message].join(' ')}` : message;
}

const Option = closed({ ...optionShape, route: Route.optional() });
type StatedOption = z.output<typeof Option>;

type Refuse = (path: (string | number)[], message: string) => void;

/** What one option must state by its feed. */
function checkOption(option: StatedOption, at: number, refuse: Refuse): void {
  const path = ['options', at];
  const { feed } = option;
  if (feed !== 'subpanel' && option.chargers.length === 0) {
    refuse(
      [...path, 'chargers'],
      `must name at least one charger for the feed "${feed}"; only a subpanel may do without`,
    );
  }
  if (feed === 'subpanel' && !option.subpanel) refuse([...path, 'subpanel'], 'must be stated for the feed "subpanel"');
  if (feed !== 'subpanel' && option.subpanel) {
    refuse([...path, 'subpanel'], `must be left out for the feed "${feed}": only the feed "subpanel" has one`);
  }
  if (feed === 'existing-receptacle' && !option.receptacle) {
    refuse([...path, 'receptacle'], 'must be stated for the feed "existing-receptacle"');
  }
  if (feed !== 'existing-receptacle' && option.receptacle) {
    refuse([...path, 'receptacle'], `must be left out for the feed "${feed}"`);
  }
  if (option.route?.length === 0 && feed !== 'existing-receptacle') {
    refuse([...path, 'route'], 'must have at least one leg; only the feed "existing-receptacle" runs nothing');
  }
}

/** A slab has mesh in it, or bars, or neither. */
function checkChances(
  { 'slab-mesh': mesh = 0, 'slab-rebar': rebar = 0 }: Record<string, number>,
  refuse: Refuse,
): void {
  if (mesh + rebar <= 1 + ROUNDING) return;
  refuse(['chances', 'slab-rebar'], `must make no more than 1 together with slab-mesh, ${mesh}; it is ${rebar}`);
}
/** Binary fractions of chances that add up to 1 may miss it by so much. */
const ROUNDING = 1e-9;

/** What the parts must have in common. */
function checkWhole(stated: z.output<typeof Stated>, refuse: Refuse): void {
  const seen = new Set<string>();
  stated.options.forEach((option, at) => {
    if (seen.has(option.id))
      refuse(['options', at, 'id'], `must be unique; "${option.id}" is the id of an earlier option`);
    seen.add(option.id);
    checkOption(option, at, refuse);
  });
  const needsRoute = stated.options.some((option) => option.feed !== 'existing-receptacle' && !option.route);
  if (needsRoute && stated.route.length === 0)
    refuse(['route'], 'must have at least one leg from the panel to the car');
  checkChances(stated.chances ?? {}, refuse);
  stated.bids.forEach((bid, at) => {
    if (seen.has(bid.optionId)) return;
    refuse(['bids', at, 'optionId'], `must be the id of an option (${[...seen].join(', ')}), not "${bid.optionId}"`);
  });
}

const Stated = closed({
  title: text(),
  asOf: day().optional(),
  site: Site,
  route: Route,
  options: listOf(Option, BOUNDS.options, 'options').min(1, { error: 'must hold at least one option' }),
  chances: z.record(z.string(), quantity({ unit: 'chance', least: 0, most: 1 })).optional(),
  extras: listOf(Extra, 200, 'extras').default([]),
  driving: Driving.optional(),
  terms: Terms.prefault({}),
  purchase: Purchase.optional(),
  bids: listOf(Bid, 20, 'bids').default([]),
});

/** What follows from other fields where it was not stated: is a charger outdoors, has a subpanel a main breaker? */
function withDerived(stated: z.output<typeof Stated>) {
  const { building } = stated.site;
  return {
    ...stated,
    options: stated.options.map(({ subpanel, ...option }) => ({
      ...option,
      chargers: option.chargers.map((charger) => ({
        ...charger,
        outdoors: charger.outdoors ?? building === 'outdoor',
      })),
      ...(subpanel && {
        subpanel: { ...subpanel, mainBreaker: subpanel.mainBreaker ?? building === 'detached' },
      }),
    })),
  };
}

/** All that a user states of a job. Together with the price book it is the only input of an estimate. */
export const Description = Stated.superRefine((stated, context) =>
  checkWhole(stated, (path, message) => context.addIssue({ code: 'custom', path, message })),
).transform(withDerived);
export type Description = z.output<typeof Description>;
export type DescriptionOption = Description['options'][number];
export type { Leg } from './description/leg.ts';
export type { Charger, Subpanel } from './description/option.ts';
export type { Site } from './description/site.ts';
export type { Extra, Terms } from './description/terms.ts';
/** A charger whose place is settled. */
export type PlacedCharger = DescriptionOption['chargers'][number];

/** Reads a description. @throws {InputError} with the path of everything that is wrong */
export function readDescription(input: unknown): Description {
  return readInput(Description, input);
}

/** The route that an option follows: its own, or the description's. */
export function routeOf(description: Description, option: DescriptionOption): Description['route'] {
  return option.route ?? description.route;
}

/** The JSON Schema (2020-12) of what a client may send, with the text forms beside the lists. */
export function descriptionJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(Description, {
    io: 'input',
    override: ({ jsonSchema }) => addTextForm(jsonSchema as Record<string, unknown>),
  }) as Record<string, unknown>;
}
