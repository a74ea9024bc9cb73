import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Calculation } from '../../server/calculations/calculation.ts';
import { CALCULATIONS, calculate, calculationSheets } from '../../server/calculations.ts';
import { InputError } from '../../server/estimate/input-problems.ts';
import { fieldsOf, type InputSchema, inputsOf } from './schema-inputs.ts';

/** Is every number within an answer a number that can be written in JSON? */
function isWritable(value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value);
  if (typeof value !== 'object' || value === null) return value !== undefined;
  return Object.values(value).every(isWritable);
}

const NONSENSE = /NaN|Infinity|undefined|\[object|null/;

/** Paths without the numbers of lists: `conductors.3.count` → `conductors.count`. */
const unnumbered = (path: string) => path.replace(/\.\d+/g, '');

interface Outcome {
  input: unknown;
  error?: unknown;
  answer?: ReturnType<typeof calculate>;
}

function outcomeOf(calculation: Calculation, input: unknown): Outcome {
  try {
    return { input, answer: calculate(calculation, input) };
  } catch (error) {
    return { input, error };
  }
}

describe.each(calculationSheets())('$name, whatever its bounds let in', ({ name, input }) => {
  const schema = input as InputSchema;
  const calculation = CALCULATIONS.find((one) => one.name === name) as Calculation;
  const known = new Set((schema.oneOf ?? [schema]).flatMap((one) => fieldsOf(one)).map(({ path }) => unnumbered(path)));

  it('answers with numbers, or refuses and names the field', () => {
    fc.assert(
      fc.property(inputsOf(schema), (extreme) => {
        const { answer, error } = outcomeOf(calculation, extreme);
        if (answer) {
          expect(isWritable(answer.result)).toBe(true);
          expect(calculation.result.safeParse(answer.result).error?.issues).toBeUndefined();
          expect(answer.because.length).toBeGreaterThan(0);
          expect(answer.because.filter((sentence) => NONSENSE.test(sentence))).toEqual([]);
          return;
        }
        if (!(error instanceof InputError)) throw error;
        for (const { path, message } of error.problems) {
          expect(known).toContain(unnumbered(path));
          expect(message).toMatch(/must /);
          expect(message).not.toMatch(/NaN|Infinity|\[object/);
        }
      }),
      { numRuns: 300, seed: 20_260_302 },
    );
  });

  it('answers a good part of them', () => {
    const answered = fc
      .sample(inputsOf(schema), { numRuns: 300, seed: 20_260_302 })
      .filter((one) => outcomeOf(calculation, one).answer !== undefined);
    expect(answered.length).toBeGreaterThan(5);
  });
});
