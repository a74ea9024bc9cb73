import { describe, expect, it } from 'vitest';
import {
  chargerDisconnect,
  groundFaultProtection,
  individualBranchCircuit,
} from '../../server/electrical/charging-circuit.ts';
import {
  chargerLoadA,
  chargingOcpdA,
  checkCarCable,
  checkReceptacle,
  circuitWires,
  couplerHeight,
  evseLoadVA,
  largestSettingOfOutletA,
  managedLoadA,
  receptacleFacts,
} from '../../server/electrical/ev.ts';

const severities = (findings: readonly { severity: string }[]) => findings.map(({ severity }) => severity);

describe('receptacles for charging', () => {
  // NEMA WD 6: 14-50 has two hots, a neutral and a ground, 6-50 no neutral, 5-15 one hot.
  it('knows which have a neutral', () => {
    expect(circuitWires('receptacle-14-50')).toEqual({ poles: 2, neutral: true, voltageV: 240 });
    expect(circuitWires('receptacle-6-50')).toEqual({ poles: 2, neutral: false, voltageV: 240 });
    expect(circuitWires('receptacle-5-15')).toEqual({ poles: 1, neutral: true, voltageV: 120 });
    expect(circuitWires('hardwired')).toEqual({ poles: 2, neutral: false, voltageV: 240 });
  });

  // 80 % of the smaller: NEC 210.21(B)(2), 625.41.
  it.each([
    ['receptacle-14-50', 50, 40],
    ['receptacle-14-50', 40, 32],
    ['receptacle-6-50', 60, 40],
    ['receptacle-5-15', 20, 12],
    ['receptacle-5-20', 20, 16],
    ['hardwired', 60, 48],
  ] as const)('lets %s on %d A charge at %d A', (connection, ocpdA, amps) => {
    expect(largestSettingOfOutletA({ connection, ocpdA })).toBe(amps);
  });

  // NEC 210.21(B)(1): no 50 A receptacle on 60 A; 48 A × 1.25 = 60 A are more than 50.
  it('stops a 14-50 on a 60 A circuit and at 48 A', () => {
    const on60 = checkReceptacle({ connection: 'receptacle-14-50', ocpdA: 60, amps: 48, edition: '2023' });
    expect(severities(on60)).toEqual(['stop', 'stop']);
    const on50 = checkReceptacle({ connection: 'receptacle-14-50', ocpdA: 50, amps: 40, edition: '2023' });
    expect(severities(on50)).toEqual(['ok']);
  });

  // NEC Table 210.21(B)(3) lets 50 A receptacles sit on 40 A; 625.44 of 2026 does not, from trade articles.
  it('takes a 50 A receptacle off a 40 A circuit in 2026', () => {
    const on40 = (edition: '2023' | '2026') =>
      checkReceptacle({ connection: 'receptacle-6-50', ocpdA: 40, amps: 32, edition })[0]?.severity;
    expect([on40('2023'), on40('2026')]).toEqual(['ok', 'stop']);
    expect(chargingOcpdA({ amps: 32, connection: 'receptacle-6-50', edition: '2023' })).toBe(40);
    expect(chargingOcpdA({ amps: 32, connection: 'receptacle-6-50', edition: '2026' })).toBe(50);
    expect(receptacleFacts('hardwired', '2026')).toBeUndefined();
  });
});

describe('ground-fault protection', () => {
  // NEC 625.54, 210.8(A) and (F): receptacles always; wired, to 50 A, outdoors since 2020, in garages since 2023.
  it.each([
    ['receptacle-14-50', 50, 'garage', '2020', true, 'ok'],
    ['hardwired', 50, 'outdoors', '2020', true, 'caution'],
    ['hardwired', 50, 'garage', '2020', false, 'ok'],
    ['hardwired', 50, 'garage', '2023', true, 'caution'],
    ['hardwired', 60, 'outdoors', '2023', false, 'ok'],
    ['hardwired', 60, 'garage', '2026', false, 'note'],
    ['hardwired', 50, 'indoors', '2023', false, 'ok'],
  ] as const)('of %s on %d A, %s, %s: %s', (connection, ocpdA, place, edition, needed, severity) => {
    const answer = groundFaultProtection({ connection, ocpdA, place, edition });
    expect({ needed: answer.needed, severity: answer.finding.severity }).toEqual({ needed, severity });
  });
});

