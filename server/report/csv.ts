import { stringify } from 'csv-stringify/sync';
import type { EstimateOption, Line } from '../estimate/answer.ts';

/** The columns, named as in the JSON of an estimate. Money in cents; a line without a price leaves it empty. */
export const LINE_COLUMNS = [
  'key',
  'description',
  'class',
  'scope',
  'quantity',
  'unit',
  'unitPriceCents',
  'amountCents',
  'lowCents',
  'highCents',
  'packageSize',
  'packageUnit',
  'taken',
  'takenUnit',
  'leftOver',
  'hours',
  'legNumbers',
  'priced',
  'stale',
  'because',
] as const;

/**
 * An option's lines as CSV (RFC 4180) with a heading. `legNumbers` count from 1, as on the drawing. A text that a spreadsheet
 * would take for a formula gets an apostrophe before it; numbers stay numbers.
 */
export function linesCsv({ lines }: Pick<EstimateOption, 'lines'>): string {
  return stringify(lines.map(recordOf), {
    header: true,
    columns: [...LINE_COLUMNS],
    record_delimiter: '\r\n',
    cast: { string: defused, boolean: (value) => (value ? 'yes' : 'no') },
  });
}

/** The columns of a shopping list. */
const PICKLIST_COLUMNS = [
  'key',
  'description',
  'class',
  'scope',
  'quantity',
  'unit',
  'packageSize',
  'packageUnit',
  'leftOver',
  'takenUnit',
  'legNumbers',
] as const;

/** What to buy and to rent of an option as CSV, in whole packages and without prices; else as `linesCsv`. */
export function picklistCsv({ lines }: Pick<EstimateOption, 'lines'>): string {
  const wanted = lines.filter((line) => line.class === 'material' || line.class === 'equipment');
  return stringify(wanted.filter(({ scope }) => scope !== 'travel').map(recordOf), {
    header: true,
    columns: [...PICKLIST_COLUMNS],
    record_delimiter: '\r\n',
    cast: { string: defused },
  });
}

/** A spreadsheet runs what begins with one of these signs. */
function defused(value: string): string {
  return /^[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/.test(value) ? `'${value}` : value;
}

function recordOf(line: Line): Record<(typeof LINE_COLUMNS)[number], string | number | boolean | undefined> {
  const priced = <Value>(value: Value) => (line.priced ? value : undefined);
  return {
    key: line.key,
    description: line.description,
    class: line.class,
    scope: line.scope,
    quantity: line.quantity,
    unit: line.unit,
    unitPriceCents: priced(line.unitPriceCents),
    amountCents: priced(line.amountCents),
    lowCents: priced(line.lowCents),
    highCents: priced(line.highCents),
    packageSize: line.package?.size,
    packageUnit: line.package?.unit,
    taken: line.taken,
    takenUnit: line.takenUnit,
    leftOver: line.leftOver,
    hours: line.hours,
    legNumbers: line.legs.map((leg) => leg + 1).join(' '),
    priced: line.priced,
    stale: line.stale,
    because: line.because.join('; '),
  };
}
