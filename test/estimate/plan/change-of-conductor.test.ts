import { describe, expect, it } from 'vitest';
import { openOption, planBy } from '../../../server/estimate/plan/plan.ts';
import type { Laying } from '../../../server/estimate/plan/wiring.ts';
import { runFindings } from '../../../server/estimate/takeoff/run-findings.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import type { ConductorSize } from '../../../server/estimate/vocabulary.ts';
import { firstRun, household, SHOP, stopsOf, wired } from './shop.ts';

/**
 * A charger of 48 A at the end of 30 ft of joists, 50 ft of EMT of 3/4 in that is there, and 90 ft of lawn, 6 ft from the
 * ditch: 6 AWG copper as far as the EMT goes, 2 AWG aluminum from there on.
 */
function changedAt(begins: Laying['begins']) {
  const { description, option } = household({
    site: { building: 'outdoor' },
    route: [
      { kind: 'joists', lengthFt: 30 },
      { kind: 'existing-raceway', lengthFt: 50, type: 'emt', tradeSize: '3/4', place: 'indoor' },
      { kind: 'lawn-trench', lengthFt: 90 },
    ],
    option: wired(48, { terminals: 'copper-or-aluminum', mount: 'post' }),
  });
  const laying: Laying = { methods: ['emt', 'emt', 'pvc'], tail: 'pvc', metal: 'aluminum', ...(begins && { begins }) };
  return planBy(openOption(description, option, SHOP), [{ laying, size: '2' }]);
}
const EXAMPLE = changedAt({ pieces: 2, metal: 'copper', size: '6' });

/** A charger of 48 A at the end of 60 ft of EMT indoors: so large as far as 40 ft, 6 AWG copper from there on. */
function grownAtTheStart(size: ConductorSize) {
  const { description, option } = household({
    route: [
      { kind: 'interior-surface', lengthFt: 40 },
      { kind: 'interior-surface', lengthFt: 20 },
    ],
    option: wired(48),
  });
  const begins = { pieces: 1, metal: 'copper', size } as const;
  const laying: Laying = { methods: ['emt', 'emt'], tail: 'emt', metal: 'copper', begins };
  return planBy(openOption(description, option, SHOP), [{ laying, size: '6' }]);
}

