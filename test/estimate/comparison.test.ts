import { describe, expect, it } from 'vitest';
import { readDescription } from '../../server/estimate/description.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import { SEEDED } from './fields/priced.ts';

const charger = { amps: 32, connection: 'hardwired', equipment: 'owned', distanceFt: 4 };
const garage = (site: Record<string, unknown>, subpanel: Record<string, unknown>) =>
  estimate(
    readDescription({
      title: 'A household for tests',
      asOf: '2025-08-01',
      site: {
        building: 'detached',
        service: { ratingA: 200, freeSpaces: 6 },
        load: { method: 'measured', peakA: 60, days: 365 },
        ...site,
      },
      route: '20 joists, 30 lawn-trench',
      options: [
        { id: 'circuit', label: 'circuit', feed: 'dedicated-circuit', chargers: [charger] },
        {
          id: 'panel',
          label: 'panel',
          feed: 'subpanel',
          chargers: [charger],
          subpanel: { ratingA: 100, spaces: 12, feederA: 90, ...subpanel },
        },
      ],
    }),
    SEEDED,
    { parts: 'core' },
  );
const buysOf = (answer: ReturnType<typeof garage>) =>
  answer.comparison.rows.find(({ option }) => option === 'panel')?.buys ?? [];

describe('what a panel buys over a circuit', () => {
  /** Two poles of the charger, one of the receptacles, one of the light, and two kept for the welder: 6 spaces. */
  it('is the panel that is bought, with the spaces that are left of it', () => {
    const answer = garage({}, { otherCircuits: [{ use: 'welder', amps: 30, poles: 2 }] });
    const panel = answer.options[1]?.lines.find(({ key }) => key.startsWith('panel-'));
    const spaces = Number(panel?.key.match(/^panel-100a-(\d+)sp-/)?.[1]);
    expect(spaces).toBeGreaterThanOrEqual(12);
    expect(buysOf(answer)).toContain(
      `a panel of 100 A at the parking place, fed by 90 A, with ${spaces - 6} of ${spaces} spaces left for later`,
    );
  });

  /** NEC 210.52(G)(1), 210.70(A)(2): from memory. */
  it('is also the receptacle and the light that a detached garage must have, which the circuit lacks', () => {
    const answer = garage({}, {});
    expect(buysOf(answer)).toContain(
      'includes what the code asks of a garage with power: the receptacles and the light',
    );
    const lacking = answer.options[0]?.findings.filter(({ rule }) => rule.startsWith('garage-')) ?? [];
    expect(lacking.map(({ rule, severity }) => [rule, severity])).toEqual([
      ['garage-receptacles', 'caution'],
      ['garage-light', 'caution'],
    ]);
    for (const { message } of lacking)
      expect(message).toMatch(/not part of this option: it may not hang on the charging/);
    const there = garage({ garage: { existing: ['receptacles', 'light'] } }, {});
    expect(buysOf(there).join()).not.toMatch(/asks of a garage/);
  });
});
