import { describe, expect, it } from 'vitest';
import { factInWords, factsNamed } from '../../server/drawing/fact-words.ts';
import { findingInWords } from '../../server/report/finding-words.ts';
import { othersInWords, planByLeg } from '../../server/report/passages/plan-by-leg.ts';
import { proofInWords } from '../../server/report/passages/plan-proof.ts';
import { serviceCheck } from '../../server/report/passages/service-check.ts';
import { capital, moreOrLess, sentence } from '../../server/report/wording.ts';
import { DESCRIPTION, PANEL_90 } from './fixture.ts';

describe('sentences', () => {
  it('begin with a capital letter and end with one stop', () => {
    expect(['so it is', 'Is it?', 'done.'].map(sentence)).toEqual(['So it is.', 'Is it?', 'Done.']);
    expect(capital('')).toBe('');
  });

  it('say a difference in words, and none where it is less than half a dollar', () => {
    expect([21_450, -3_810, 49, -49, 50].map(moreOrLess)).toEqual([
      '$215 more',
      '$38 less',
      'about the same',
      'about the same',
      '$1 more',
    ]);
  });

  it('say where a finding belongs', () => {
    const finding = { rule: 'x', severity: 'note' as const, message: 'Look.', numbers: {} };
    expect(findingInWords(finding)).toBe('Look.');
    expect(findingInWords({ ...finding, run: 'feeder', leg: 2 })).toBe('Feeder, leg 3: Look.');
  });
});

describe('proof', () => {
  it.each([
    [{ proven: true, gapCents: 0 }, 'Proven: no lawful plan made of what the price book sells costs less.'],
    [
      { proven: false, gapCents: 12_300 },
      'Another lawful plan could save $123 at most; that none saves anything is not proven.',
    ],
    // A gap of the whole cost bounds nothing: no figure is given for it.
    [
      { proven: false, gapCents: 620_393 },
      'The cheapest of the ways that were compared; that no other mix of methods costs less is not proven.',
    ],
  ])('is said as it is: %o', (proof, words) => {
    expect(proofInWords({ proof }, 620_393)).toBe(words);
  });
});

describe('what was not taken', () => {
  it('has its money, or its rule, and says when it is merely lawful', () => {
    const forbiddenBy = { code: 'NEC', edition: '2023' as const, article: '334.12(B)(4)' };
    const said = othersInWords([
      { method: 'nm-b', forbiddenBy, because: 'NM-B may not be where it is wet.' },
      { method: 'emt', moreCents: 9_900, because: 'x' },
      { method: 'uf-b', because: 'Nothing of it is sold' },
      { method: 'ser', because: 'Nothing of it is sold' },
      { method: 'pvc', moreCents: -4_000, because: 'x' },
    ]);
    expect(said).toEqual([
      'EMT: $99 more.',
      'PVC: $40 less.',
      'UF-B cable, SER cable: nothing of it is sold.',
      'Forbidden here: NM-B cable.',
    ]);
  });

  it('has each rule against it once, with all the legs where it holds', () => {
    const [run] = PANEL_90.runs;
    if (!run) throw new Error('the fixture has a feeder');
    const forbiddenBy = { code: 'NEC', edition: '2023' as const, article: '300.5(B)' };
    const others = [{ method: 'nm-b' as const, forbiddenBy, because: 'NM-B may not lie in the ground.' }];
    const legs = run.legs.map((leg) => ({ ...leg, others: leg.leg === 0 || leg.leg === 3 ? [] : others }));
    const [passage] = planByLeg({ ...PANEL_90, runs: [{ ...run, legs }] }, DESCRIPTION.route);
    expect(passage?.list).toEqual(['Legs 2–3, 5–6: NM-B may not lie in the ground (NEC 2023, 300.5(B)).']);
  });

  it('is said once of legs that are alike', () => {
    const [run] = PANEL_90.runs;
    if (!run) throw new Error('the fixture has a feeder');
    const legs = run.legs.map((leg) => ({ ...leg, because: leg.leg < 2 ? ['x'] : ['y'], others: [] }));
    const alike = legs.map(({ coverIn: _coverIn, conduit: _conduit, ...leg }) => ({
      ...leg,
      method: 'pvc' as const,
      insulation: 'xhhw-2' as const,
    }));
    const [passage] = planByLeg({ ...PANEL_90, runs: [{ ...run, legs: alike }] }, DESCRIPTION.route);
    expect(passage?.rows?.map(({ cells }) => cells[0])).toEqual([
      '1–2  joists, under the deck',
      '3–6  lawn, planting bed, concrete, gravel',
    ]);
  });
});

describe('facts', () => {
  it.each([
    ['site.service.ratingA', 'Rating of the service'],
    ['route.4.reinforcement', 'Steel in the slab of leg 5, concrete'],
    ['options.1.route.0.lengthFt', 'Length of leg 1'],
    ['options.0.receptacle.gfci', 'Ground-fault protection of the outlet'],
    ['site.of.later', 'site.of.later'],
  ])('%s is called what people call it', (path, words) => {
    expect(factInWords(path, DESCRIPTION)).toBe(words);
  });

  it('stand in a sentence by what they are called, and keep their abbreviations', () => {
    const said = (path: string) => factsNamed(`${path} alone swings 184 %`, [path], DESCRIPTION);
    expect(said('site.service.panel.state')).toBe('state of the panel alone swings 184 %');
    expect(said('site.code.chargerReading')).toBe('how the authority (AHJ) counts the charger alone swings 184 %');
    expect(said('route.0.kind')).toBe('what stands behind the finish of leg 1, joists alone swings 184 %');
  });
});

describe('the service', () => {
  it('says what is missing of it, and never prices what was not priced', () => {
    const service = {
      ...PANEL_90.service,
      spareA: -8.75,
      remedies: [{ kind: 'measure' as const, detail: 'measure it' }],
    };
    const passages = serviceCheck({ ...PANEL_90, service }, DESCRIPTION);
    expect(passages[0]?.sentences?.[0]).toContain('8.8 A are missing');
    expect(passages[1]?.rows?.[0]?.cells).toEqual(['Measure it', 'Measure it', 'not priced']);
  });

  it('says that nothing is known where nothing is', () => {
    const { withA: _w, spareA: _s, demandA: _d, ...rest } = PANEL_90.service;
    const service = { ...rest, method: 'unknown', fits: 'unknown' as const, readings: [] };
    const [passage] = serviceCheck({ ...PANEL_90, service }, DESCRIPTION);
    expect(passage?.sentences?.[0]).toContain('What it draws already is not known; this adds 60 A.');
    expect(passage?.rows).toBeUndefined();
  });
});
