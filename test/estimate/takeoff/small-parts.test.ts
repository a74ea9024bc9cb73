import { describe, expect, it } from 'vitest';
import { boxFor } from '../../../server/estimate/takeoff/box-sizes.ts';
import { cableTradeSize } from '../../../server/estimate/takeoff/risers.ts';
import type { ConductorSize } from '../../../server/estimate/vocabulary.ts';
import { optionOf, takenOf, unitsOf } from '../fields/priced.ts';
import { section } from './plans.ts';

/** A charger of so many amperes over 20 ft of joists in nonmetallic cable. */
const wired = (amps: number, site: Record<string, unknown> = {}) =>
  optionOf({
    site,
    route: [{ kind: 'joists', lengthFt: 20, method: 'nm-b' }],
    option: { chargers: [{ amps, connection: 'hardwired', equipment: 'owned', distanceFt: 4 }] },
  });
const plugged = (outdoors: boolean) =>
  optionOf({
    route: [{ kind: 'joists', lengthFt: 20, method: 'nm-b' }],
    option: {
      chargers: [{ amps: 40, connection: 'receptacle-14-50', equipment: 'owned', distanceFt: 0, outdoors }],
    },
  });

describe('tape', () => {
  it('marks the white wire of a cable of two, which is hot at 240 V', () => {
    const line = wired(32).lines.find(({ key }) => key === 'tape-color');
    expect(line?.because).toEqual(['the white wire of a cable of two is hot here, and is marked so at both ends']); // NEC 200.7(C)(1)
    expect(takenOf(plugged(false), 'tape-color')).toBeUndefined(); // 6/3: its white wire is the neutral
  });

  it('covers the conductor of a cable of three that serves nothing', () => {
    // 48 A take 4 AWG in cable, 4/2 is not sold; the ends of the third wire are capped. Common practice, no source.
    expect(takenOf(wired(48), 'tape-vinyl')).toBe(1);
    expect(takenOf(wired(32), 'tape-vinyl')).toBeUndefined();
  });
});

describe('connectors of cable', () => {
  it('serve metal boxes and panels only, for a plastic box clamps the cable itself', () => {
    expect(takenOf(plugged(false), 'cable-connector-nm-3_4')).toBe(1); // the panel; NEC 314.17(B)
    expect(takenOf(wired(32), 'cable-connector-nm-3_4')).toBe(2); // panel and charger, 312.5(C)
  });

  it('hold 4/3 of nonmetallic cable, some 0.85 in thick, by one of 1 in', () => {
    expect(takenOf(wired(48), 'cable-connector-nm-3_4')).toBe(2);
    expect(takenOf(wired(48), 'cable-connector-ser')).toBeUndefined();
  });
});

describe('small boxes', () => {
  const named = (size: ConductorSize, what: { inside: boolean; isMetal?: boolean; isEnd?: boolean }) =>
    boxFor({ size, entries: ['3/4'], ...what }).name;

  it('are of steel where metal raceway comes in: a plastic one would break its bond, NEC 314.3', () => {
    expect(named('6', { inside: true, isMetal: true })).toBe('box-411-square');
    expect(named('6', { inside: false, isMetal: true })).toBe('jbox-steel-8x8x4-3r');
    expect(named('6', { inside: false })).toBe('jbox-pvc-6x6x4');
  });

  it('lie flush in a stud wall where a run only ends in them', () => {
    // 3 × 5.00 of 6 AWG + 2.50 of the ground + a clamp of 5.00 = 22.5 in³ of 30.3 in³: NEC 314.16.
    expect(named('6', { inside: true, isEnd: true })).toBe('box-4in-square-deep');
  });
});

/** NEC 314.28(A): the least raceway for the cable's conductors. Chapter 9 Table 1 and 4: 40 % of PVC schedule 40. */
describe('a cable counts as the raceway that would hold its conductors', () => {
  const cable = (form: 'ser' | 'nm-b', size: ConductorSize, groundSize: ConductorSize) =>
    cableTradeSize(section({ insulation: form, cable: { form, conductors: 3 }, size, groundSize, legs: [] }));

  it.each([
    ['ser', '1', '3', '1-1/4'], // 3 × 0.1534 + 0.053 = 0.5132 in² of 0.581
    ['ser', '1/0', '2', '1-1/2'], // 3 × 0.1825 + 0.067 = 0.6145 in² of 0.794
    ['nm-b', '4', '8', '1'], // 3 × 0.0824 + 0.017 = 0.2642 in² of 0.333
  ] as const)('%s %s with ground %s: %s in', (form, size, groundSize, tradeSize) => {
    expect(cable(form, size, groundSize)).toBe(tradeSize);
  });
});

describe('raceway that is roughed in', () => {
  const roughedIn = (work: string) =>
    optionOf({ site: { work }, route: '20 interior-surface method=emt', option: { roughInOnly: true } });

  it('lands in a panel whose cover comes off, but for a new house, where it is not on yet', () => {
    expect(unitsOf(roughedIn('retrofit'), 'panel-cover')).toBe(1);
    expect(unitsOf(roughedIn('new-construction'), 'panel-cover')).toBeUndefined();
  });
});

describe('the way to a charger out of doors', () => {
  it('is schedule 80 where cars come near, NEC 352.10(K)', () => {
    const option = optionOf({ site: { building: 'outdoor' }, route: '20 exterior-wall method=pvc' });
    // 8 AWG and ground: 2 × 0.0366 + 0.0211 = 0.0943 in². 40 % of 1/2 in: 0.114 in² in schedule 40, 0.087 in schedule 80.
    expect(takenOf(option, 'pvc-80-3_4')).toBe(4.2); // 4 ft, 5 % waste
    expect(takenOf(option, 'pvc-40-box-adapter-3_4')).toBe(1);
    expect(takenOf(option, 'pvc-reducer')).toBe(1);
  });
});
