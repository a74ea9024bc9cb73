/** Plain JSON: what a draft is made of. A half-typed number is a text until it can be read. */
export type Json = string | number | boolean | null | Json[] | JsonObject;
/** An object of a draft. A field that is left out is not there, or undefined for the moment. */
export interface JsonObject {
  [field: string]: Json | undefined;
}

/** Is it an object, neither a list nor null? */
export function isObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const stepsOf = (path: string) => path.split('.');

/** What stands at a dotted path such as `route.0.lengthFt`, or undefined. */
export function valueAt(whole: unknown, path: string): Json | undefined {
  let found: unknown = whole;
  for (const step of stepsOf(path)) {
    if (Array.isArray(found)) found = found[Number(step)];
    else if (isObject(found)) found = found[step];
    else return undefined;
  }
  return found as Json | undefined;
}

/** The list at a path, or an empty one. */
export function listAt(whole: unknown, path: string): Json[] {
  const found = valueAt(whole, path);
  return Array.isArray(found) ? found : [];
}

/** A copy with another value at a dotted path; undefined takes the field away. Missing groups are made. */
export function withValue(whole: JsonObject, path: string, value: Json | undefined): JsonObject {
  const [first = '', ...rest] = stepsOf(path);
  return replaced(whole, [first, ...rest], value) as JsonObject;
}

function replaced(whole: Json | undefined, steps: readonly string[], value: Json | undefined): Json {
  const [step = '', ...rest] = steps;
  if (Array.isArray(whole)) {
    const at = Number(step);
    const inner = rest.length > 0 ? replaced(whole[at], rest, value) : (value ?? null);
    return whole.map((item, index) => (index === at ? inner : item));
  }
  const group = isObject(whole) ? whole : {};
  const inner = rest.length > 0 ? replaced(group[step], rest, value) : value;
  if (inner !== undefined) return { ...group, [step]: inner };
  const { [step]: _left, ...others } = group;
  return others;
}

/** A list with one item moved; a place beyond the ends changes nothing. */
export function moved<Item>(list: readonly Item[], { from, to }: { from: number; to: number }): Item[] {
  const item = list[from];
  if (item === undefined || to < 0 || to >= list.length) return [...list];
  const others = list.filter((_, at) => at !== from);
  return [...others.slice(0, to), item, ...others.slice(to)];
}
