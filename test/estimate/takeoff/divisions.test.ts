import { describe, expect, it } from 'vitest';
import { optionOf, takenOf, unitsOf } from '../fields/priced.ts';

/** So many chargers of 40 A that share a circuit of 50 A: 20 ft of tubing of 1/2 in on a wall, 6 ft to the farthest. */
function shared(count: number, connection = 'hardwired') {
  const charger = { amps: 40, connection, equipment: 'owned', distanceFt: 6, group: 'A' };
  return optionOf({
    route: '20 interior-surface method=emt',
    option: {
      chargers: Array.from({ length: count }, () => charger),
      loadManagement: { kind: 'shared-circuit', maxA: 40 },
    },
  });
}

describe('a circuit that several wired chargers share', () => {
  it('divides at each of them but the last: a box with a joint for each conductor', () => {
    // 8 AWG: two hots by insulated connectors, the ground of 10 AWG by a twist-on one; steel, for tubing comes in (314.3).
    for (const count of [2, 3]) {
      const option = shared(count);
      const divisions = count - 1;
      expect(unitsOf(option, 'splice-cable')).toBe(divisions);
      expect(takenOf(option, 'box-411-square')).toBe(divisions);
      expect(takenOf(option, 'splice-insulated-tap-6-14')).toBe(2 * divisions);
      expect(takenOf(option, 'twist-connectors')).toBe(divisions);
      expect(takenOf(option, 'emt-connector-1_2')).toBe(2 + 2 * divisions);
    }
  });

  /** 20 + 6 ft + 5 ft in the panel + 1 ft at the outlet, and for each division three ends in its box and one at a charger. */
  it('has wire to spare at each box', () => {
    const cut = (count: number) => shared(count).runs[0]?.wire[0]?.cutLengthFt;
    expect([cut(1), cut(2), cut(3)]).toEqual([32, 36, 40]);
  });

  it('does not divide for chargers that plug in, which hang on a splitter', () => {
    const option = shared(2, 'receptacle-14-50');
    expect(takenOf(option, 'lm-splitter-2out')).toBe(1);
    expect(unitsOf(option, 'splice-cable')).toBeUndefined();
  });
});
