import fc from 'fast-check';
import loadHighs from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { cheapestPackages, type LengthOffer } from '../../server/estimate/purchasing.ts';

/*
 * Source: HiGHS, an open solver of mixed-integer programs, from the registry. The same question is put to it as an
 * assignment model: x[p,k] piece p is cut of coil k, y[k] coil k is bought, z[p] piece p is cut by the foot; least cost.
 * Whole cents on both sides: no tolerance but the solver's own, half a cent.
 */

type Highs = Awaited<ReturnType<typeof loadHighs>>;

interface Instance {
  pieces: number[];
  offers: LengthOffer[];
}

/** The assignment model of one instance in the solver's text form. */
function modelOf({ pieces, offers }: Instance): string {
  const coils = offers.flatMap((offer, at) =>
    offer.lengthFt === null ? [] : pieces.map((_, copy) => ({ name: `y_${at}_${copy}`, at, copy, ...offer })),
  );
  const foot = offers.find(({ lengthFt }) => lengthFt === null);
  const objective = [
    ...coils.map(({ name, priceCents }) => `${priceCents} ${name}`),
    ...(foot ? pieces.map((piece, p) => `${Math.ceil(piece) * foot.priceCents} z_${p}`) : []),
  ];
  const cutOnce = pieces.map((_, p) => {
    const ways = [...coils.map(({ at, copy }) => `x_${p}_${at}_${copy}`), ...(foot ? [`z_${p}`] : [])];
    return ` once_${p}: ${ways.join(' + ')} = 1`;
  });
  const held = coils.map(({ name, at, copy, lengthFt }) => {
    const cuts = pieces.map((piece, p) => `${piece} x_${p}_${at}_${copy}`).join(' + ');
    return ` held_${at}_${copy}: ${cuts} - ${lengthFt} ${name} <= 0`;
  });
  const names = [
    ...coils.map(({ name }) => name),
    ...coils.flatMap(({ at, copy }) => pieces.map((_, p) => `x_${p}_${at}_${copy}`)),
    ...(foot ? pieces.map((_, p) => `z_${p}`) : []),
  ];
  return `Minimize\n obj: ${objective.join(' + ')}\nSubject To\n${[...cutOnce, ...held].join('\n')}\nBinary\n ${names.join('\n ')}\nEnd\n`;
}

const offer = fc.record({
  lengthFt: fc.constantFrom<number | null>(25, 50, 100, 125, 250),
  priceCents: fc.integer({ min: 500, max: 60_000 }),
});
const byFoot = fc.record({ lengthFt: fc.constant(null), priceCents: fc.integer({ min: 40, max: 900 }) });
const instance: fc.Arbitrary<Instance> = fc.record({
  pieces: fc.array(
    fc.integer({ min: 4, max: 480 }).map((quarters) => quarters / 4),
    { minLength: 1, maxLength: 5 },
  ),
  offers: fc.tuple(byFoot, fc.array(offer, { minLength: 1, maxLength: 3 })).map(([foot, coils]) => [foot, ...coils]),
});

describe('the least-cost packages', () => {
  let highs: Highs;
  beforeAll(async () => {
    highs = await loadHighs();
  });

  it('equal the optimum of a general solver on 500 random instances', { timeout: 300_000 }, () => {
    const instances = fc.sample(instance, { numRuns: 500, seed: 20_260_302 });
    for (const one of instances) {
      const solved = highs.solve(modelOf(one));
      expect(solved.Status, JSON.stringify(one)).toBe('Optimal');
      const ours = cheapestPackages(one);
      expect(ours?.proven).toBe(true);
      expect(Math.abs((ours?.costCents ?? 0) - solved.ObjectiveValue), JSON.stringify(one)).toBeLessThan(0.5);
    }
  });
});
