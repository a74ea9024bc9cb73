import { toFourDecimals } from '../money.ts';
import type { MaterialDemand, TaskDemand } from '../plan-types.ts';
import type { Spec } from '../price-book.ts';
import type { LineClass, Scope } from '../vocabulary.ts';

/** What one part of the take-off asks for. */
export interface Demands {
  materials: MaterialDemand[];
  tasks: TaskDemand[];
}

/** Puts the demands of several parts together, in their order. Loops, since every candidate plan goes through here. */
export function joined(parts: readonly Demands[]): Demands {
  const all: Demands = { materials: [], tasks: [] };
  for (const { materials: some, tasks } of parts) {
    for (const demand of some) all.materials.push(demand);
    for (const task of tasks) all.tasks.push(task);
  }
  return all;
}

/** A number as people read it: at most two decimals. */
export function shown(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** `1 riser`, `2 risers`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${shown(count)} ${count === 1 ? one : many}`;
}

/** A quantity with a percentage of waste on it. */
export function withWaste(quantity: number, wastePercent: number): number {
  return toFourDecimals((quantity * (100 + wastePercent)) / 100);
}

interface MaterialParts {
  spec: Spec;
  description: string;
  scope: Scope;
  unit?: string;
  class?: LineClass;
  quantity: number;
  legs?: readonly number[];
  because: string | readonly string[];
}

const texts = (because: string | readonly string[]) => (typeof because === 'string' ? [because] : [...because]);
const ordered = (legs: readonly number[]) => (legs.length < 2 ? [...legs] : [...new Set(legs)].sort((a, b) => a - b));

/** So many units of a material, a rental or a fee; none where the quantity is 0. Counted one by one unless `unit` says else. */
export function materials(parts: MaterialParts): Demands {
  const { spec, description, scope, unit = 'each', quantity, legs = [], because } = parts;
  if (quantity <= 0) return { materials: [], tasks: [] };
  const demand: MaterialDemand = {
    spec,
    description,
    class: parts.class ?? 'material',
    scope,
    unit,
    quantity: toFourDecimals(quantity),
    legs: ordered(legs),
    because: texts(because),
  };
  return { materials: [demand], tasks: [] };
}

/** Something that only its name tells apart. */
export function named(parts: Omit<MaterialParts, 'spec'> & { name: string }): Demands {
  return materials({ spec: { is: 'other', name: parts.name }, ...parts });
}

/** A rented machine, by the day or by the trip. */
export function rental(parts: Omit<MaterialParts, 'spec' | 'class'> & { name: string }): Demands {
  return named({ class: 'equipment', ...parts });
}

interface TaskParts {
  task: string;
  scope: Scope;
  unit?: string;
  quantity: number;
  inPlace?: number;
  factors?: readonly string[];
  legs?: readonly number[];
  because: string | readonly string[];
}

/** So many units of a labor task; none where the quantity is 0. */
export function work(parts: TaskParts): Demands {
  const { task, scope, unit = 'each', quantity, inPlace, factors = [], legs = [], because } = parts;
  if (quantity <= 0) return { materials: [], tasks: [] };
  const demand: TaskDemand = {
    task,
    scope,
    quantity: toFourDecimals(quantity),
    unit,
    factors: [...new Set(factors)],
    legs: ordered(legs),
    because: texts(because),
  };
  if (inPlace !== undefined) demand.inPlace = toFourDecimals(inPlace);
  return { materials: [], tasks: [demand] };
}
