import type { Edition } from './citations.ts';
import { citedFinding, type Finding } from './findings.ts';
import { type ConductorSize, compareSizes, sizeInWords } from './sizes.ts';

/**
 * The largest conductor that terminals of equipment up to a rating commonly take. From memory; no table of the code
 * prints it, each breaker and each charger is marked with its own.
 */
export const COMMON_TERMINALS = {
  source: 'markings of plug-in breakers and chargers, from memory',
  rows: [
    { upToA: 30, largest: '8' },
    { upToA: 60, largest: '4' },
    { upToA: 125, largest: '1/0' },
  ],
} as const satisfies { source: string; rows: readonly { upToA: number; largest: ConductorSize }[] };

/**
 * Says where conductors that were enlarged against voltage drop outgrow the terminals that commonly stand at their ends:
 * a caution, since the markings decide. NEC 110.3(B). Nothing where they fit, or where no common range is known.
 * @param size  the largest that lands at an end
 */
export function outgrownTerminals({
  size,
  ocpdA,
  edition,
}: {
  size: ConductorSize;
  ocpdA: number;
  edition: Edition;
}): Finding | undefined {
  const largest = COMMON_TERMINALS.rows.find(({ upToA }) => ocpdA <= upToA)?.largest;
  if (largest === undefined || compareSizes(size, largest) <= 0) return undefined;
  const message = `${sizeInWords(size)} is larger than terminals of ${ocpdA} A commonly take, ${sizeInWords(largest)} at most. Read the markings of breaker and outlet first: where they end below it, a shorter piece is joined on in a box at that end, which is not priced here. More drop allowed, or fewer amperes, takes a smaller conductor.`;
  const numbers = { size, largest, ocpdA };
  return citedFinding('terminal-markings', edition, numbers, { severity: 'caution', message });
}
