import type { Json, JsonObject } from '../json.ts';
import { isObject, listAt } from '../json.ts';

/** What a new project is asked first. Nothing is assumed: what is not known yet is stated as not known. */
export function blankDescription(title: string): JsonObject {
  return {
    title,
    site: {
      building: 'outdoor',
      service: { ratingA: null, freeSpaces: null },
      load: { method: 'unknown' },
    },
    route: [],
    options: [circuitOption([])],
  };
}

/** A charger as a new option has it. */
export function blankCharger(): JsonObject {
  return { amps: 32, connection: 'hardwired', equipment: 'buy', mount: 'wall' };
}

/** A leg as it is added: its length is not stated yet, and the server says so. */
export function blankLeg(kind: string): JsonObject {
  return { kind };
}

/** An id that no option has yet: `option-3`. */
export function freeId(options: readonly Json[]): string {
  const taken = new Set(options.map((option) => (isObject(option) ? option.id : undefined)));
  let number = options.length + 1;
  while (taken.has(`option-${number}`)) number += 1;
  return `option-${number}`;
}

/** A dedicated circuit as an option to begin with. */
export function circuitOption(options: readonly Json[]): JsonObject {
  return { id: freeId(options), label: 'One circuit', feed: 'dedicated-circuit', chargers: [blankCharger()] };
}

/** The same option once more, under an id of its own. */
export function copyOf(option: JsonObject, options: readonly Json[]): JsonObject {
  return {
    ...option,
    id: freeId(options),
    label: `${typeof option.label === 'string' ? option.label : 'Option'}, changed`,
  };
}

/** An option with another feed: what only the former feed has goes, what the new one must state comes. */
export function withFeed(option: JsonObject, feed: Json | undefined): JsonObject {
  const { subpanel, receptacle, ...rest } = option;
  if (feed === 'subpanel') {
    return { ...rest, feed, subpanel: subpanel ?? { ratingA: 100, spaces: 12, otherCircuits: [] } };
  }
  if (feed === 'existing-receptacle') {
    const unknown = { circuitA: 20, sharedWith: null, gfci: null, grounded: null };
    return { ...rest, feed, receptacle: receptacle ?? unknown };
  }
  return { ...rest, feed: feed ?? null };
}

/** The legs of a route; none while its line cannot be read. */
export function legsOf(route: Json | undefined): JsonObject[] {
  return Array.isArray(route) ? route.filter(isObject) : [];
}

/** Where the route of an option stands, when it is its own. */
export function ownRoutePath(option: number): string {
  return `options.${option}.route`;
}

/** The options of a draft. */
export function optionsOf(draft: JsonObject): JsonObject[] {
  return listAt(draft, 'options').filter(isObject);
}

/** A text of an object, or a stand-in for what is not a text yet. */
export function textOf(value: Json | undefined, standIn: string): string {
  return typeof value === 'string' && value.trim() !== '' ? value : standIn;
}
