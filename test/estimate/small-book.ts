import { type Book, bookOf, PriceItem } from '../../server/estimate/price-book.ts';

type Parts = Record<string, unknown>;

/** An item with round figures, made for arithmetic by hand: invented, no source. */
export function item(key: string, parts: Parts): PriceItem {
  return PriceItem.parse({
    key,
    kind: 'price',
    description: key,
    class: 'material',
    scope: 'other',
    category: 'test',
    unit: 'each',
    low: 80,
    likely: 100,
    high: 150,
    date: '2026-01-01',
    region: 'US',
    source: 'invented for a test',
    revision: 1,
    ...parts,
  });
}

/** Packages as `[name, units, likely cents]`; low and high are a tenth below and a fifth above. */
export function offers(...packages: [string, number, number][]): Parts[] {
  return packages.map(([name, quantity, cents]) => ({
    package: name,
    quantity,
    lowCents: Math.round(cents * 0.9),
    likelyCents: cents,
    highCents: Math.round(cents * 1.2),
  }));
}

const rate = (trade: string | undefined, cents: number): Parts => ({
  kind: 'rate',
  class: 'labor',
  unit: 'h',
  low: cents,
  likely: cents,
  high: cents,
  ...(trade && { trade }),
});
const labor = (
  task: string,
  { unit, hours, trade }: { unit: string; hours: [number, number, number]; trade: string },
) =>
  item(task, {
    kind: 'labor-unit',
    class: 'labor',
    unit,
    low: hours[0],
    likely: hours[1],
    high: hours[2],
    trade,
    spec: { is: 'task', task },
  });

/** Cable, conductor, conduit, bags, a trencher, a permit, two tasks, a factor and three rates. */
export const ITEMS: PriceItem[] = [
  item('uf-b-8-2-cu', {
    unit: 'ft',
    scope: 'wire',
    spec: { is: 'cable', form: 'uf-b', metal: 'copper', size: '8', conductors: 2 },
    offers: offers(['by the foot', 1, 262], ['coil 125 ft', 125, 29_000]),
    low: 236,
    likely: 262,
    high: 314,
  }),
  item('pvc-40-1', {
    unit: 'ft',
    scope: 'conduit',
    spec: { is: 'raceway', type: 'pvc-40', tradeSize: '1' },
    offers: offers(['10 ft stick', 10, 970]),
    low: 87,
    likely: 97,
    high: 116,
  }),
  item('gravel-yd3', { unit: 'yd3', spec: { is: 'other', name: 'gravel-yd3' }, low: 3500, likely: 5500, high: 9500 }),
  item('concrete-80', { spec: { is: 'other', name: 'concrete-80' }, low: 550, likely: 720, high: 1050 }),
  item('permit-circuit', {
    class: 'fee',
    scope: 'permit',
    spec: { is: 'other', name: 'permit-circuit' },
    low: 3000,
    likely: 11_000,
    high: 35_000,
  }),
  labor('hand-dig-loam', { unit: 'ft', hours: [0.05, 0.08, 0.13], trade: 'labourer' }),
  labor('breaker-2p-small', { unit: 'each', hours: [0.25, 0.4, 0.6], trade: 'electrician' }),
  labor('mobilise-first', { unit: 'trip', hours: [1, 1, 1], trade: 'electrician' }),
  labor('mobilise-return', { unit: 'trip', hours: [0.8, 0.8, 0.8], trade: 'electrician' }),
  labor('drive', { unit: 'h', hours: [1, 1, 1], trade: 'electrician' }),
  item('vehicle-mile', {
    class: 'equipment',
    unit: 'mile',
    spec: { is: 'other', name: 'vehicle-mile' },
    low: 70,
    likely: 70,
    high: 70,
  }),
  item('factor-soil-clay', {
    kind: 'factor',
    class: 'labor',
    unit: 'multiplier',
    spec: { is: 'other', name: 'factor-soil-clay' },
    low: 1.2,
    likely: 1.5,
    high: 1.6,
  }),
  item('rate-electrician', rate('electrician', 5000)),
  item('rate-labourer', rate('labourer', 3000)),
  item('rate-helper', rate(undefined, 2500)),
];

/** A book of these items, or of these and others. */
export function smallBook(...more: PriceItem[]): Book {
  return bookOf([...ITEMS, ...more], 1);
}
