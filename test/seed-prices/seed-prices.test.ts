import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readSeedPrices } from '../../db/seed.ts';
import { parsePriceCsv, writePriceCsv } from '../../server/estimate/price-csv.ts';
import { writeSpec } from '../../server/estimate/spec-text.ts';
import { TRADE_SIZES } from '../../server/estimate/vocabulary.ts';

const folder = new URL('../../seed-prices/', import.meta.url);
const items = readSeedPrices(folder, parsePriceCsv);
const withSpec = items.flatMap((item) => (item.spec ? [writeSpec(item.spec)] : []));
const find = (key: string) => items.find((item) => item.key === key);

/** What the trade's work is made of: the tasks that any job here may ask for. Common practice, no source. */
const TASKS = `
  mobilise-first mobilise-return site-visit-quote locate-call load-calc-permit inspection-meet layout-route
  subpanel-mount-60 subpanel-mount-125 subpanel-mount-200 subpanel-outdoor-add breaker-1p breaker-2p-small
  breaker-2p-large breaker-gfci-add panel-rearrange panel-cover cable-open-small cable-open-8-6 cable-open-large
  cable-open-4_0 drill-joist-small drill-joist-large fish-wall-drop fish-ceiling fish-wall-horizontal
  access-hole-patch surface-cable under-deck wall-entry-wood wall-entry-masonry core-drill-foundation
  conduit-pvc-small conduit-pvc-medium conduit-pvc-large conduit-emt-small conduit-emt-medium conduit-emt-large
  conduit-rmc-small conduit-rmc-medium conduit-rmc-large bend-field-emt bend-heat-pvc elbow-fit riser fish-line pull-12-10 pull-8-6 pull-4-2
  pull-1-2_0 pull-3_0-250 terminate-12-10 terminate-8-6 terminate-4-2 terminate-1-2_0 terminate-3_0-250
  splice-cable receptacle-50 receptacle-120 receptacle-outdoor-add disconnect charger-mount charger-app
  charger-pedestal footing-pedestal lm-ct lm-relay signal-cable ground-rods bond-run hand-dig-loam hand-dig-clay
  hand-dig-rocky hand-dig-roots hand-dig-frozen hand-dig-volume trencher-loam trencher-clay trencher-rocky
  trencher-setup excavator-trench pothole-utility bedding-sand backfill backfill-machine warning-tape
  lawn-restore sod-restore gravel-restore saw-concrete-4 saw-concrete-6 saw-concrete-hand-4 saw-asphalt-3
  saw-setup break-haul-4 break-haul-6 break-asphalt repour-4 repour-6 asphalt-patch pavers bore-sidewalk
  bore-driveway panel-swap-like service-upgrade-oh-200 service-upgrade-ug-200 service-400 cleanup test-energize
`;
/** What makes them slower or quicker. */
const FACTORS = `
  factor-finished-walls factor-old-house-pre-1950 factor-old-house-1950-1980 factor-crawlspace-low
  factor-ladder-work factor-rain-cold factor-heat-attic factor-slope-access factor-one-man factor-occupied
  factor-new-construction factor-owner-novice factor-crew-spread factor-attic factor-crawlspace
  factor-pvc-in-trench
`;
const namesIn = (text: string) => text.trim().split(/\s+/);