describe('the disconnect at the charger', () => {
  // NEC 625.43: above 60 A until 2023; all permanently wired equipment in 2026.
  it('is for more than 60 A until 2023, and for all that is wired in 2026', () => {
    const of = (
      ratingA: number,
      edition: '2023' | '2026',
      connection: 'hardwired' | 'receptacle-14-50' = 'hardwired',
    ) => chargerDisconnect({ ratingA, connection, edition }).required;
    expect([of(48, '2023'), of(60, '2023'), of(64, '2023'), of(80, '2023')]).toEqual([false, false, true, true]);
    expect([of(48, '2026'), of(40, '2026', 'receptacle-14-50')]).toEqual([true, false]);
  });
});

describe('what a charger counts', () => {
  // NEC 625.42(B): restricted and labelled. 2020: only fixed in place.
  it('counts a setting that is restricted, else its nameplate', () => {
    const load = (
      setting: 'open' | 'label-and-restricted',
      edition: '2020' | '2023',
      connection: 'hardwired' | 'receptacle-14-50',
    ) => chargerLoadA({ amps: 32, nameplateA: 48, setting, connection, edition }).loadA;
    expect(load('label-and-restricted', '2023', 'receptacle-14-50')).toBe(32);
    expect(load('open', '2023', 'hardwired')).toBe(48);
    expect(load('label-and-restricted', '2020', 'hardwired')).toBe(32);
    expect(load('label-and-restricted', '2020', 'receptacle-14-50')).toBe(48);
    expect(chargerLoadA({ amps: 32, setting: 'open', connection: 'hardwired', edition: '2023' })).toEqual({
      loadA: 32,
    });
  });

  // NEC 220.57 (2023): the larger of 7,200 VA and nameplate; 625.42 (2020) and 120.57 (2026): the nameplate.
  it('lifts small chargers to 7,200 VA in 2023 only, and never a managed setting', () => {
    expect(evseLoadVA({ nameplateVA: 3840, edition: '2020' })).toBe(3840);
    expect(evseLoadVA({ nameplateVA: 3840, edition: '2023' })).toBe(7200);
    expect(evseLoadVA({ nameplateVA: 11_520, edition: '2023' })).toBe(11_520);
    expect(evseLoadVA({ nameplateVA: 3840, edition: '2026' })).toBe(3840);
    expect(evseLoadVA({ nameplateVA: 3840, managed: true, edition: '2023' })).toBe(3840);
  });

  it('counts managed chargers at the setting of the system', () => {
    expect(managedLoadA({ chargersA: [48, 48], maxA: 48 })).toBe(48);
    expect(managedLoadA({ chargersA: [16, 16], maxA: 48 })).toBe(32);
  });
});

describe('a circuit of its own', () => {
  const outlet = { voltageV: 120, ocpdA: 15 } as const;

  // NEC 625.40: 2020 every outlet for charging; 2023 outlets above 16 A or 120 V.
  it.each([
    [12, '2023', ['freezer'], 'caution'],
    [12, '2023', [], 'ok'],
    [12, '2023', null, 'caution'],
    [12, '2020', ['freezer'], 'caution'],
    [16, '2023', ['freezer'], 'stop'],
  ] as const)('asks of %d A in %s, shared with %j: %s', (amps, edition, sharedWith, severity) => {
    expect(individualBranchCircuit({ ...outlet, amps, edition, sharedWith }).severity).toBe(severity);
  });

  it('stops a 240 V charger that shares, unless it is managed', () => {
    const charger = { voltageV: 240, ocpdA: 50, amps: 40, sharedWith: ['dryer'], edition: '2023' } as const;
    expect(individualBranchCircuit(charger).severity).toBe('stop');
    expect(individualBranchCircuit({ ...charger, managed: true })).toMatchObject({
      severity: 'ok',
      rule: 'load-management',
    });
  });
});

describe('cable and coupler', () => {
  // NEC 625.17(C): 25 ft; 625.50: 18 in inside, 24 in outside.
  it('knows how long and how high', () => {
    expect(checkCarCable({ cordFt: 25, edition: '2023' }).severity).toBe('ok');
    expect(checkCarCable({ cordFt: 26, edition: '2023' }).severity).toBe('caution');
    expect(couplerHeight({ outdoors: true, edition: '2023' }).numbers).toEqual({ leastIn: 24 });
    expect(couplerHeight({ outdoors: false, edition: '2023' }).numbers).toEqual({ leastIn: 18 });
  });
});
