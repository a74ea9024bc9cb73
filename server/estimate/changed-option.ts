import type { EstimateOption } from './answer.ts';
import { legFeet } from './description/leg.ts';
import type { Description, DescriptionOption, Leg } from './description.ts';
import { InputError } from './input-problems.ts';
import type { EstimateChanged, OptionEstimate } from './option-estimate.ts';
import type { SettledOption } from './plan/job.ts';
import { isDitch } from './vocabulary.ts';

/**
 * As `EstimateChanged`, or nothing where the terms refuse what the change would cost: a discount above its price, or a
 * sum beyond all bounds. The stated option itself was not refused, so nothing is kept from whoever asks.
 */
export type TryChanged = (option: DescriptionOption) => OptionEstimate | undefined;

/** Makes a question that the terms may refuse out of one that they may not. */
export function trying(estimateChanged: EstimateChanged): TryChanged {
  return (option) => unlessRefused(() => estimateChanged(option));
}

/** What is asked, or nothing where the terms refuse it. */
export function unlessRefused<Answer>(ask: () => Answer): Answer | undefined {
  try {
    return ask();
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}

/** The highest setting among the chargers of an option, in amperes; 0 where there are none. */
export function highestA({ chargers }: SettledOption): number {
  return Math.max(0, ...chargers.map(({ amps }) => amps));
}

/**
 * The option with its chargers set to so many amperes, all alike: where they differ, those above come down to it, and
 * above the highest only the highest rise. Nothing where one would be set above its own nameplate.
 */
export function withChargingA(option: SettledOption, amps: number): SettledOption | undefined {
  const fromA = Math.min(amps, highestA(option));
  const chargers = option.chargers.map((one) => (one.amps >= fromA ? { ...one, amps } : one));
  const beyond = chargers.some(({ amps: setA, nameplateA }) => setA === amps && setA > (nameplateA ?? setA));
  return beyond ? undefined : { ...option, chargers };
}

/** The option with a feeder of so many amperes to its subpanel; nothing where it has none. */
export function withFeederA(option: SettledOption, feederA: number): SettledOption | undefined {
  return option.subpanel && { ...option, subpanel: { ...option.subpanel, feederA } };
}

/** Of a route, the leg that its distance is told by: the longest that is dug, or else the longest. */
export function longestLeg(route: readonly Leg[]): { leg: number; lengthFt: number } | undefined {
  const legs = route.map((one, leg) => ({ leg, kind: one.kind, lengthFt: legFeet(one).likely }));
  const dug = legs.filter(({ kind }) => isDitch(kind));
  return [...(dug.length > 0 ? dug : legs)].sort((a, b) => b.lengthFt - a.lengthFt || a.leg - b.leg)[0];
}

/** A route whose longest dug leg, or else longest leg, is so many times as long; its guesses with it. */
export function stretched(route: Description['route'], times: number): Description['route'] {
  const longest = longestLeg(route);
  return route.map((one, leg) => (leg === longest?.leg ? { ...one, lengthFt: timesFt(one.lengthFt, times) } : one));
}

function timesFt(lengthFt: Leg['lengthFt'], times: number): Leg['lengthFt'] {
  if (typeof lengthFt === 'number') return lengthFt * times;
  const { low, likely, high } = lengthFt;
  return { low: low * times, likely: likely * times, high: high * times };
}

/** Can it be built as it stands, with every line priced? */
export function isSound({ buildable, complete }: EstimateOption): boolean {
  return buildable && complete;
}

/** Is all of a changed option priced, and does nothing forbid it but what forbids the stated one too? */
export function isNoWorse(changed: EstimateOption, stated: EstimateOption): boolean {
  const known = new Set(stopsOf(stated));
  return changed.complete && stopsOf(changed).every((rule) => known.has(rule));
}

const stopsOf = ({ findings }: EstimateOption) =>
  findings.filter(({ severity }) => severity === 'stop').map(({ rule }) => rule);