describe('the starting price book', () => {
  it('reads without a refused row, and covers every group', () => {
    expect(items.length).toBeGreaterThan(700);
    for (const kind of ['price', 'labor-unit', 'rate', 'factor']) {
      expect(items.filter((item) => item.kind === kind).length, kind).toBeGreaterThan(15);
    }
  });

  it('has one item a key and one item a spec', () => {
    expect(items.length).toBe(new Set(items.map(({ key }) => key)).size);
    expect(withSpec.filter((spec, at) => withSpec.indexOf(spec) !== at)).toEqual([]);
  });

  it('has a spec on all that planner and take-off ask for', () => {
    expect(items.filter(({ spec }) => !spec).map(({ key }) => key)).toEqual([]);
  });

  it('never takes a likely price of nothing for a price', () => {
    expect(items.filter(({ likely }) => likely <= 0).map(({ key }) => key)).toEqual([]);
    expect(items.flatMap(({ offers }) => offers).filter(({ likelyCents }) => likelyCents <= 0)).toEqual([]);
  });

  it('counts an item at what its smallest package costs a unit', () => {
    const wrong = items.filter(({ offers, likely }) => {
      const smallest = [...offers].sort((a, b) => a.quantity - b.quantity)[0];
      return smallest && Math.abs(smallest.likelyCents / smallest.quantity - likely) > 0.00005; // 4 decimals are kept
    });
    expect(wrong.map(({ key }) => key)).toEqual([]);
  });

  it('sells every piece of a raceway in every trade size in which the raceway is sold', () => {
    const both = ['elbow-90', 'elbow-45'];
    const metal = [...both, 'coupling', 'strap', 'lb', 'hub', 'locknut-bushing', 'bushing-grounding'];
    const pieces = {
      'pvc-40': [
        ...[...both, 'coupling', 'strap', 'lb', 'hub', 'locknut-bushing', 'expansion', 'end-bell'],
        ...['male-adapter', 'female-adapter', 'box-adapter'],
      ],
      'pvc-80': both,
      emt: [...metal, 'connector', 'connector-rt', 'coupling-rt'],
      rmc: metal,
    };
    const missing = Object.entries(pieces).flatMap(([type, all]) =>
      TRADE_SIZES.flatMap((tradeSize) => [
        ...(withSpec.includes(`raceway type=${type} tradeSize=${tradeSize}`) ? [] : [`${type} ${tradeSize}`]),
        ...all
          .map((piece) => `fitting type=${type} tradeSize=${tradeSize} piece=${piece}`)
          .filter((spec) => !withSpec.includes(spec)),
      ]),
    );
    expect(missing).toEqual([]);
  });

  it('does not sell what shops do not sell: 4/2 cable, and aluminum cable of 3 AWG', () => {
    expect(withSpec).not.toContain('cable form=nm-b metal=copper size=4 conductors=2');
    expect(withSpec.filter((spec) => /^cable .*metal=aluminum size=3 /.test(spec))).toEqual([]);
  });

  it('knows the hours of every task, by its trade, and every factor', () => {
    for (const task of namesIn(TASKS)) {
      const unit = items.find(({ spec }) => spec?.is === 'task' && spec.task === task);
      expect(unit, task).toMatchObject({ kind: 'labor-unit', class: 'labor' });
      expect(['electrician', 'labourer', 'operator'], task).toContain(unit?.trade);
    }
    for (const name of namesIn(FACTORS)) expect(find(name), name).toMatchObject({ kind: 'factor' });
  });

  it('has an hourly rate of every trade, with the trade on it', () => {
    for (const trade of ['electrician', 'labourer', 'operator']) {
      expect(find(`rate-${trade}`)).toMatchObject({ kind: 'rate', unit: 'h', trade });
    }
  });

  /** Wages of May 2025 as published (mean 34.37 an hour); the burden of 1.43 is common practice, no source. */
  it("costs an electrician's hour at the published wage and its burden", () => {
    expect(find('rate-electrician')?.likely).toBe(4915); // 34.37 × 1.43 = 49.1491
  });

  it('names a source on every item, and says where a figure is judged', () => {
    const origins = /common practice, no source|from memory|https?:\/\/|published national figures/;
    expect(items.filter(({ source }) => !origins.test(source)).map(({ key }) => key)).toEqual([]);
  });

  it('names no maker and no shop', () => {
    expect(items.filter(({ supplier }) => supplier).map(({ key }) => key)).toEqual([]);
    const marks = /[®™]|\b(?:inc|llc|corp|gmbh)\b/i;
    expect(items.filter(({ description }) => marks.test(description)).map(({ key }) => key)).toEqual([]);
  });

  it('comes back from its own print, file by file', () => {
    for (const name of readdirSync(folder).filter((file) => file.endsWith('.csv'))) {
      const text = readFileSync(new URL(name, folder), 'utf8');
      expect(writePriceCsv(parsePriceCsv(text).items), name).toBe(text);
    }
  });
});
