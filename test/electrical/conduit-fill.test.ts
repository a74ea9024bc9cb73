import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  conduitFill,
  FILL_INSULATIONS,
  smallestConduit,
  smallestSleeve,
} from '../../server/electrical/conduit-fill.ts';
import { CONDUCTOR_SIZES, RACEWAY_TYPES, TRADE_SIZES } from '../../server/electrical/sizes.ts';

const conductors = fc.array(
  fc.record({
    insulation: fc.constantFrom(...FILL_INSULATIONS),
    size: fc.constantFrom(...CONDUCTOR_SIZES.slice(0, 12)),
    count: fc.integer({ min: 1, max: 4 }),
  }),
  { minLength: 1, maxLength: 3 },
);

describe('conduit fill', () => {
  it('takes the smallest trade size that holds the conductors', () => {
    fc.assert(
      fc.property(fc.constantFrom(...RACEWAY_TYPES), conductors, (type, list) => {
        const { tradeSize, fits } = smallestConduit({ type, conductors: list });
        const smaller = TRADE_SIZES[TRADE_SIZES.indexOf(tradeSize) - 1];
        expect(fits).toBe(true);
        if (smaller) expect(conduitFill({ type, tradeSize: smaller, conductors: list }).fits).toBe(false);
      }),
    );
  });

  it('fills more with one conductor more', () => {
    fc.assert(
      fc.property(conductors, (list) => {
        const of = (held: typeof list) => conduitFill({ type: 'emt', tradeSize: '2', conductors: held }).fillPercent;
        expect(of([...list, { insulation: 'bare', size: '10', count: 1 }])).toBeGreaterThan(of(list));
      }),
    );
  });

  // Chapter 9 note 4: a nipple of 24 in may be filled to 60 %: 0.6 × 0.285 = 0.171 in² of 1/2 PVC.
  it('lets a nipple hold more', () => {
    const list = [{ insulation: 'thwn-2', size: '6', count: 3 }] as const;
    expect(smallestConduit({ type: 'pvc-40', conductors: list }).tradeSize).toBe('3/4');
    expect(smallestConduit({ type: 'pvc-40', conductors: list, lengthIn: 24 })).toMatchObject({ tradeSize: '1/2' });
    expect(conduitFill({ type: 'pvc-40', tradeSize: '1/2', conductors: list, lengthIn: 24 }).limitIn2).toBeCloseTo(
      0.171,
      9,
    );
    expect(smallestConduit({ type: 'pvc-40', conductors: list, lengthIn: 25 }).tradeSize).toBe('3/4');
  });

  // A cable of 0.75 in: π/4 × 0.75² = 0.4418 in²; 1 in PVC 80 allows 0.365, 1-1/4 in 0.656 of one conductor.
  it('sleeves a cable by its own diameter', () => {
    expect(smallestSleeve({ type: 'pvc-80', cableDiameterIn: 0.75 }).tradeSize).toBe('1-1/4');
  });

  it('says when nothing holds them', () => {
    const much = [{ insulation: 'thwn-2', size: '500', count: 20 }] as const;
    expect(() => smallestConduit({ type: 'emt', conductors: much })).toThrow(
      'conductors "14.146 in²" is beyond NEC Chapter 9 Table 4: must be what trade size 4 of emt holds',
    );
    expect(() =>
      smallestConduit({ type: 'emt', conductors: [{ insulation: 'thwn-2', size: '600', count: 1 }] }),
    ).toThrow('conductors "600" is beyond NEC Chapter 9 Table 5: must be sizes 14 AWG to 500 kcmil');
  });
});
