import { describe, expect, it } from 'vitest';
import { optionOf } from './fields/priced.ts';

describe('a method that a leg does not have', () => {
  /**
   * NEC 250.122(B): 8 AWG carries 40 A, larger sizes are for the drop alone. Cable of 6 AWG has a ground of 10 AWG where 8
   * AWG is asked for, cable of 4 AWG one of 8 AWG where it is 6 AWG (10,380 × 41,740 / 16,510 = 26,242 cmil, within 0.2 % of
   * the 26,240 of 6 AWG): no cable of any size keeps the drop lawfully.
   */
  it('is barred by the article on enlarged grounds, and not for want of a shop that sells it', () => {
    const chargers = [{ amps: 32, connection: 'hardwired', equipment: 'owned' }];
    const option = optionOf({ route: '90 joists', option: { metal: 'copper', maxDropPercent: 1, chargers } });
    const [leg] = option.runs[0]?.legs ?? [];
    const cable = leg?.others.find(({ method }) => method === 'nm-b');
    expect(cable).toMatchObject({ forbiddenBy: { article: '250.122(B)' } });
    expect(cable?.moreCents).toBeUndefined();
  });

  it('has its price where another size of it would do', () => {
    const option = optionOf({ route: '40 joists' });
    for (const { forbiddenBy, moreCents } of option.runs[0]?.legs[0]?.others ?? []) {
      expect(forbiddenBy === undefined || moreCents === undefined).toBe(true);
    }
    expect(option.runs[0]?.legs[0]?.others.some(({ moreCents }) => moreCents !== undefined)).toBe(true);
  });
});
