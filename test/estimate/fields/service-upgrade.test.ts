import { describe, expect, it } from 'vitest';
import { optionOf, ruleOf, type Stated, takenOf, unitsOf } from './priced.ts';

/** A full 100 A service that is to become one of so many amperes. */
function upgraded(upgrade: Record<string, unknown> = {}, service: Record<string, unknown> = {}): Stated {
  return {
    site: {
      service: { ratingA: 100, freeSpaces: 0, ...service },
      load: { method: 'measured', peakA: 60, days: 365 },
    },
    option: { serviceUpgrade: { toA: 200, supply: 'overhead', meter: 'replace', panel: 'replace', ...upgrade } },
  };
}

describe('a larger service', () => {
  /** Common practice, no source, but for surge (230.67) and the disconnect outside (230.85), which is in the meter-main. */
  it('takes panel, meter-main, entrance, surge protection, the utility’s charge, the permit and the hours', () => {
    const option = optionOf(upgraded());
    const once = ['panel-200a-40sp-mb-indoor', 'panel-200a-meter-main', 'service-entrance-oh-200', 'service-breakers'];
    const fees = ['utility-service-overhead', 'permit-service-upgrade'];
    for (const key of [...once, ...fees, 'surge-type2', 'service-label']) expect(takenOf(option, key), key).toBe(1);
    expect(unitsOf(option, 'service-upgrade-oh-200')).toBe(1);
    expect(takenOf(option, 'disc-200-switch')).toBeUndefined();
    expect(option.complete).toBe(true);
  });

  /**
   * Table 310.12(A): 200 A on 4/0 aluminum; Table 250.66: 4 AWG copper to the water pipe, and to rods no more than 6 AWG
   * (250.66(A)). Rods: two, 6 ft apart (250.53(A)): 15 + 6 ft; pipe: 25 ft. 3 % waste: 21.63 and 25.75 ft.
   */
  it('brings the electrodes up to date', () => {
    const option = optionOf(upgraded());
    expect([takenOf(option, 'ground-rod-8'), takenOf(option, 'water-pipe-clamp')]).toEqual([2, 1]);
    expect([takenOf(option, 'bare-6-cu'), takenOf(option, 'bare-4-cu')]).toEqual([21.63, 25.75]);
  });

  /** With the disconnect outside, neutral and grounds part in the panel: NEC 250.24(A)(5), 408.40. */
  it('gives each new panel a bar for its grounds', () => {
    expect(takenOf(optionOf(upgraded()), 'ground-bar-kit')).toBe(1);
    expect(takenOf(optionOf(upgraded({ toA: 400 })), 'ground-bar-kit')).toBe(2);
    expect(takenOf(optionOf(upgraded({ panel: 'keep' }, { panelBusA: 200 })), 'ground-bar-kit')).toBeUndefined();
  });

  /** Its cover is off while it is put in, and a new panel is not crowded, whatever the year of the house. */
  it('opens no cover of a new panel, and works in it without hindrance', () => {
    const old = { site: { yearBuilt: 1972 } };
    const kept = optionOf(old);
    const option = optionOf({ ...upgraded(), site: { ...upgraded().site, ...old.site } });
    const factorOf = ({ labor }: typeof option) => labor.tasks.find(({ key }) => key === 'breaker-2p-small')?.factor;
    expect([unitsOf(kept, 'panel-cover'), factorOf(kept)]).toEqual([1, 1.12]);
    expect([unitsOf(option, 'panel-cover'), factorOf(option)]).toEqual([undefined, 1]);
  });

  it('has buried lines marked before its rods are driven', () => {
    const option = optionOf(upgraded());
    expect(unitsOf(option, 'locate-call')).toBe(1);
    expect(option.schedule[0]?.step).toBe('locate buried lines');
  });

  /** 220.87: 1.25 × 60 A = 75 A; + 1.25 × 32 A = 40 A: 115 A, too much for 100 A, not for 200 A. */
  it('carries what the old one did not', () => {
    expect(optionOf({ ...upgraded(), option: {} }).service).toMatchObject({ withA: 115, fits: 'no' });
    const option = optionOf(upgraded());
    expect(option.service).toMatchObject({ withA: 115, fits: 'yes' });
    expect(option.buildable).toBe(true);
    expect(ruleOf(option, 'panel-spaces')[0]?.severity).toBe('ok');
    expect(takenOf(option, 'tandem-breaker')).toBeUndefined();
  });

  it('waits for the utility, and is visited by it', () => {
    const option = optionOf(upgraded());
    expect(option.labor.visits.find(({ why }) => why === 'utility')?.days).toBe(1);
    expect(option.schedule.find(({ step }) => step === 'utility')?.waitDays).toBeGreaterThan(0);
  });

  it('has a switch as disconnect where the meter stays', () => {
    const option = optionOf(upgraded({ meter: 'keep' }));
    expect(takenOf(option, 'disc-200-switch')).toBe(1);
    expect(takenOf(option, 'panel-200a-meter-main')).toBeUndefined();
  });

  it('takes two panels of 200 A for 400 A', () => {
    const option = optionOf(upgraded({ toA: 400, supply: 'underground' }));
    expect(takenOf(option, 'panel-200a-40sp-mb-indoor')).toBe(2);
    expect(takenOf(option, 'panel-320a-meter-main')).toBe(1);
    expect(unitsOf(option, 'service-400')).toBe(1);
    expect(takenOf(option, 'utility-service-underground')).toBe(1);
    expect(ruleOf(option, 'service-lateral')).toHaveLength(1);
  });

  /** 10 ft + 2 × 5 ft at the panels, 5 % waste: 21 ft of SER 4/0, Table 310.12(A). */
  it('lengthens the circuits of a panel that moves', () => {
    const option = optionOf(upgraded({ relocateFt: 10 }));
    expect(takenOf(option, 'ser-4_0-4_0-4_0-2_0-al')).toBe(21);
    expect([takenOf(option, 'service-relocate-wire'), unitsOf(option, 'service-relocate')]).toEqual([10, 10]);
    expect(ruleOf(option, 'panel-moved')[0]?.severity).toBe('caution');
  });

  it('is a replacement where the rating stays: no entrance, no share of the utility’s', () => {
    const option = optionOf(upgraded({ toA: 100, meter: 'keep' }));
    expect(unitsOf(option, 'panel-swap-like')).toBe(1);
    expect(takenOf(option, 'utility-disconnect')).toBe(1);
    expect(takenOf(option, 'service-entrance-oh-200')).toBeUndefined();
    expect(ruleOf(option, 'service-rating')[0]?.severity).toBe('note');
  });

  /** NEC 230.66(B), from memory: meter sockets are listed and rated for the service. */
  it('says what is not known, and how to find out', () => {
    const option = optionOf(upgraded({ supply: null, meter: null }));
    expect(ruleOf(option, 'service-supply')[0]?.message).toMatch(/pole/);
    expect(ruleOf(option, 'service-meter')[0]?.message).toMatch(/utility/);
    expect(ruleOf(option, 'service-meter')[0]?.citation?.article).toBe('230.66(B)');
    expect(option.buildable).toBe(true);
  });

  /** NEC 230.79(C): a dwelling's disconnect is at least 100 A. 225 A is no panel of the starting book. */
  it('is not planned below 100 A, below what is there, or in a rating that is not sold', () => {
    const severity = (toA: number, ratingA = 60) =>
      ruleOf(optionOf(upgraded({ toA }, { ratingA })), 'service-rating')[0]?.severity;
    expect([severity(80), severity(225), severity(100, 150), severity(100)]).toEqual(['stop', 'stop', 'stop', 'ok']);
  });

  /** NEC 408.36: the panel is not fed above its rating. */
  it('keeps a panel only where its bus carries the service', () => {
    const kept = (panelBusA?: number) =>
      ruleOf(optionOf(upgraded({ panel: 'keep' }, panelBusA ? { panelBusA } : {})), 'kept-panel')[0]?.severity;
    expect([kept(125), kept(200), kept()]).toEqual(['stop', 'note', 'caution']);
  });
});
