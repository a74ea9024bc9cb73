/** A published value: exact to the four decimals that are printed, or with the tolerance that its source leaves. */
export type Published = number | string | boolean | { value: number; abs?: number; rel?: number };

/** A worked case: what is put in, what is published, where, and how it is worked. */
export interface PublishedCase {
  input: Record<string, unknown>;
  expect: Record<string, Published | true>;
  source: string;
  working?: string;
}

/** Half of the last of four decimals: results are printed with four, cases were worked with four. */
const PRINTED = 5.1e-5;

/** Does a result agree with what is published, within the tolerance that stands beside it? */
export function agrees(published: Published, got: unknown): boolean {
  if (typeof published === 'number') return typeof got === 'number' && Math.abs(got - published) <= PRINTED;
  if (typeof published !== 'object') return got === published;
  if (typeof got !== 'number' || !Number.isFinite(got)) return false;
  const room = published.abs ?? (published.rel ?? 0) * Math.abs(published.value);
  return Math.abs(got - published.value) <= room + PRINTED;
}

/** The part of a result that a path with dots names. */
export function at(result: unknown, path: string): unknown {
  return path.split('.').reduce<unknown>((value, key) => {
    return typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[key] : undefined;
  }, result);
}
