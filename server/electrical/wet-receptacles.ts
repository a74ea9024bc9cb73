import type { Edition } from './citations.ts';
import { cite } from './citations.ts';
import type { Finding } from './findings.ts';

/**
 * Says what a receptacle out of doors is like, since a plug stays in it for hours, in rain too: a cover that is
 * weatherproof with the plug in and a weather-resistant device. NEC 406.9(B)(1) for 15 and 20 A; 406.9(B)(2)(a) and, from
 * 2023, 625.56 for larger ones. Under a roof it is damp only (406.9(A)); nobody has said so, and what serves where it is
 * wet serves there.
 * @param found  is it there already and stays? Then nobody has looked: a caution. A new one gets both
 */
export function checkWetReceptacle({
  ratingA,
  found,
  edition,
}: {
  ratingA: number;
  found: boolean;
  edition: Edition;
}): Finding {
  const rule = ratingA <= 20 ? 'wet-receptacle-15-20' : 'wet-receptacle-other';
  const about = { rule, citation: cite(rule, edition), numbers: { ratingA, found } };
  if (!found) {
    const message = 'The receptacle out of doors gets a cover that is weatherproof with the plug in.';
    return { ...about, severity: 'ok', message };
  }
  const message =
    'A car charges for hours with the plug in, in rain too: look whether the receptacle out of doors has a deep cover that closes over the plug, and the letters WR on its face. Else have it replaced, or charge only where it stays dry.';
  return { ...about, severity: 'caution', message };
}
