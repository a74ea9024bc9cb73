/*
 * The least that opening the ground costs: what does not depend on the depth, and for each leg what its depth adds.
 */
import type { Ditch } from '../plan-types.ts';
import { boreDemands } from '../takeoff/bores.ts';
import { type Demands, joined } from '../takeoff/demand.ts';
import { diggingDemands } from '../takeoff/digging.ts';
import { type DitchLeg, ditchAt, dugLegs, isGroundOpened, type Tool } from '../takeoff/ditches.ts';
import { gardenDemands } from '../takeoff/gardens.ts';
import { diggingDays, locateDemands, rentalDemands } from '../takeoff/rentals.ts';
import { surfaceDemands } from '../takeoff/surfaces.ts';
import { type LeastPrices, leastOf } from './least-price.ts';
import type { OptionModel } from './option-model.ts';
import { once } from './parts.ts';
import { type Part, partOf } from './tally.ts';

/** The thickest raceway that is planned, in whole inches: trade size 3. */
const MOST_THICK_IN = 4;

/** What the ground costs at least. */
export interface GroundBound {
  /** What it takes whatever the depth. */
  always: Part;
  /** What it costs besides, whatever is chosen, in cents. */
  alwaysCents: number;
  /** What a leg adds that is dug so deep, in cents; 0 for a leg that is not dug. */
  digCents: (leg: number, depthIn: number) => number;
  /** May a ditch of so much cover be dug this way, whatever the others are? */
  allows: (ditch: number, coverIn: number) => boolean;
  /** Are these ditches dug this way? */
  isSo: (ditches: readonly Ditch[]) => boolean;
}

/** The ditches of an option at the least, or at the greatest depth that any choice asks for. */
function ditchesAt(model: OptionModel, pick: (...depths: number[]) => number): Ditch[] {
  return model.ditches.map((empty, ditch): Ditch => {
    const depths = model.runs.flatMap(({ space, ditchOf }) =>
      space.pieces
        .filter(({ at }) => ditchOf[at] === ditch)
        .flatMap(({ at }) => [...space.choices.values()].filter((choice) => choice?.at === at))
        .flatMap((choice) => (choice ? [choice.coverIn + choice.thickIn] : [])),
    );
    const depthIn = Math.max(empty.depthIn, depths.length > 0 ? pick(...depths) : 0);
    return { legs: empty.legs, coverIn: Math.max(0, depthIn - MOST_THICK_IN), depthIn };
  });
}

/**
 * With which tools the ditches are dug: by hand up to so much digging, else by machine; or, where all are dug by the same
 * machine however deep they are, whether it is rented for the fewest days.
 */
export type Digging = 'as-stated' | 'by-hand' | 'by-machine' | 'fewest-days' | 'more-days';

/** The ways of digging that some choice leads to; what may be chosen must be known. */
export function diggingsOf({ shallow, deep }: Extremes): Digging[] {
  const isHandAtFirst = shallow.some(({ tool }, at) => tool === 'hand' && deep[at]?.tool !== 'hand');
  if (isHandAtFirst) return ['by-hand', 'by-machine'];
  const isSameTool = shallow.every(({ tool }, at) => tool === deep[at]?.tool);
  return isSameTool && diggingDays(deep) > diggingDays(shallow) ? ['fewest-days', 'more-days'] : ['as-stated'];
}

/** The ditches of an option at their least and their greatest depth. */
export interface Extremes {
  least: Ditch[];
  most: Ditch[];
  shallow: DitchLeg[];
  deep: DitchLeg[];
}

/** Looks how deep an option's ditches may be; what may be chosen must be known. */
export function extremesOf(model: OptionModel): Extremes {
  const { plan } = model;
  const [least, most] = [ditchesAt(model, Math.min), ditchesAt(model, Math.max)];
  return {
    ...{ least, most },
    shallow: dugLegs({ ...plan, ditches: least }),
    deep: dugLegs({ ...plan, ditches: most }),
  };
}

