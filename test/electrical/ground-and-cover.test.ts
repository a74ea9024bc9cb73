import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BURIAL_LOCATIONS,
  BURIED_WIRINGS,
  buriedWiringOf,
  checkCover,
  coverDepthIn,
  deepestCoverIn,
} from '../../server/electrical/cover.ts';
import { electrodeConductorSize } from '../../server/electrical/grounding-electrode.ts';
import { CONDUCTOR_SIZES, compareSizes } from '../../server/electrical/sizes.ts';

describe('cover', () => {
  it('is the deepest of the rows that could hold, and a local minimum only raises it', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...BURIED_WIRINGS),
        fc.subarray([...BURIAL_LOCATIONS], { minLength: 1 }),
        fc.integer({ min: 0, max: 48 }),
        (wiring, locations, minimumCoverIn) => {
          const depths = locations.map((location) => coverDepthIn({ wiring, location }));
          const deepest = deepestCoverIn({ wiring, locations, minimumCoverIn });
          expect(deepest).toBe(Math.max(minimumCoverIn, ...depths));
          expect(deepestCoverIn({ wiring, locations })).toBeLessThanOrEqual(deepest);
        },
      ),
    );
  });

  // Table 300.5(A): 24 in over cable, 18 over PVC and EMT, 6 over rigid conduit.
  it('puts each method in its column', () => {
    const depth = (method: Parameters<typeof buriedWiringOf>[0]) =>
      coverDepthIn({ wiring: buriedWiringOf(method), location: 'elsewhere' });
    expect([depth('uf-b'), depth('direct-burial'), depth('pvc'), depth('emt'), depth('rmc')]).toEqual([
      24, 24, 18, 18, 6,
    ]);
  });

  it('stops a shallow run and says how deep it has to be', () => {
    const pvc = { leg: 2, wiring: 'pvc', location: 'elsewhere', edition: '2023' } as const;
    expect(checkCover({ ...pvc, coverIn: 18 }).severity).toBe('ok');
    expect(checkCover({ ...pvc, coverIn: 12 })).toEqual({
      rule: 'cover',
      leg: 2,
      severity: 'stop',
      numbers: { coverIn: 12, leastIn: 18 },
      citation: { code: 'NEC', edition: '2023', article: 'Table 300.5(A)' },
      message:
        '12 in of cover is too little: at least 18 in is required here. Dig deeper, or choose another wiring method for this leg.',
    });
    expect(checkCover({ ...pvc, coverIn: 18, edition: '2020' }).citation?.article).toBe('Table 300.5');
  });
});

describe('the electrode conductor', () => {
  it('refuses aluminum for a concrete-encased electrode', () => {
    const asked = { conductorSize: '4/0', conductorMetal: 'aluminum', metal: 'aluminum' } as const;
    expect(() => electrodeConductorSize({ ...asked, electrode: 'concrete-encased' })).toThrow(
      'metal must be copper for a concrete-encased electrode, not "aluminum"',
    );
  });

  it('never shrinks for a larger supply, and never exceeds the table', () => {
    const size = fc.constantFrom(...CONDUCTOR_SIZES);
    const electrode = fc.constantFrom(
      'rod' as const,
      'plate' as const,
      'water-pipe' as const,
      'concrete-encased' as const,
    );
    fc.assert(
      fc.property(
        size,
        size,
        electrode,
        fc.constantFrom('copper' as const, 'aluminum' as const),
        (a, b, kind, conductorMetal) => {
          const of = (conductorSize: typeof a, to = kind) =>
            electrodeConductorSize({ conductorSize, conductorMetal, metal: 'copper', electrode: to });
          const [small, large] = compareSizes(a, b) <= 0 ? [a, b] : [b, a];
          expect(compareSizes(of(small), of(large))).toBeLessThanOrEqual(0);
          expect(compareSizes(of(a), of(a, 'water-pipe'))).toBeLessThanOrEqual(0);
        },
      ),
    );
  });
});
