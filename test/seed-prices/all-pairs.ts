/** A thing that a job states, and what it may say. */
export interface Field<Value = unknown> {
  name: string;
  values: readonly Value[];
  /** Stated only where another field has one of these values; that field is always stated itself. */
  when?: { field: string; is: readonly unknown[] };
}
/** One value of each field that is stated. */
export type Row = Readonly<Record<string, unknown>>;

interface Level {
  field: number;
  value: unknown;
}

/** Fields and values as numbers, and which pairs of values can stand in one row at all. */
class PairTable {
  readonly fields: readonly Field[];
  readonly levels: Level[] = [];
  readonly levelsOf: number[][] = [];
  private readonly controllerOf: (number | undefined)[];
  private readonly open: Uint8Array;
  openCount = 0;

  constructor(fields: readonly Field[]) {
    this.fields = fields;
    this.controllerOf = fields.map(({ when }) => (when ? this.fieldNamed(when.field) : undefined));
    fields.forEach(({ values }, field) => {
      this.levelsOf.push(values.map((value) => this.levels.push({ field, value }) - 1));
    });
    this.open = new Uint8Array(this.levels.length ** 2);
    for (let a = 0; a < this.levels.length; a += 1) {
      for (let b = a + 1; b < this.levels.length; b += 1) if (this.fitTogether(a, b)) this.setOpen(a, b, 1);
    }
  }

  private fieldNamed(name: string): number {
    const at = this.fields.findIndex((field) => field.name === name);
    if (at < 0 || this.fields[at]?.when) throw new Error(`A field depends on "${name}", which must always be stated.`);
    return at;
  }

  /** The levels of the controlling field that let a level be stated; none where it needs nothing. */
  private needed(level: number): { field: number; levels: number[] } | undefined {
    const { field } = this.levelAt(level);
    const controller = this.controllerOf[field];
    if (controller === undefined) return undefined;
    const allowed = this.fields[field]?.when?.is ?? [];
    const levels = (this.levelsOf[controller] ?? []).filter((at) => allowed.includes(this.levelAt(at).value));
    return { field: controller, levels };
  }

  levelAt(level: number): Level {
    const found = this.levels[level];
    if (!found) throw new Error(`There is no level ${level}.`);
    return found;
  }

  fitTogether(a: number, b: number): boolean {
    const [of, and] = [this.levelAt(a).field, this.levelAt(b).field];
    if (of === and) return false;
    const [needsA, needsB] = [this.needed(a), this.needed(b)];
    if (needsA?.levels.length === 0 || needsB?.levels.length === 0) return false;
    if (needsA?.field === and) return needsA.levels.includes(b);
    if (needsB?.field === of) return needsB.levels.includes(a);
    if (!needsA || !needsB || needsA.field !== needsB.field) return true;
    return needsA.levels.some((level) => needsB.levels.includes(level));
  }

  /** What the controlling field may be where all these levels are stated. */
  controllersFor(levels: readonly number[], controller: number): number[] {
    const all = this.levelsOf[controller] ?? [];
    return levels.reduce((left, level) => {
      const needs = this.needed(level);
      return needs?.field === controller ? left.filter((at) => needs.levels.includes(at)) : left;
    }, all);
  }

  isController(field: number): boolean {
    return this.controllerOf.includes(field);
  }

  /** Is a field stated beside these levels? */
  isStated(field: number, chosen: readonly (number | undefined)[]): boolean {
    const controller = this.controllerOf[field];
    if (controller === undefined) return true;
    const level = chosen[controller];
    const allowed = this.fields[field]?.when?.is ?? [];
    return level !== undefined && allowed.includes(this.levelAt(level).value);
  }

  isOpen(a: number, b: number): boolean {
    return this.open[a * this.levels.length + b] === 1;
  }

  setOpen(a: number, b: number, state: 0 | 1): void {
    if (this.isOpen(a, b) === (state === 1)) return;
    this.open[a * this.levels.length + b] = state;
    this.open[b * this.levels.length + a] = state;
    this.openCount += state === 1 ? 1 : -1;
  }

  firstOpen(from: number): { a: number; b: number } | undefined {
    for (let a = from; a < this.levels.length; a += 1) {
      for (let b = a + 1; b < this.levels.length; b += 1) if (this.isOpen(a, b)) return { a, b };
    }
    return undefined;
  }
}

/**
 * Few rows in which every pair of values of two fields occurs, where the two can be stated together at all: greedy, one
 * row after the other, each begun with a pair that no row has yet. The same fields give the same rows.
 */
export function coveringRows(fields: readonly Field[]): Row[] {
  const table = new PairTable(fields);
  const rows: Row[] = [];
  const used = new Uint32Array(table.levels.length);
  let from = 0;
  for (;;) {
    const seed = table.firstOpen(from);
    if (!seed) return rows;
    from = seed.a;
    const chosen = filled(table, seed, used);
    cover(table, chosen, used);
    rows.push(rowOf(table, chosen));
  }
}

/** A whole row around a pair: controlling fields first, then each field by how many new pairs its value adds. */
function filled(table: PairTable, { a, b }: { a: number; b: number }, used: Uint32Array): (number | undefined)[] {
  const chosen: (number | undefined)[] = table.fields.map(() => undefined);
  for (const level of [a, b]) chosen[table.levelAt(level).field] = level;
  const order = table.fields.map((_, field) => field);
  const controllersFirst = [
    ...order.filter((field) => table.isController(field)),
    ...order.filter((field) => !table.isController(field)),
  ];
  for (const field of controllersFirst) {
    if (chosen[field] !== undefined || !table.isStated(field, chosen)) continue;
    const may = table.isController(field) ? table.controllersFor([a, b], field) : (table.levelsOf[field] ?? []);
    chosen[field] = best(table, may, chosen, used);
  }
  return chosen;
}

function best(
  table: PairTable,
  levels: readonly number[],
  chosen: readonly (number | undefined)[],
  used: Uint32Array,
): number | undefined {
  let found: number | undefined;
  let most = -1;
  for (const level of levels) {
    let gain = 0;
    for (const other of chosen) if (other !== undefined && table.isOpen(level, other)) gain += 1;
    const isRarer = found !== undefined && (used[level] ?? 0) < (used[found] ?? 0);
    if (gain > most || (gain === most && isRarer)) {
      most = gain;
      found = level;
    }
  }
  return found;
}

function cover(table: PairTable, chosen: readonly (number | undefined)[], used: Uint32Array): void {
  const stated = chosen.filter((level) => level !== undefined);
  for (const a of stated) {
    used[a] = (used[a] ?? 0) + 1;
    for (const b of stated) if (a < b) table.setOpen(a, b, 0);
  }
}

function rowOf(table: PairTable, chosen: readonly (number | undefined)[]): Row {
  return Object.fromEntries(
    chosen.flatMap((level) => {
      if (level === undefined) return [];
      const { field, value } = table.levelAt(level);
      return [[table.fields[field]?.name ?? '', value]];
    }),
  );
}
