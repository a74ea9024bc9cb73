import { describe, expect, it } from 'vitest';
import { type Parts, plansFor } from './shop.ts';

const parts = (amps: number, receptacle: Record<string, unknown> = {}, connection = 'receptacle-5-15'): Parts => ({
  route: [],
  option: {
    feed: 'existing-receptacle',
    chargers: [{ amps, connection, equipment: 'owned' }],
    receptacle: { circuitA: 15, sharedWith: [], gfci: true, grounded: true, ...receptacle },
  },
});
const said = (stated: Parts, rule: string) => plansFor(stated)[0]?.findings.find((finding) => finding.rule === rule);

describe('a circuit that is there', () => {
  /**
   * Chapter 9 Table 8, stranded copper: 14 AWG 3.14 Ω, 6 AWG 0.491 Ω per 1,000 ft. 2 × 12 A × 3.14 × 0.05 = 3.768 V of
   * 120 V = 3.14 %; 2 × 40 A × 0.491 × 0.05 = 1.964 V of 240 V = 0.8183 %.
   */
  it.each([
    [parts(12), 3.14],
    [parts(40, { circuitA: 50 }, 'receptacle-14-50'), 0.8183],
  ])('has a drop that is not known, with an example', (stated, exampleDropPercent) => {
    const drop = said(stated, 'voltage-drop');
    expect(drop).toMatchObject({ severity: 'note', numbers: { exampleFt: 50, exampleDropPercent } });
    expect(drop?.message).toMatch(/is not known/);
  });

  // Common practice, no source.
  it('warns of a receptacle that hours of 12 A overheat, unless it is replaced', () => {
    expect(said(parts(12), 'worn-receptacle')?.severity).toBe('caution');
    expect(said(parts(12, { replace: true }), 'worn-receptacle')).toBeUndefined();
    expect(said(parts(8), 'worn-receptacle')).toBeUndefined();
  });
});
