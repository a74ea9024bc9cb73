import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coveringRows, type Field, type Row } from './all-pairs.ts';

/** Pairs of values that can stand together, counted the slow way: over all rows that there are. */
function possiblePairs(fields: readonly Field[]): Set<string> {
  const pairs = new Set<string>();
  for (const row of allRows(fields)) for (const pair of pairsOf(row)) pairs.add(pair);
  return pairs;
}

function allRows(fields: readonly Field[]): Row[] {
  const free = fields.filter(({ when }) => !when);
  const bound = fields.filter(({ when }) => when);
  const combine = (rows: Row[], { name, values, when }: Field) =>
    rows.flatMap((row) =>
      when && !when.is.includes(row[when.field]) ? [row] : values.map((value) => ({ ...row, [name]: value })),
    );
  return [...free, ...bound].reduce(combine, [{}]);
}

function pairsOf(row: Row): string[] {
  const stated = Object.entries(row).map(([name, value]) => `${name}=${String(value)}`);
  return stated.flatMap((a, at) => stated.slice(at + 1).map((b) => [a, b].sort().join(' & ')));
}

const fieldsOf = (counts: readonly number[]): Field[] =>
  counts.map((count, at) => ({ name: `f${at}`, values: Array.from({ length: count }, (_, value) => value) }));

describe('rows that hold every pair', () => {
  /** Four fields of three values: nine rows are the least (an orthogonal array); the greedy way may take a few more. */
  it('need not be many', () => {
    const rows = coveringRows(fieldsOf([3, 3, 3, 3]));
    expect(rows.length).toBeGreaterThanOrEqual(9);
    expect(rows.length).toBeLessThanOrEqual(15);
  });

  it('hold each pair that can stand together, and state nothing where it has no place', () => {
    const counts = fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 2, maxLength: 5 });
    fc.assert(
      fc.property(
        counts,
        fc.integer({ min: 1, max: 4 }),
        fc.array(fc.integer({ min: 0, max: 3 })),
        (sizes, more, is) => {
          const fields = [
            ...fieldsOf(sizes),
            { name: 'bound', values: ['x', 'y'].slice(0, more), when: { field: 'f0', is } },
          ];
          const rows = coveringRows(fields);
          expect(new Set(rows.flatMap(pairsOf))).toEqual(possiblePairs(fields));
          for (const row of rows) expect('bound' in row).toBe(is.includes(Number(row.f0)));
        },
      ),
    );
  });

  it('come out the same every time', () => {
    expect(coveringRows(fieldsOf([4, 3, 5, 2]))).toEqual(coveringRows(fieldsOf([4, 3, 5, 2])));
  });
});
