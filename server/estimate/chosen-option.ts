import type { Estimate } from './answer.ts';
import { InputError } from './input-problems.ts';

/** The option asked for: by its id, else the cheapest, else the first. @throws {InputError} for an id that is none */
export function chosenOption({ options, comparison }: Estimate, id: string | undefined): Estimate['options'][number] {
  const wanted = id ?? comparison.cheapest ?? options[0]?.id;
  const option = options.find((each) => each.id === wanted);
  if (option) return option;
  const ids = options.map((each) => each.id).join(', ');
  throw new InputError([{ path: 'option', message: `must be the id of an option (${ids}), not "${wanted ?? ''}"` }]);
}
