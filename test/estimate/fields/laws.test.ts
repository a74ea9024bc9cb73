import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { optionOf, type Stated } from './priced.ts';

const upgrade = fc.record({
  toA: fc.constantFrom(100, 125, 150, 200, 320, 400),
  supply: fc.constantFrom('overhead', 'underground', null),
  meter: fc.constantFrom('keep', 'replace', null),
  panel: fc.constantFrom('keep', 'replace'),
  relocateFt: fc.constantFrom(0, 12),
});
const management = fc.record({
  kind: fc.constantFrom('shared-circuit', 'service-monitor'),
  maxA: fc.constantFrom(24, 40),
});
const charger = fc.record({
  amps: fc.constantFrom(24, 32, 40),
  connection: fc.constantFrom('hardwired', 'receptacle-14-50'),
  equipment: fc.constantFrom('owned', 'buy', 'none'),
});
const oldCircuit = fc.record({
  amps: fc.constantFrom(15, 20, 30),
  poles: fc.constantFrom(1, 2),
  wires: fc.constantFrom(2, 3, 4),
  raceway: fc.constantFrom('none', 'pvc', 'emt', 'rmc'),
  feeds: fc.constantFrom([], ['light'], ['light', 'compressor']),
});
const job = fc.record({
  building: fc.constantFrom('attached', 'detached', 'outdoor'),
  hazards: fc.constantFrom(null, ['asbestos'], ['lead-paint', 'knob-and-tube'], ['aluminum-branch', 'plaster']),
  route: fc.constantFrom(
    '20 joists, 40 lawn-trench',
    '10 finished-wall, 12 exterior-wall, 9 concrete-cut',
    '30 attic, 8 bore, 15 planting-bed',
  ),
  subpanel: fc.boolean(),
  chargers: fc.array(charger, { minLength: 1, maxLength: 2 }),
  upgrade: fc.option(upgrade),
  management: fc.option(management),
  spareA: fc.option(fc.constantFrom(50, 60, 100)),
  data: fc.boolean(),
  roughInOnly: fc.boolean(),
  fate: fc.constantFrom('none', 'removed', 'kept'),
  old: fc.option(oldCircuit),
});
type Job = typeof job extends fc.Arbitrary<infer One> ? One : never;

function statedBy(one: Job): Stated {
  const {
    building,
    hazards,
    route,
    subpanel,
    chargers,
    upgrade: larger,
    management: managed,
    spareA,
    data,
    fate,
    old,
  } = one;
  return {
    site: {
      building,
      hazards,
      service: { ratingA: 100, freeSpaces: 4 },
      existingSupply: fate,
      ...(old && { existingCircuit: old }),
    },
    route,
    option: {
      chargers:
        managed?.kind === 'shared-circuit'
          ? chargers.map((each) => ({ ...each, connection: chargers[0]?.connection, group: 'a' }))
          : chargers,
      roughInOnly: one.roughInOnly,
      ...(subpanel && { feed: 'subpanel', subpanel: { ratingA: 125, spaces: 12, feederA: 100 } }),
      ...(larger && { serviceUpgrade: larger }),
      ...(managed && { loadManagement: managed }),
      ...(spareA && { spareConduit: { toA: spareA } }),
      ...(data && { dataConduit: {} }),
    },
  };
}

describe('fields of the site and the option, together', () => {
  it('ask for nothing that the starting price book does not sell', () => {
    fc.assert(
      fc.property(job, (one) => {
        const option = optionOf(statedBy(one));
        expect(option.lines.filter(({ priced }) => !priced).map(({ description }) => description)).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });

  it('never make an option cheaper by a spare or a data conduit, and never later for nothing', () => {
    fc.assert(
      fc.property(job, (one) => {
        const plain = optionOf(statedBy({ ...one, spareA: null, data: false }));
        const more = optionOf(statedBy({ ...one, spareA: 60, data: true }));
        expect(more.totals.costCents).toBeGreaterThanOrEqual(plain.totals.costCents);
        expect(more.later?.cents).toBeGreaterThan(0);
      }),
      { numRuns: 12 },
    );
  });
});
