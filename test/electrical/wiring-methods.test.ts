import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EDITIONS } from '../../server/electrical/citations.ts';
import {
  type MethodQuestion,
  methodAllowed,
  methodsAllowed,
  PLACES,
  WIRING_METHODS,
} from '../../server/electrical/wiring-methods.ts';

const asked = (method: MethodQuestion['method'], place: MethodQuestion['place'], more: Partial<MethodQuestion> = {}) =>
  methodAllowed({ method, place, edition: '2023', ...more });

describe('where a wiring method may go', () => {
  // NEC 334.12(B)(4), 300.5(B), 338.12(A)(2), 338.12(B), 340.10, 358.10(B), 396.10, read in a public copy of the code.
  it.each([
    ['nm-b', 'damp', false, '334.12(B)(4)'],
    ['nm-b', 'wet-above-ground', false, '334.12(B)(4)'],
    ['nm-b', 'underground', false, '300.5(B)'],
    ['nm-b', 'attic', true, '334.10'],
    ['ser', 'underground', false, '338.12(A)(2)'],
    ['ser', 'wet-above-ground', true, '338.10(B)'],
    ['uf-b', 'underground', true, '340.10(1)'],
    ['uf-b', 'dry-concealed', true, '340.10(4)'],
    ['direct-burial', 'underground', true, '338.10(B)(4)(b)'],
    ['direct-burial', 'dry-concealed', false, '338.12(B)(1)'],
    ['direct-burial', 'wet-above-ground', false, '338.12(B)(2)'],
    ['pvc', 'underground', true, '352.10(G)'],
    ['emt', 'underground', false, '358.10(B)'],
    ['rmc', 'underground', true, '344.10'],
    ['ser', 'overhead', true, '396.10'],
    ['uf-b', 'overhead', true, '396.10'],
    ['pvc', 'overhead', false, '396.10'],
    ['nm-b', 'overhead', false, '396.10'],
  ] as const)('answers for %s, %s: %s by %s', (method, place, allowed, article) => {
    expect(asked(method, place)).toMatchObject({ allowed, citation: { code: 'NEC', edition: '2023', article } });
  });

  // NEC 338.12(B)(1); conductors also marked RHH or RHW-2 may go on indoors in a raceway (from memory).
  it('bars from indoors the USE-2 that has no other marking, and names the markings', () => {
    const { reason, whatWouldDo } = asked('direct-burial', 'dry-concealed');
    expect(reason).toBe('USE-2 alone, without RHH or RHW-2 in its marking, is not for wiring inside a building.');
    expect(whatWouldDo).toMatch(/also marked RHH or RHW-2 may go on in a raceway/);
  });

  it('asks for schedule 80 where PVC can be damaged, and bars cables there', () => {
    const hit = { subjectToDamage: true };
    expect(asked('pvc', 'wet-above-ground', hit)).toMatchObject({ allowed: true, pvcSchedule: 80 });
    expect(asked('pvc', 'wet-above-ground')).toMatchObject({ allowed: true, pvcSchedule: 40 });
    expect(['nm-b', 'ser', 'uf-b'].map((method) => asked(method as 'ser', 'dry-exposed', hit).allowed)).toEqual([
      false,
      false,
      false,
    ]);
  });

  // NEC 352.12(D): 50 °C, and not more.
  it('keeps PVC out of an attic above 50 °C', () => {
    expect(asked('pvc', 'attic', { ambientC: 50 }).allowed).toBe(true);
    expect(asked('pvc', 'attic', { ambientC: 51 })).toMatchObject({ allowed: false, rule: 'pvc-ambient' });
  });

  it('keeps cables under a building in a raceway', () => {
    expect(asked('uf-b', 'under-slab', { underBuilding: true })).toMatchObject({
      allowed: false,
      rule: 'under-building',
    });
    expect(asked('pvc', 'under-slab', { underBuilding: true }).allowed).toBe(true);
  });

  it('lets a local rule forbid nonmetallic cable, and only that', () => {
    const local = { nonmetallicCable: false };
    expect(asked('nm-b', 'dry-concealed', local)).toMatchObject({ allowed: false, citation: { article: '90.4' } });
    expect(asked('uf-b', 'dry-concealed', local).allowed).toBe(false);
    expect(asked('uf-b', 'underground', local).allowed).toBe(true);
    expect(asked('emt', 'dry-concealed', local).allowed).toBe(true);
  });

  it('lets EMT into soil only with approved protection', () => {
    expect(asked('emt', 'underground', { corrosionProtected: true }).allowed).toBe(true);
  });
});

describe('laws of wiring methods', () => {
  const question = fc.record({
    method: fc.constantFrom(...WIRING_METHODS),
    place: fc.constantFrom(...PLACES),
    ambientC: fc.integer({ min: -10, max: 70 }),
    subjectToDamage: fc.boolean(),
    underBuilding: fc.boolean(),
    nonmetallicCable: fc.boolean(),
    edition: fc.constantFrom(...EDITIONS),
  });

  it('always answers with an article and a reason, and with a way out where it forbids', () => {
    fc.assert(
      fc.property(question, (given) => {
        const { allowed, reason, citation, whatWouldDo } = methodAllowed(given);
        expect(citation.edition).toBe(given.edition);
        expect(citation.article).not.toBe('');
        expect(reason).toMatch(/\.$/);
        expect(allowed).toBe(whatWouldDo === undefined);
      }),
    );
  });

  it('leaves some method in every place', () => {
    for (const place of PLACES) expect(methodsAllowed({ place, edition: '2023' }).length).toBeGreaterThan(0);
  });

  it('never allows more where damage is possible', () => {
    fc.assert(
      fc.property(question, (given) => {
        const guarded = methodAllowed({ ...given, subjectToDamage: false }).allowed;
        const exposed = methodAllowed({ ...given, subjectToDamage: true }).allowed;
        expect(exposed && !guarded).toBe(false);
      }),
    );
  });
});
