import { describe, expect, it } from 'vitest';
import { optionOf, ruleOf, type Stated, takenOf, unitsOf } from './priced.ts';

const OLD = { amps: 20, poles: 1, wires: 3, raceway: 'pvc', tradeSize: '3/4', feeds: ['light', 'receptacles'] };

/** A detached garage that an older circuit feeds, with a new panel of its own. */
function garage({
  fate = 'removed',
  circuit = OLD,
  option = {},
}: {
  fate?: string;
  circuit?: Record<string, unknown>;
  option?: Record<string, unknown>;
} = {}): Stated {
  return {
    site: {
      building: 'detached',
      garage: { bays: 1, existing: ['receptacles', 'light'] },
      existingSupply: fate,
      existingCircuit: circuit,
    },
    route: '20 joists, 40 lawn-trench',
    option: { feed: 'subpanel', subpanel: { ratingA: 100, spaces: 8, feederA: 60 }, ...option },
  };
}

describe('an older supply that is taken out', () => {
  /** Common practice, no source. Conductors come out of 60 ft of raceway; one pole leaves one open space. */
  it('is taken off, pulled out and capped, and what it fed goes on at the new panel', () => {
    const option = optionOf(garage());
    expect(unitsOf(option, 'supply-disconnect')).toBe(1);
    expect(unitsOf(option, 'pull-out')).toBe(60);
    expect([takenOf(option, 'breaker-filler'), takenOf(option, 'raceway-cap')]).toEqual([1, 2]);
    expect([takenOf(option, 'refeed-parts'), takenOf(option, 'breaker-1p-20-gfci')]).toEqual([1, 1]);
    expect(option.complete).toBe(true);
  });

  /** 32 A × 1.25 = 40 A, and a general circuit of 1,500 VA on one leg: 12.5 A (220.52, as our other circuits count). */
  it('keeps a space of the panel, and counts in the feeder', () => {
    const option = optionOf(garage());
    expect(ruleOf(option, 'feeder-load')[0]?.numbers.neededA).toBe(52.5);
    expect(ruleOf(option, 'subpanel-spaces')[0]?.numbers.usedSpaces).toBe(3);
    const unstated = optionOf(garage({ circuit: { ...OLD, feeds: [] } }));
    expect(ruleOf(unstated, 'subpanel-spaces')[0]?.numbers.usedSpaces).toBe(2);
    // A building has one supply, so that the old one goes with all it fed.
    expect(ruleOf(unstated, 'old-loads')[0]).toMatchObject({ severity: 'caution', citation: { article: '225.30' } });
  });

  /** Table 240.6(A) has 35 and 40 A: what is wired for 37.5 A is protected by 35 A. Single-pole: no ground fault above 20 A. */
  it('protects an odd old circuit by the standard breaker below it', () => {
    const option = optionOf(garage({ circuit: { ...OLD, amps: 37.5 } }));
    expect(takenOf(option, 'breaker-1p-35')).toBe(1);
    expect(option.complete).toBe(true);
  });

  it('leaves a buried cable where it is', () => {
    const option = optionOf(garage({ circuit: { ...OLD, raceway: 'none', tradeSize: undefined } }));
    expect([takenOf(option, 'cable-end-cap'), unitsOf(option, 'pull-out')]).toEqual([2, undefined]);
  });

  it('does not cap a raceway that the route goes through', () => {
    const route = [
      { kind: 'joists', lengthFt: 20 },
      { kind: 'existing-raceway', lengthFt: 40, type: 'pvc-40', tradeSize: '1-1/2', place: 'underground' },
    ];
    const option = optionOf({ ...garage(), route });
    expect(unitsOf(option, 'pull-out')).toBe(60);
    expect(takenOf(option, 'raceway-cap')).toBeUndefined();
    expect(ruleOf(option, 'old-raceway')).toEqual([]);
  });

  /** NEC 625.40: a charging circuit has no other outlets. */
  it('goes dead with all it fed where only a charging circuit takes its place', () => {
    const option = optionOf(garage({ option: { feed: 'dedicated-circuit', subpanel: undefined } }));
    expect(ruleOf(option, 'old-loads')[0]).toMatchObject({ severity: 'caution', citation: { article: '625.40' } });
    expect(takenOf(option, 'refeed-parts')).toBeUndefined();
  });

  it('stays as long as the new one is not live', () => {
    const option = optionOf(garage({ option: { roughInOnly: true } }));
    expect(unitsOf(option, 'supply-disconnect')).toBeUndefined();
    expect(ruleOf(option, 'old-supply-stays')).toHaveLength(1);
  });
});

describe('an older supply that stays', () => {
  /** NEC 225.30: one supply to a building. 250.32(B)(1): two wires bring no equipment ground. */
  it('stops a second one, and is looked at where it has no ground', () => {
    const option = optionOf(garage({ fate: 'kept', circuit: { ...OLD, wires: 2 } }));
    expect(ruleOf(option, 'one-supply')[0]).toMatchObject({ severity: 'stop', citation: { article: '225.30' } });
    expect(ruleOf(option, 'old-supply-ground')[0]?.citation?.article).toBe('250.32(B)(1)');
    expect(unitsOf(option, 'supply-disconnect')).toBeUndefined();
  });

  it('is asked about where it is described and nobody says what becomes of it', () => {
    expect(ruleOf(optionOf(garage({ fate: 'none' })), 'old-supply-unplaced')[0]?.severity).toBe('caution');
    expect(ruleOf(optionOf({}), 'old-supply-unplaced')).toEqual([]);
  });
});
