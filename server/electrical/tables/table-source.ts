/** Where a table comes from: code, edition, number as printed there, and who agrees or doubts. */
export interface TableSource {
  code: 'NEC';
  edition: '2020' | '2023' | '2026';
  table: string;
  note: string;
}
