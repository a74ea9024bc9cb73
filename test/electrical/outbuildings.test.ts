import { describe, expect, it } from 'vitest';
import {
  buildingDisconnect,
  buildingGrounding,
  checkOneSupply,
  checkPanelProtection,
  garageDuties,
} from '../../server/electrical/outbuildings.ts';

const edition = '2023';

describe('the supply of a separate building', () => {
  // NEC 225.30: one feeder or one branch circuit.
  it('is one, unless the authority agrees', () => {
    const of = (existingSupply: 'none' | 'removed' | 'kept', agreedByAuthority = false) =>
      checkOneSupply({ existingSupply, newSupply: 'branch-circuit', agreedByAuthority, edition });
    expect([of('none').severity, of('removed').severity, of('kept').severity]).toEqual(['ok', 'note', 'stop']);
    expect(of('kept', true)).toMatchObject({ severity: 'caution', citation: { article: '225.30(E)' } });
  });

  // NEC 225.39: 15 A for one branch circuit, 30 A for two, 60 A for all others, 100 A for a dwelling.
  it('ends in a disconnect of the rating that its circuits ask for', () => {
    const of = (supply: 'branch-circuit' | 'feeder', branchCircuits: number, loadA: number, isDwelling = false) =>
      buildingDisconnect({ supply, branchCircuits, loadA, isDwelling, edition }).leastRatingA;
    expect(of('branch-circuit', 1, 12)).toBe(15);
    expect(of('branch-circuit', 1, 50)).toBe(50);
    expect(of('branch-circuit', 2, 12)).toBe(30);
    expect(of('feeder', 1, 40)).toBe(60);
    expect(of('feeder', 6, 90)).toBe(90);
    expect(of('feeder', 6, 40, true)).toBe(100);
  });
});

describe('grounding of a separate building', () => {
  // NEC 250.32(A), (B)(1), (E); Table 250.66: 1 AWG aluminum needs 8 AWG, and 250.64(B) lets 6 AWG run without a raceway.
  it('takes two rods and a separate neutral with a feeder', () => {
    const grounding = buildingGrounding({
      supply: 'feeder',
      conductorSize: '1',
      conductorMetal: 'aluminum',
      neutral: true,
      edition,
    });
    expect(grounding).toMatchObject({ electrodesNeeded: true, rods: 2, conductorSize: '6', separateNeutral: true });
    expect(grounding.findings.map(({ citation }) => citation?.article)).toEqual(['250.32(A)', '250.32(B)(1)']);
  });

  it('takes no rods with a single branch circuit that brings its ground', () => {
    const circuit = {
      supply: 'branch-circuit',
      conductorSize: '6',
      conductorMetal: 'copper',
      neutral: false,
      edition,
    } as const;
    expect(buildingGrounding(circuit)).toMatchObject({ electrodesNeeded: false, rods: 0 });
    expect(buildingGrounding(circuit).conductorSize).toBeUndefined();
  });
});

describe('a garage that gets power', () => {
  // NEC 210.52(G)(1), 210.70(A)(2).
  it('gets a receptacle in each bay and a light, but for what is there', () => {
    expect(garageDuties({ bays: 2, existing: [], edition })).toMatchObject({ receptacles: 2, light: true });
    expect(garageDuties({ bays: 2, existing: ['receptacles', 'light'], edition })).toEqual({
      receptacles: 0,
      light: false,
      findings: [],
    });
  });
});

describe('a panel', () => {
  // NEC 408.36.
  it('is never fed by a larger device than itself', () => {
    expect(checkPanelProtection({ panelA: 125, ocpdA: 60, edition }).severity).toBe('ok');
    expect(checkPanelProtection({ panelA: 100, ocpdA: 110, edition })).toMatchObject({
      severity: 'stop',
      message: 'A panel of 100 A may not be fed by a 110 A device. Take a panel of at least 110 A or a smaller feeder.',
    });
  });
});
