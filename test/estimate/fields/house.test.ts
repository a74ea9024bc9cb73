import { describe, expect, it } from 'vitest';
import { optionOf, ruleOf, takenOf, unitsOf } from './priced.ts';

const service = (more: Record<string, unknown>) => ({ site: { service: { ratingA: 200, freeSpaces: 6, ...more } } });
const panel = (kind: string | null, state: string | null = 'current') => service({ panel: { kind, state } });
const REPLACED = { serviceUpgrade: { toA: 200, supply: 'overhead', meter: 'keep', panel: 'replace' } };

describe('the panel that is there', () => {
  it('takes no new circuit where it has fuses or is known to fail, unless it is replaced', () => {
    const kind = ruleOf(optionOf(panel('fuses')), 'panel-kind')[0];
    expect(kind).toMatchObject({ severity: 'stop' });
    expect(kind?.message).toMatch(/electrician/);
    const hazard = panel('service-equipment', 'known-hazard');
    expect(ruleOf(optionOf(hazard), 'panel-state')[0]?.severity).toBe('stop');
    const replaced = optionOf({ ...panel('fuses', 'known-hazard'), option: REPLACED });
    expect(
      [...ruleOf(replaced, 'panel-kind'), ...ruleOf(replaced, 'panel-state')].map(({ severity }) => severity),
    ).toEqual(['note', 'note']);
    expect(unitsOf(replaced, 'panel-swap-like')).toBe(1);
  });

  it('is looked at first where it is a split bus, no longer made, or not known', () => {
    const severities = (kind: string | null, state: string | null) => {
      const option = optionOf(panel(kind, state));
      return ['panel-kind', 'panel-state'].map((rule) => ruleOf(option, rule)[0]?.severity);
    };
    expect(severities('split-bus', 'obsolete')).toEqual(['caution', 'caution']);
    expect(severities(null, null)).toEqual(['caution', 'caution']);
    expect(severities('fed-from-outside-disconnect', 'current')).toEqual(['note', 'ok']);
  });

  /**
   * Oversized fuses: 240.4. More than six switches that end the service: 230.71. Breakers listed for the panel: 110.3(B).
   * Neutral apart from the grounds beyond the service: 250.142(B). A panel that nobody has looked at breaks no article by
   * that; breakers that may not trip protect no conductor: 240.4. Numbers from memory.
   */
  it('is judged by the articles that it rests on', () => {
    const cord = {
      feed: 'existing-receptacle',
      chargers: [{ amps: 12, connection: 'receptacle-5-15', equipment: 'owned' }],
      receptacle: { circuitA: 15, sharedWith: [], gfci: true, grounded: true },
    };
    const articlesOf = (kind: string | null, state: string | null, option = {}) => {
      const found = optionOf({ ...panel(kind, state), option });
      return ['panel-kind', 'panel-state'].map((rule) => ruleOf(found, rule)[0]?.citation?.article);
    };
    expect(articlesOf('fuses', 'current', cord)).toEqual(['240.4', undefined]);
    expect(articlesOf('split-bus', 'obsolete')).toEqual(['230.71', '110.3(B)']);
    expect(articlesOf('fed-from-outside-disconnect', 'current')).toEqual(['250.142(B)', undefined]);
    expect(articlesOf(null, null)).toEqual([undefined, undefined]);
    expect(articlesOf('fuses', 'known-hazard')).toEqual(['110.3(B)', '240.4']);
  });

  /** NEC 408.36: nothing above the rating of the panel protects it. */
  it('has a bus no smaller than its main breaker', () => {
    const bus = (panelBusA: number) => ruleOf(optionOf(service({ panelBusA })), 'panel-bus')[0];
    expect(bus(125)).toMatchObject({ severity: 'stop', citation: { article: '408.36' } });
    expect(bus(200)?.severity).toBe('ok');
  });

  /** 705.12(B), from memory: 120 % of 200 A is 240 A; 200 + 40 A fit, 200 + 50 A do not, 120 % of 225 A is 270 A. */
  it('shares its bus with solar within 120 %', () => {
    const shared = (backfeedA: number, panelBusA?: number) =>
      ruleOf(optionOf(service({ backfeedA, ...(panelBusA && { panelBusA }) })), 'backfed-bus')[0];
    expect(shared(40, 200)).toMatchObject({ severity: 'ok', numbers: { mostA: 240 } });
    expect(shared(50, 200)?.severity).toBe('caution');
    expect(shared(50, 225)).toMatchObject({ severity: 'ok', numbers: { mostA: 270 } });
    expect(shared(40)?.severity).toBe('caution');
    expect(ruleOf(optionOf(service({})), 'backfed-bus')).toEqual([]);
  });

  /** NEC 220.87: no measurement where something is produced behind the meter. */
  it('is not measured where solar hides the load', () => {
    const option = optionOf(service({ backfeedA: 40, panelBusA: 200 }));
    expect(ruleOf(option, 'hidden-load')[0]?.citation?.article).toBe('220.87');
    expect(option.service.fits).toBe('unknown');
  });
});

