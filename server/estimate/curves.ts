import type { Comparison } from './answer.ts';
import { highestA, isSound, longestLeg, stretched, type TryChanged, withChargingA } from './changed-option.ts';
import { legFeet } from './description/leg.ts';
import { type Description, type DescriptionOption, routeOf } from './description.ts';
import { toFourDecimals } from './money.ts';
import type { OptionEstimate } from './option-estimate.ts';
import { BOUNDS } from './vocabulary.ts';

/** So many times its length the distance is priced at. */
const TIMES = [0.5, 0.75, 1, 1.5, 2, 3];
/** Settings that charging is priced at, in amperes. */
export const COMPARED_SETTINGS_A = [16, 24, 32, 40, 48, 64, 80];

/**
 * Total price against distance: the longest trench grows, or else the longest leg, and every option is planned anew. An
 * option with its own route has its own longest one grow as many times; the length that is named is the description's.
 * An outlet that is there costs the same at every length. An option that cannot be built or priced at a length is left
 * out there; so is a length beyond what a leg may be. Whole cents by option.
 */
export function byDistance(description: Description, tryChanged: TryChanged): NonNullable<Comparison['byDistance']> {
  const running = description.options.filter(({ feed }) => feed !== 'existing-receptacle');
  const [first] = running;
  const named = first && longestLeg(description.route.length > 0 ? description.route : routeOf(description, first));
  if (!named) return [];
  return TIMES.flatMap((times) => {
    const totals = totalsOf(description.options, (option) => tryChanged(atDistance(description, option, times)));
    const isBeyond = running.some((option) => longestFt(stretched(routeOf(description, option), times)) > BOUNDS.legFt);
    return isBeyond || running.every(({ id }) => totals[id] === undefined)
      ? []
      : [{ lengthFt: toFourDecimals(named.lengthFt * times), totals }];
  });
}

function atDistance(description: Description, option: DescriptionOption, times: number): DescriptionOption {
  return option.feed === 'existing-receptacle' || times === 1
    ? option
    : { ...option, route: stretched(routeOf(description, option), times) };
}

const longestFt = (route: Description['route']) => Math.max(...route.map((leg) => legFeet(leg).high));

/**
 * Total price against amperes, all chargers of an option set alike and planned anew. An option that charges with other
 * amperes only, or that cannot be built or priced with so many, is left out there. Whole cents by option.
 */
export function byAmps(planned: readonly OptionEstimate[], tryChanged: TryChanged): NonNullable<Comparison['byAmps']> {
  const settable = planned
    .map(({ plan }) => plan.option)
    .filter((option) => option.feed !== 'existing-receptacle' && highestA(option) > 0);
  return COMPARED_SETTINGS_A.flatMap((amps) => {
    const totals = totalsOf(settable, (option) => {
      const changed = withChargingA(option, amps);
      return changed && tryChanged(changed);
    });
    return Object.keys(totals).length === 0 ? [] : [{ amps, totals }];
  });
}

/** What each option costs as asked, by its id; those that are not sound are left out. */
function totalsOf<Option extends { id: string }>(
  options: readonly Option[],
  estimated: (option: Option) => OptionEstimate | undefined,
): Record<string, number> {
  return Object.fromEntries(
    options.flatMap((option) => {
      const found = estimated(option)?.answer;
      return found && isSound(found) ? [[option.id, found.totals.totalCents]] : [];
    }),
  );
}
