/*
 * One step of a revised simplex method over columns that are made as they are needed: rows are equations, every column
 * so much of each row for so many cents.
 */

/** Ratios nearer than this are even. */
const DUST = 1e-9;
/** Dividing by less than this would leave nothing but rounding. */
const LEAST_PIVOT = 1e-6;

/** A basis that can be: its inverse by rows, the amount of each column in it, and what a unit of each row is worth. */
export interface Basis {
  inverse: number[][];
  amounts: number[];
  worths: number[];
  /** Which column stands in each row; the caller's own names. */
  columns: number[];
}

/** A basis of columns that hold one unit of one row each. */
export function unitBasis({ amounts, worths }: { amounts: number[]; worths: number[] }): Basis {
  return {
    inverse: amounts.map((_, row) => amounts.map((_, column) => (row === column ? 1 : 0))),
    amounts: [...amounts],
    worths: [...worths],
    columns: amounts.map(() => -1),
  };
}

/**
 * Exchanges one column of the basis for another: the one that runs out first leaves.
 * @param held  what the column holds of each row
 * @param gain  by how much what it holds is worth more than it costs, in cents
 */
export function enter(
  basis: Basis,
  { held, gain, column }: { held: readonly number[]; gain: number; column: number },
): void {
  const { inverse, amounts, worths, columns } = basis;
  const share = inverse.map((row) => dot(row, held));
  const leaving = leavingRow(amounts, share);
  const pivot = share[leaving] ?? 1;
  const gone = (inverse[leaving] ?? []).map((value) => value / pivot);
  const amount = (amounts[leaving] ?? 0) / pivot;
  share.forEach((of, row) => {
    const values = inverse[row];
    if (!values || of === 0 || row === leaving) return;
    for (let at = 0; at < values.length; at++) values[at] = (values[at] ?? 0) - of * (gone[at] ?? 0);
    amounts[row] = Math.max(0, (amounts[row] ?? 0) - of * amount);
  });
  inverse[leaving] = gone;
  amounts[leaving] = amount;
  columns[leaving] = column;
  for (let row = 0; row < worths.length; row++) worths[row] = (worths[row] ?? 0) - gain * (gone[row] ?? 0);
}

function leavingRow(amounts: readonly number[], share: readonly number[]): number {
  let leaving = 0;
  let least = Number.POSITIVE_INFINITY;
  share.forEach((of, row) => {
    if (of <= LEAST_PIVOT) return;
    const ratio = (amounts[row] ?? 0) / of;
    const even = Math.abs(ratio - least) <= DUST;
    if (even ? of > (share[leaving] ?? 0) : ratio < least) {
      least = ratio;
      leaving = row;
    }
  });
  return leaving;
}

function dot(a: readonly number[], b: readonly number[]): number {
  let total = 0;
  for (let at = 0; at < a.length; at++) total += (a[at] ?? 0) * (b[at] ?? 0);
  return total;
}
