import { allowedAt } from '../plan/methods.ts';
import type { Laying } from '../plan/wiring.ts';
import { WIRING_METHODS, type WiringMethod } from '../vocabulary.ts';
import type { OptionModel, RunChoice } from './option-model.ts';

/** A way through a run as the planner takes it: a method for each leg and the tail. */
export function layingOf({ runs, job }: OptionModel, run: number, { sized, path }: RunChoice): Laying {
  const { circuit } = sized;
  const methods = path.map(({ method }) => method);
  const legs = methods.slice(0, circuit.legs.length);
  const tail = methods.at(circuit.legs.length) ?? tailAfter(legs.at(-1));
  const { metal, begins } = sized;
  return { methods: legs, metal, ...(begins && { begins }), ...(tail && circuit.tail && { tail }) };

  /** A tail of no length goes on as the last leg does, where that is lawful there. */
  function tailAfter(last: WiringMethod | undefined): WiringMethod | undefined {
    const spot = runs[run]?.space.circuit.tail;
    if (!spot) return undefined;
    const goesOn = last === 'direct-burial' ? 'pvc' : last;
    return [...(goesOn ? [goesOn] : []), ...WIRING_METHODS].find((method) => allowedAt(job, spot, method).allowed);
  }
}