describe('what is in the walls', () => {
  const route = '10 finished-ceiling, 8 finished-wall, 12 exterior-wall';
  const house = (hazards: string[] | null, more: Record<string, unknown> = {}) => ({
    site: { hazards, ...more },
    route,
  });

  /**
   * Three legs behind or on a surface, and two walls: out of the house after the second leg, back in to the garage at the
   * end. Five places, ours; one test of samples, five kits, five times the care. Common practice, no source.
   */
  it('is worked with care where it is asbestos or lead, and that care is priced', () => {
    const asbestos = optionOf(house(['asbestos']));
    expect([takenOf(asbestos, 'asbestos-test'), takenOf(asbestos, 'asbestos-care-kit')]).toEqual([1, 5]);
    expect(unitsOf(asbestos, 'asbestos-care')).toBe(5);
    const lead = optionOf(house(['lead-paint']));
    expect([takenOf(lead, 'lead-care-kit'), unitsOf(lead, 'lead-care')]).toEqual([5, 5]);
    expect(lead.complete && asbestos.complete).toBe(true);
    expect(unitsOf(optionOf(house([])), 'asbestos-care')).toBeUndefined();
  });

  it('costs nothing in walls that are new', () => {
    const option = optionOf(house(['asbestos', 'lead-paint'], { work: 'new-construction' }));
    expect(unitsOf(option, 'asbestos-care')).toBeUndefined();
    expect(ruleOf(option, 'hazard')).toEqual([]);
  });

  it('is asked about in an old house, where nobody knows', () => {
    const said = (yearBuilt: number) => ruleOf(optionOf(house(null, { yearBuilt })), 'hazard')[0]?.message ?? '';
    expect(said(1960)).toMatch(/lead paint and asbestos/);
    expect(said(1980)).toMatch(/may have asbestos/);
    expect(said(1995)).toBe('');
  });

  it('keeps a charger off old aluminum and knob-and-tube wiring', () => {
    const receptacle = { circuitA: 20, sharedWith: [], gfci: true, grounded: true };
    const chargers = [{ amps: 12, connection: 'receptacle-5-20', equipment: 'owned' }];
    const outlet = { feed: 'existing-receptacle', receptacle, chargers };
    const severity = (hazard: string, option: Record<string, unknown>) =>
      ruleOf(optionOf({ site: { hazards: [hazard] }, option }), 'hazard')[0]?.severity;
    expect(severity('aluminum-branch', outlet)).toBe('stop');
    expect(severity('knob-and-tube', outlet)).toBe('stop');
    expect(severity('aluminum-branch', {})).toBe('caution');
  });

  it('prices a slab whose steel is not known as without, and says so', () => {
    const slab = (reinforcement: string | null) => ({
      site: { building: 'detached' },
      route: [
        { kind: 'joists', lengthFt: 20 },
        { kind: 'concrete-cut', lengthFt: 12, reinforcement },
      ],
    });
    const unknown = optionOf(slab(null));
    expect(ruleOf(unknown, 'slab-steel')[0]).toMatchObject({ severity: 'note', leg: 1 });
    expect(unknown.totals.totalCents).toBe(optionOf(slab('none')).totals.totalCents);
  });
});
