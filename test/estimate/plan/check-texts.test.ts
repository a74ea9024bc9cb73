import { describe, expect, it } from 'vitest';
import type { PlannedOption } from '../../../server/estimate/plan-types.ts';
import { type Parts, planBy, plansFor, wired } from './shop.ts';

const said = (plan: PlannedOption | undefined, rule: string) =>
  plan?.findings.filter((finding) => finding.rule === rule);
const yard = (route: unknown, more: Parts = {}): Parts => ({ site: { building: 'outdoor' }, route, ...more });

describe('what a check that holds says', () => {
  /** NEC Table 300.5(A), cable: 18 in under a driveway of a dwelling, 24 in elsewhere. */
  it('names the row that gives the cover, and that the deeper of two is taken', () => {
    const drive = [{ kind: 'gravel-trench', lengthFt: 20, traffic: 'vehicle', method: 'uf-b' }];
    expect(said(plansFor(yard(drive))[0], 'cover')?.[0]?.message).toBe(
      '24 in of cover; at least 24 in is required here by the row for all other places, and 18 in by the row for driveways of dwellings: the deepest of them is taken.',
    );
    const lawn = [{ kind: 'lawn-trench', lengthFt: 20, method: 'pvc' }];
    expect(said(plansFor(yard(lawn))[0], 'cover')?.[0]?.message).toBe(
      '18 in of cover; at least 18 in is required here by the row for all other places.',
    );
  });

  /**
   * 40 A hardwired in PVC: 8 AWG THWN-2 and a 10 AWG ground, 2 × 0.0366 + 0.0211 = 0.0943 in² (Chapter 9 Table 5). 1/2 in of
   * schedule 40 is 0.285 in² whole: 33.1 %. Schedule 80 of 1/2 in is 0.217 in², 40 % 0.087: too small; 3/4 in is 0.409 in²,
   * 23.1 %. With 48 A, 6 AWG: 0.1225 in² in 3/4 in of schedule 40, 0.508 in², 24.1 %; of schedule 80 29.95 % (Table 4).
   */
  it('counts the schedule 80 that comes out of the ground among the raceways', () => {
    const lawn = [{ kind: 'lawn-trench', lengthFt: 20, method: 'pvc' }];
    const at = (amps: number) => said(plansFor(yard(lawn, { option: wired(amps) }))[0], 'conduit-fill')?.[0];
    expect(at(40)?.numbers.fillPercent).toBeCloseTo(33.09, 1);
    expect(at(48)?.numbers.fillPercent).toBeCloseTo(29.95, 1);
    expect(at(48)?.message).toMatch(/3\/4 in schedule 80 where it comes out of the ground/);
  });

  /** 40 A for hours at 125 %: 50 A. */
  it('names the load, and what lasts of it', () => {
    const [plan] = plansFor({ option: wired(40) });
    expect(said(plan, 'continuous-load')?.[0]?.message).toBe(
      'The load is 40 A for hours, which counts at 125 %: 50 A behind a device of 50 A.',
    );
  });

  /** NM-B 6/2 has a 10 AWG ground; Table 250.122 asks for 10 AWG copper behind 40 to 60 A. */
  it('tells a cable’s own ground from what the device asks for', () => {
    const cable = said(planBy({ option: wired(40) }, 'nm-b'), 'equipment-ground')?.[0]?.message;
    expect(cable).toBe(
      "The equipment ground is 10 AWG copper, the NM-B cable's own. A device of 50 A asks for 10 AWG copper at least.",
    );
    const pipe = said(planBy({ option: wired(40) }, 'emt'), 'equipment-ground')?.[0]?.message;
    expect(pipe).toMatch(/^The equipment ground is 10 AWG copper, a conductor beside the others\. /);
  });
});

/** NEC 338.12(B)(1): USE-2 not for interior wiring; conductors also marked RHH or RHW-2 may be. */
describe('buried USE-2', () => {
  const feeder = (enclosure: string) => ({
    site: { building: 'detached', garage: { existing: ['receptacles', 'light'] } },
    route: [
      { kind: 'joists', lengthFt: 20, method: 'ser' },
      { kind: 'lawn-trench', lengthFt: 40, method: 'direct-burial' },
    ],
    option: {
      feed: 'subpanel',
      metal: 'aluminum',
      chargers: wired(48).chargers,
      subpanel: { ratingA: 100, spaces: 12, feederA: 90, enclosure },
    },
  });

  it('is a caution where it reaches a panel inside', () => {
    const markings = (enclosure: string) => said(plansFor(feeder(enclosure))[0], 'use-2-markings')?.[0];
    expect(markings('indoor')).toMatchObject({ severity: 'caution', citation: { article: '338.12(B)(1)' } });
    expect(markings('indoor')?.message).toMatch(/only if also marked RHH or RHW-2/);
    expect(markings('outdoor')?.severity).toBe('note');
  });
});