/** Which ditches, and which of given cover, are dug in one of the ways. */
function rulesOf({ plan }: OptionModel, { least, most, shallow, deep }: Extremes, digging: Digging) {
  const open = shallow.findIndex(({ tool }, at) => tool === 'hand' && deep[at]?.tool !== 'hand');
  const isLight = digging === 'by-hand' || digging === 'fewest-days';
  const fewestDays = diggingDays(shallow);
  const known = new Map<string, boolean>();
  /** Are these ditches shallow enough for the lighter of two ways? */
  const isLightly = (ditches: readonly Ditch[]) =>
    once(known, ditches.map(({ depthIn }) => depthIn).join('/'), () => {
      const dug = dugLegs({ ...plan, ditches: [...ditches] });
      return open >= 0 ? dug[open]?.tool === 'hand' : diggingDays(dug) <= fewestDays;
    });
  const extreme = isLight ? least : most;
  return {
    isSo: (ditches: readonly Ditch[]) => digging === 'as-stated' || isLightly(ditches) === isLight,
    allows: (ditch: number, coverIn: number) => {
      const itself = extreme[ditch];
      if (digging === 'as-stated' || !itself) return true;
      const thickIn = isLight ? 1 : itself.depthIn - itself.coverIn;
      return isLightly(extreme.with(ditch, { ...itself, depthIn: coverIn + thickIn })) === isLight;
    },
  };
}

/** Ditches that are just so deep between two depths that their machine is rented for a day more than at the first. */
function justMoreDays(shallow: readonly DitchLeg[], deep: readonly DitchLeg[]): DitchLeg[] {
  const at = (share: number) =>
    shallow.map((ditch, leg) => {
      const deepIn = deep[leg]?.depthIn ?? ditch.depthIn;
      return ditchAt(ditch, { depthIn: ditch.depthIn + share * (deepIn - ditch.depthIn), tool: ditch.tool });
    });
  let [few, more] = [0, 1];
  while (more - few > 1e-4) {
    const middle = (few + more) / 2;
    if (diggingDays(at(middle)) > diggingDays(shallow)) more = middle;
    else few = middle;
  }
  return at(more);
}

const TOOLS: readonly Tool[] = ['hand', 'trencher', 'excavator'];

/** What the ground takes at least, however deep it is dug and by what. */
export function leastDug({ plan }: OptionModel, { shallow }: Extremes): Demands[] {
  const fixed = [locateDemands(plan, isGroundOpened(plan)), boreDemands(plan)];
  return TOOLS.map((tool) => {
    const dug = shallow.map((ditch) => ditchAt(ditch, { depthIn: ditch.depthIn, tool }));
    return joined([...fixed, surfaceDemands(dug), diggingDemands(dug), gardenDemands(dug)]);
  });
}

/** Finds the least cost of an option's ground where it is dug in one of its ways. */
export function groundBound(
  model: OptionModel,
  { least, extremes, digging }: { least: LeastPrices; extremes: Extremes; digging: Digging },
): GroundBound {
  const { plan, parts } = model;
  const cents = (demands: Demands) => leastOf(least, partOf(parts.kinds, demands));
  const { shallow, deep } = extremes;
  const toolsOf = (at: number): Tool[] => {
    const first = shallow[at]?.tool ?? 'hand';
    if (digging === 'by-hand') return [first];
    const last = deep[at]?.tool ?? 'hand';
    return last === 'excavator' && first !== 'excavator' ? ['trencher', 'excavator'] : [last];
  };
  const settled = shallow.every((_, at) => toolsOf(at).length === 1);
  const dug = shallow.map((ditch, at) => ({ ...ditch, tool: toolsOf(at)[0] ?? ditch.tool }));
  const always = joined([
    locateDemands(plan, isGroundOpened(plan)),
    surfaceDemands(dug),
    boreDemands(plan),
    ...(settled ? [rentalDemands(plan, digging === 'more-days' ? justMoreDays(shallow, deep) : dug)] : []),
  ]);
  const known = new Map<string, number>();
  const placeOf = new Map(dug.map(({ leg }, at) => [leg, at]));
  const dig = (ditch: DitchLeg) => cents(joined([diggingDemands([ditch]), gardenDemands([ditch])]));
  return {
    ...rulesOf(model, extremes, digging),
    always: partOf(parts.kinds, always),
    alwaysCents: 0,
    digCents: (leg, depthIn) => {
      const at = placeOf.get(leg);
      const ditch = at === undefined ? undefined : dug[at];
      if (at === undefined || !ditch) return 0;
      return once(known, `${leg} ${depthIn}`, () =>
        Math.min(...toolsOf(at).map((tool) => dig(ditchAt(ditch, { depthIn, tool })))),
      );
    },
  };
}
