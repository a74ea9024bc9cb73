import { describe, expect, it } from 'vitest';
import { concrete, trench } from '../../server/estimate/earthwork.ts';

describe('a trench', () => {
  /** Excavating a rectangle of 34 × 22 × 6 ft with 25 % swell, spikevm.com: 4488 ft³, 166.2 and 207.8 yd³, one decimal. */
  it('agrees with a published excavation', () => {
    const { volumeFt3, volumeYd3, looseYd3 } = trench({ lengthFt: 34, widthIn: 264, depthIn: 72 });
    expect(volumeFt3).toBeCloseTo(4488, 9);
    expect(Math.abs(volumeYd3 - 166.2)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(looseYd3 - 207.8)).toBeLessThanOrEqual(0.06); // printed from the rounded 166.2: 207.75
  });

  /** Arithmetic: 100 × 2 × 4 = 800 ft³; 800 / 27 × 1.30 = 38.5185. 41 × 0.5 × 2 = 41 ft³; 41 / 27 × 1.25 = 1.8981. */
  it('is length × width × depth, and swells', () => {
    const wide = trench({ lengthFt: 100, widthIn: 24, depthIn: 48, swellPercent: 30 });
    expect(wide.volumeFt3).toBeCloseTo(800, 9);
    expect(wide.volumeYd3).toBeCloseTo(29.6296, 4);
    expect(wide.looseYd3).toBeCloseTo(38.5185, 4);
    const narrow = trench({ lengthFt: 41, widthIn: 6, depthIn: 24 });
    expect(narrow.volumeFt3).toBeCloseTo(41, 9);
    expect(narrow.volumeYd3).toBeCloseTo(1.5185, 4);
    expect(narrow.looseYd3).toBeCloseTo(1.8981, 4);
  });

  it('of 27 × 1 × 1 ft is one cubic yard', () => {
    const yard = trench({ lengthFt: 27, widthIn: 12, depthIn: 12, swellPercent: 0 });
    expect(yard).toEqual({ volumeFt3: 27, volumeYd3: 1, looseYd3: 1 });
  });
});

describe('a strip of concrete', () => {
  /** Bags of concrete in a cubic yard, reference.com: 45 of 80 lb, 60 of 60 lb. */
  it('of one cubic yard takes 45 bags of 80 lb or 60 of 60 lb', () => {
    const yard = concrete({ lengthFt: 27, widthIn: 36, thicknessIn: 4, wastePercent: 0 });
    expect(yard).toMatchObject({ bags80lb: 45, bags60lb: 60 });
    expect(yard.volumeYd3).toBeCloseTo(1, 9);
  });

  /** hartzels.com, calculator help: 30 × 4 ft × 4 in is 1.5 yd³ (1.48). gardenguides.com: 165,564 in³ / 46,656 is 3.55 yd³. */
  it('agrees with two published volumes', () => {
    const slab = concrete({ lengthFt: 30, widthIn: 48, thicknessIn: 4 });
    expect(slab.volumeFt3).toBeCloseTo(40, 9);
    expect(Math.abs(slab.volumeYd3 - 1.5)).toBeLessThanOrEqual(0.05); // one decimal is printed
    const large = concrete({ lengthFt: 27.375, widthIn: 126, thicknessIn: 4 });
    expect(Math.abs(large.volumeYd3 - 3.55)).toBeLessThanOrEqual(0.005); // two decimals are printed
  });

  /** Arithmetic: 9 × 1 × 1/3 = 3 ft³, 3.3 with waste; / 0.60 = 5.5, / 0.45 = 7.33; cuts 2 × 9 + 2 × 1. */
  it('of 9 ft takes six bags of 80 lb, eight of 60 lb and 20 ft of cut', () => {
    const strip = concrete({ lengthFt: 9, widthIn: 12, thicknessIn: 4 });
    expect(strip).toMatchObject({ bags80lb: 6, bags60lb: 8, sawCutFt: 20 });
    expect(strip.volumeFt3).toBeCloseTo(3, 9);
  });

  /** A walk of 20 × 3 ft, 98905.com: 60 ft² × 1/3 = 20 ft³; cuts 2 × 20 + 1 × 3. */
  it('that runs out at one edge is cut at one end', () => {
    const walk = concrete({ lengthFt: 20, widthIn: 36, thicknessIn: 4, closedEnds: 1 });
    expect(walk.volumeFt3).toBeCloseTo(20, 9);
    expect(walk.sawCutFt).toBe(43);
  });
});
