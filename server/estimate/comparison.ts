import type { Comparison, EstimateOption } from './answer.ts';
import type { Description } from './description.ts';

/**
 * Sets the options side by side. Only a buildable and complete option can be the cheapest; equal totals: the one
 * that was stated first.
 */
export function compare(description: Description, options: readonly EstimateOption[]): Comparison {
  const sound = options.filter(({ buildable, complete }) => buildable && complete);
  const cheapest = sound.reduce<EstimateOption | null>(
    (least, option) => (least && least.totals.totalCents <= option.totals.totalCents ? least : option),
    null,
  );
  const base = cheapest ?? options[0];
  return {
    cheapest: cheapest?.id ?? null,
    rows: options.map((option) => ({
      option: option.id,
      buildable: option.buildable,
      differenceCents: option.totals.totalCents - (base?.totals.totalCents ?? 0),
      buys: base && option !== base ? whatItBuys({ description, option, base }) : [],
    })),
  };
}

interface Pair {
  description: Description;
  option: EstimateOption;
  base: EstimateOption;
}

/** What an option gives that the base does not, in sentences that can be read aloud. */
function whatItBuys({ description, option, base }: Pair): string[] {
  const buys: string[] = [];
  const moreKw = (option.charging?.together.kW ?? 0) - (base.charging?.together.kW ?? 0);
  const milesPerHour = option.charging?.together.milesPerHour ?? 0;
  if (moreKw > 0.05)
    buys.push(`charges ${moreKw.toFixed(1)} kW faster, ${Math.round(milesPerHour)} miles of range an hour`);
  const stated = description.options.find(({ id }) => id === option.id);
  const feeder = option.runs.find(({ role }) => role === 'feeder');
  if (stated?.subpanel && feeder && !base.runs.some(({ role }) => role === 'feeder')) {
    const used = option.runs.filter(({ role }) => role === 'branch-circuit').reduce((sum, run) => sum + run.poles, 0);
    const free = stated.subpanel.spaces - used;
    buys.push(
      `a panel at the parking place, ${feeder.ocpdA} A, with ${free} of ${stated.subpanel.spaces} spaces left for later`,
    );
  }
  const moreChargers = (option.charging?.perCharger.length ?? 0) - (base.charging?.perCharger.length ?? 0);
  if (moreChargers > 0) buys.push(moreChargers === 1 ? 'one more charger' : `${moreChargers} more chargers`);
  if (option.labor.workingDays < base.labor.workingDays) {
    buys.push(`${base.labor.workingDays - option.labor.workingDays} working days less in the house`);
  }
  return buys;
}
