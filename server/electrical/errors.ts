interface RefusedValue {
  /** Name of the input field. */
  field: string;
  value: unknown;
  /** What would have been accepted, in words that follow "must be". */
  allowed: string;
}

/** An input that a rule cannot work with: says the field, the value and what is allowed. */
export class RefusedInputError extends Error {
  readonly field: string;
  readonly value: unknown;
  readonly allowed: string;

  constructor({ field, value, allowed }: RefusedValue, message?: string) {
    super(message ?? `${field} must be ${allowed}, not ${JSON.stringify(value)}`);
    this.name = 'RefusedInputError';
    this.field = field;
    this.value = value;
    this.allowed = allowed;
  }
}

/**
 * What was asked lies past the last row, or in an empty cell, of a table of the code. The planner makes a stop of it.
 */
export class BeyondTableError extends RefusedInputError {
  readonly table: string;

  constructor({ table, field, value, allowed }: RefusedValue & { table: string }) {
    super(
      { field, value, allowed },
      `${field} ${JSON.stringify(value)} is beyond NEC ${table.startsWith('Chapter') ? table : `Table ${table}`}: must be ${allowed}`,
    );
    this.name = 'BeyondTableError';
    this.table = table;
  }
}
