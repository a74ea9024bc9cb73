import type { Comparison, EstimateOption } from './answer.ts';

/**
 * Sets the options side by side. Only a buildable and complete option can be the cheapest; equal totals: the one
 * that was stated first.
 */
export function compare(options: readonly EstimateOption[]): Comparison {
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
      buys: base && option !== base ? whatItBuys({ option, base }) : [],
    })),
  };
}

interface Pair {
  option: EstimateOption;
  base: EstimateOption;
}

/** What an option gives that the base does not, in sentences that can be read aloud. */
function whatItBuys({ option, base }: Pair): string[] {
  const buys: string[] = [];
  const moreKw = (option.charging?.together.kW ?? 0) - (base.charging?.together.kW ?? 0);
  const milesPerHour = option.charging?.together.milesPerHour ?? 0;
  if (moreKw > 0.05)
    buys.push(`charges ${moreKw.toFixed(1)} kW faster, ${Math.round(milesPerHour)} miles of range an hour`);
  buys.push(...panelInWords({ option, base }), ...dutiesInWords({ option, base }));
  const moreChargers = (option.charging?.perCharger.length ?? 0) - (base.charging?.perCharger.length ?? 0);
  if (moreChargers > 0) buys.push(moreChargers === 1 ? 'one more charger' : `${moreChargers} more chargers`);
  if (option.labor.workingDays < base.labor.workingDays) {
    buys.push(`${base.labor.workingDays - option.labor.workingDays} working days less in the house`);
  }
  return buys;
}

/** The panel that is bought, by its rating and spaces, and the breaker that feeds it; spaces kept for what is listed are not left. */
function panelInWords({ option, base }: Pair): string[] {
  const feeder = option.runs.find(({ role }) => role === 'feeder');
  const panel = option.findings.find(({ rule }) => rule === 'subpanel-spaces')?.numbers;
  if (!feeder || !panel || base.runs.some(({ role }) => role === 'feeder')) return [];
  const left = Number(panel.spaces) - Number(panel.usedSpaces);
  return [
    `a panel of ${panel.panelA} A at the parking place, fed by ${feeder.ocpdA} A, with ${left} of ${panel.spaces} spaces left for later`,
  ];
}

/** What the code asks of a detached garage with power, where this option builds it and the other one lacks it. */
function dutiesInWords({ option, base }: Pair): string[] {
  const meets = ({ findings }: EstimateOption, duty: string) =>
    findings.some(({ rule, severity }) => rule === duty && severity === 'ok');
  const built = Object.entries(DUTIES).flatMap(([duty, words]) =>
    meets(option, duty) && !meets(base, duty) ? [words] : [],
  );
  return built.length > 0 ? [`includes what the code asks of a garage with power: ${built.join(' and ')}`] : [];
}

const DUTIES = { 'garage-receptacles': 'the receptacles', 'garage-light': 'the light' } as const;
