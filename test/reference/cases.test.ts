import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CALCULATIONS, calculate, calculationNamed } from '../../server/calculations.ts';
import { InputError } from '../../server/estimate/input-problems.ts';
import { agrees, at, type PublishedCase } from './agreement.ts';

/*
 * Every worked case of cases/, asked as a user asks: through the calculation of the file's name. Source, working and
 * tolerance stand beside each case.
 */

const FOLDER = new URL('./cases/', import.meta.url);
const FILES = readdirSync(FOLDER).map((file) => file.replace(/\.json$/, ''));

function casesOf(name: string): PublishedCase[] {
  return JSON.parse(readFileSync(new URL(`${name}.json`, FOLDER), 'utf8')) as PublishedCase[];
}

function ask(name: string, input: unknown): unknown {
  const calculation = calculationNamed(name);
  if (!calculation) throw new Error(`There is no calculation "${name}".`);
  return calculate(calculation, input).result;
}

/** Calculations without cases here, and where their worked examples are instead. */
const CHECKED_ELSEWHERE = ['largest-setting', 'circuit-check', 'measured-demand']; // test/electrical/existing-circuits

it('has worked cases for every calculation but those that are worked elsewhere', () => {
  const expected = CALCULATIONS.map(({ name }) => name).filter((name) => !CHECKED_ELSEWHERE.includes(name));
  expect(FILES.toSorted()).toEqual(expected.toSorted());
});

describe.each(FILES)('published cases of %s', (name) => {
  it.each(casesOf(name).map((one, index) => ({ ...one, index })))(
    'agree with #$index: $source',
    ({ input, expect: published }) => {
      if (published.refused === true) {
        expect(() => ask(name, input)).toThrow(InputError);
        return;
      }
      const result = ask(name, input);
      const differing = Object.entries(published)
        .filter(([path, value]) => !agrees(value, at(result, path)))
        .map(([path, value]) => ({ path, published: value, got: at(result, path) }));
      expect(differing).toEqual([]);
    },
  );
});

describe('agreement', () => {
  it('knows a value that is off from one that the tolerance admits', () => {
    expect(agrees(4.7136, 4.71364)).toBe(true);
    expect(agrees(4.7136, 4.7138)).toBe(false);
    expect(agrees({ value: 7.9, abs: 0.05 }, 7.902)).toBe(true);
    expect(agrees({ value: 7.9, abs: 0.05 }, 7.96)).toBe(false);
    expect(agrees({ value: 100, rel: 0.01 }, 101.2)).toBe(false);
    expect(agrees('4', '6')).toBe(false);
    expect(agrees({ value: 1 }, undefined)).toBe(false);
  });
});