describe('a run that changes its conductors at one splice', () => {
  /**
   * 125 % of 48 A are 60 A. Table 310.16 at 75 °C: 6 AWG copper 65 A, 2 AWG aluminum 90 A; both are enough, neither more
   * than it may be. Table 250.122 for 60 A: 10 AWG copper, 8 AWG aluminum; 2 AWG instead of the 4 AWG (65 A) that would
   * carry it is 66,360 / 41,740 = 1.59 times as large, and so is its ground: 26,248 circular mils, 6 AWG (250.122(B)).
   */
  it('carries the load in both parts, by Table 310.16, with a ground for each', () => {
    const run = firstRun(EXAMPLE);
    expect(stopsOf(EXAMPLE)).toEqual([]);
    expect(run.ocpdA).toBe(60);
    expect(run.begins).toEqual({
      conductor: { metal: 'copper', size: '6', ampacityA: 65 },
      until: 'splice 1',
      legs: [0, 1],
    });
    expect(run.conductor).toEqual({ metal: 'aluminum', size: '2', ampacityA: 90 });
    expect(run.sections).toMatchObject([
      { metal: 'copper', size: '6', groundMetal: 'copper', groundSize: '10', legs: [0, 1], tail: false },
      { metal: 'aluminum', size: '2', groundMetal: 'aluminum', groundSize: '6', legs: [2], tail: true },
    ]);
  });

  /**
   * Chapter 9 Table 8, stranded: 6 AWG copper 0.491, 2 AWG aluminum 0.319 Ω/1000 ft. 2 × 48 A × (0.491 × 0.080 + 0.319 ×
   * 0.096) = 96 × 0.069904 = 6.7108 V, 2.7962 % of 240 V. Copper throughout: 96 × 0.491 × 0.176 = 8.2959 V, 3.46 %.
   */
  it('loses the voltage of both parts together', () => {
    const { dropV, dropPercent, lengthFt } = firstRun(EXAMPLE);
    expect({ dropV, dropPercent, lengthFt }).toEqual({ dropV: 6.7108, dropPercent: 2.7962, lengthFt: 176 });
    expect(EXAMPLE.dropPercent).toBe(2.7962);
  });

  /** Chapter 9 Tables 4 and 5: XHHW-2 of 2 AWG 0.1146 in², 6 AWG 0.0590; twice and once 0.2882, and EMT 3/4 holds 0.213. */
  it('is a stop without the change, for aluminum does not fit into the EMT that is there', () => {
    expect(stopsOf(changedAt(undefined)).map(({ rule }) => rule)).toContain('conduit-fill');
  });

  /** NEC 110.14: metals meet in connectors marked for both; compound wherever aluminum ends (common practice, no source). */
  it('lands each metal where it ends, with compound at the aluminum, and says that connectors are for both metals', () => {
    expect(firstRun(EXAMPLE).terminations).toEqual([
      { at: 'main panel', metal: 'copper', size: '6', compound: false },
      { at: 'splice 1', metal: 'aluminum', size: '2', compound: true },
      { at: 'charger', metal: 'aluminum', size: '2', compound: true },
    ]);
    const change = EXAMPLE.findings.find(({ rule }) => rule === 'conductor-change');
    expect(change).toMatchObject({ severity: 'note', citation: { article: '110.14' } });
    expect(change?.message).toContain('must be marked for both metals');
  });

  /** One splice: a box that it lies in, and an insulated connector for each of two hots and the ground. */
  it('takes a box and connectors at the splice, and lists each part by its own legs', () => {
    const { wire, materials } = takeoffOf(EXAMPLE);
    const hots = wire.charger?.filter(({ use }) => use === 'ungrounded');
    expect(hots?.map(({ metal, size, count, legs }) => ({ metal, size, count, legs }))).toEqual([
      { metal: 'copper', size: '6', count: 2, legs: [0, 1] },
      { metal: 'aluminum', size: '2', count: 2, legs: [2] },
    ]);
    const connectors = materials.filter(({ description }) => description === 'insulated mechanical splice connectors');
    expect(connectors.reduce((sum, { quantity = 0 }) => sum + quantity, 0)).toBe(3);
    const boxes = materials.filter(({ legs, scope, spec }) => {
      return scope === 'boxes' && legs.includes(1) && legs.includes(2) && spec.is === 'other' && /box/.test(spec.name);
    });
    expect(boxes.length).toBeGreaterThan(0);
  });

  it('says at the splice which conductors meet, even where the raceway goes on as what it was', () => {
    const because = (plan: typeof EXAMPLE) =>
      takeoffOf(plan).tasks.flatMap(({ task, because }) => (task === 'splice-cable' ? because : []));
    expect(because(EXAMPLE)).toContain(
      'joins charger where it changes from 6 AWG copper in emt to 2 AWG aluminum in pvc',
    );
    expect(because(grownAtTheStart('1'))).toContain(
      'joins charger where it changes from 1 AWG copper in emt to 6 AWG copper in emt',
    );
  });

  /**
   * Table 310.16 at 75 °C: 6 AWG copper carries 65 A, what 60 A take in both parts; 3/0 AWG is there for the drop alone.
   * Terminals of 60 A commonly take 4 AWG at most (from memory).
   */
  it('doubts the terminals at its start where only what it begins as was enlarged', () => {
    const plan = grownAtTheStart('3/0');
    expect(plan.findings.filter(({ rule }) => rule === 'enlarged-for-drop')).toMatchObject([
      { run: 'charger', numbers: { size: '3/0', smallest: '6' } },
    ]);
    expect(runFindings(plan).filter(({ rule }) => rule === 'terminal-markings')).toMatchObject([
      { severity: 'caution', numbers: { size: '3/0', largest: '4', ocpdA: 60 } },
    ]);
  });

  it('is called enlarged in no part that has the least size, however the other is', () => {
    const plan = grownAtTheStart('6');
    expect(plan.findings.filter(({ rule }) => rule === 'enlarged-for-drop')).toEqual([]);
    expect(runFindings(plan).filter(({ rule }) => rule === 'terminal-markings')).toEqual([]);
  });
});
