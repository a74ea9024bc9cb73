import { BeyondTableError } from './errors.ts';
import { RANGE_DEMAND_220_55 as TABLE } from './tables/dwelling-demand-220.ts';

/**
 * Decides what household cooking appliances count in the standard method, in volt-amperes: the least that Table 220.55
 * allows of column C for all of them, or of columns A and B for those through 8.75 kW and column C for the rest (note
 * 3). Above 12 kW column C rises by 5 % a kilowatt or major fraction, of the average of those above 8.75 kW, none
 * taken below 12 (notes 1 and 2). Appliances of 1.75 kW and less keep their nameplate.
 * @param ratingsVA  nameplates, in volt-amperes
 * @throws {BeyondTableError} above 27 kW, or for more than ten
 */
export function cookingDemandVA(ratingsVA: readonly number[]): number {
  const small = ratingsVA.filter((va) => va <= TABLE.aboveVA);
  const listed = ratingsVA.filter((va) => va > TABLE.aboveVA);
  const large = listed.filter((va) => va > TABLE.columnBToVA);
  const columnA = listed.filter((va) => va < TABLE.columnBFromVA);
  const columnB = listed.filter((va) => va >= TABLE.columnBFromVA && va <= TABLE.columnBToVA);
  const apart = columnPercent(columnA, 1) + columnPercent(columnB, 2) + columnCVA(large);
  return sum(small) + Math.min(columnCVA(listed), apart);
}

function columnPercent(ratingsVA: readonly number[], column: 1 | 2): number {
  if (ratingsVA.length === 0) return 0;
  return (sum(ratingsVA) * rowFor(ratingsVA.length)[column]) / 100;
}

function columnCVA(ratingsVA: readonly number[]): number {
  if (ratingsVA.length === 0) return 0;
  const tooLarge = ratingsVA.find((va) => va > TABLE.mostVA);
  if (tooLarge !== undefined) {
    const allowed = `at most ${TABLE.mostVA} VA for one cooking appliance`;
    throw new BeyondTableError({ table: '220.55', field: 'appliances', value: tooLarge, allowed });
  }
  const averageVA = sum(ratingsVA.map((va) => Math.max(va, TABLE.columnCToVA))) / ratingsVA.length;
  const kilowattsAbove = Math.round((averageVA - TABLE.columnCToVA) / 1000);
  return rowFor(ratingsVA.length)[3] * 1000 * (1 + (kilowattsAbove * TABLE.risePercentPerKw) / 100);
}

function rowFor(count: number): (typeof TABLE.rows)[number] {
  const row = TABLE.rows[count - 1];
  if (row) return row;
  const allowed = `at most ${TABLE.rows.length} cooking appliances`;
  throw new BeyondTableError({ table: '220.55', field: 'appliances', value: count, allowed });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
