import { describe, expect, it } from 'vitest';
import { optionOf, takenOf } from '../fields/priced.ts';

const CHARGER = { amps: 40, connection: 'hardwired', equipment: 'owned', distanceFt: 4, outdoors: true };

/** How many of a PVC piece of 3/4 in a circuit of 50 A takes: its climbs and its entry are of that trade size. */
function pieces(route: string, piece: string): number | undefined {
  return takenOf(optionOf({ route, option: { chargers: [CHARGER] } }), `pvc-40-${piece}-3_4`);
}

/** A way through a wall, PVC outside. Common practice, no source: male thread needs a female one, and the other way round. */
describe('what a raceway through a wall ends in inside', () => {
  it('takes the thread of steel raceway that goes on', () => {
    const route = '12 interior-surface method=emt, 20 lawn-trench method=pvc';
    expect(pieces(route, 'lb')).toBe(1);
    expect(pieces(route, 'female-adapter')).toBe(1);
    expect(pieces(route, 'male-adapter')).toBeUndefined();
    expect(pieces(route, 'locknut-bushing')).toBeUndefined();
  });

  it('is an adapter with its nut where a panel stands behind the wall', () => {
    const route = '20 lawn-trench method=pvc';
    expect(pieces(route, 'lb')).toBe(1);
    expect(pieces(route, 'male-adapter')).toBe(1);
    expect(pieces(route, 'locknut-bushing')).toBe(1);
    expect(pieces(route, 'female-adapter')).toBeUndefined();
  });
});
