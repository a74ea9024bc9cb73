import type { Description } from '../../../server/estimate/description.ts';
import { priceTakeoff } from '../../../server/estimate/lines.ts';
import type { Circuit } from '../../../server/estimate/plan/circuit.ts';
import { layCircuit } from '../../../server/estimate/plan/lay.ts';
import { allowedAt, fixedMethod, isClosed } from '../../../server/estimate/plan/methods.ts';
import { type ChosenCircuit, type OpenedOption, openOption, planBy } from '../../../server/estimate/plan/plan.ts';
import type { PlannedOption } from '../../../server/estimate/plan-types.ts';
import { type Book, bookOf, type PriceItem } from '../../../server/estimate/price-book.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { totalsOf } from '../../../server/estimate/totals.ts';
import {
  CONDUCTOR_SIZES,
  type ConductorSize,
  WIRING_METHODS,
  type WiringMethod,
} from '../../../server/estimate/vocabulary.ts';

/** What a plan costs by its lines, with what the owner's hours are weighed at. */
export function fullCents(plan: PlannedOption, book: Book): { cents: number; costCents: number; unpriced: number } {
  const { lines, labor } = priceTakeoff({ takeoff: takeoffOf(plan), plan, book });
  const { costCents } = totalsOf(lines, plan.description); // no job of these tests states a least charge
  const ownerCents = Math.round(labor.ownerHours * plan.description.terms.ownerHourCents);
  return { cents: costCents + ownerCents, costCents, unpriced: lines.filter(({ priced }) => !priced).length };
}

const RACEWAYS: readonly WiringMethod[] = ['pvc', 'emt', 'rmc'];

/** Every row of one from each list. */
function* products<Thing>(lists: readonly (readonly Thing[])[]): Generator<Thing[]> {
  const [first, ...rest] = lists;
  if (!first) {
    yield [];
    return;
  }
  for (const thing of first) for (const others of products(rest)) yield [thing, ...others];
}

/** Every way to lay a circuit that is lawful leg by leg, in every size that carries it and that the book sells. */
function waysToLay({ job }: OpenedOption, circuit: Circuit, opensFinishes = false): ChosenCircuit[] {
  const spots = [...circuit.legs.flatMap((leg) => job.route[leg] ?? []), ...(circuit.tail ? [circuit.tail] : [])];
  // Where only the rough-in is built, a cable is a stop.
  const methods = WIRING_METHODS.filter((method) => !job.option.roughInOnly || RACEWAYS.includes(method));
  const lawful = spots.map((spot) => {
    const fixed = 'stated' in spot ? fixedMethod(spot) : undefined;
    const all = fixed ? [fixed] : methods.filter((method) => allowedAt(job, spot, method).allowed);
    // Stiff raceway goes behind a finish only where no cable does.
    const cables =
      'stated' in spot && !opensFinishes && isClosed(job, spot) ? all.filter((one) => !RACEWAYS.includes(one)) : [];
    return cables.length > 0 ? cables : all;
  });
  const ways: ChosenCircuit[] = [];
  for (const metal of circuit.metals) {
    for (const chosen of products<WiringMethod>(lawful)) {
      const tail = circuit.tail ? chosen[circuit.legs.length] : undefined;
      const laying = { metal, methods: chosen.slice(0, circuit.legs.length), ...(tail && { tail }) };
      const { sizes, problem } = layCircuit(job, circuit, laying);
      const sold: readonly ConductorSize[] = problem ? [] : CONDUCTOR_SIZES.filter((size) => sizes.includes(size));
      ways.push(...sold.map((size) => ({ laying, size })));
    }
  }
  return ways;
}

const stops = ({ findings }: PlannedOption) => findings.filter(({ severity }) => severity === 'stop').length;

/** The least cost of all plans of a dedicated circuit, by pricing every one of them; nothing where none may be built. */
export function leastByTrying(description: Description, book: Book): number | undefined {
  const [option] = description.options;
  if (!option) return undefined;
  const opened = openOption(description, option, book);
  const [arriving] = opened.circuits?.arriving ?? [];
  if (!arriving) return undefined;
  const behind = waysToLay(opened, arriving.circuit);
  const ways = behind.length > 0 ? behind : waysToLay(opened, arriving.circuit, true);
  const all = ways.map((chosen) => planBy(opened, [chosen]));
  // What stands in the way of every plan, such as a spare conduit that nobody sells, chooses none of them.
  const fewest = Math.min(...all.map(stops));
  const plans = all.filter((plan) => stops(plan) === fewest);
  const leastDrop = Math.min(...plans.map(({ dropPercent }) => dropPercent));
  const mostDrop = Math.max(option.maxDropPercent, leastDrop);
  const costs = plans.filter(({ dropPercent }) => dropPercent <= mostDrop).map((plan) => fullCents(plan, book).cents);
  return costs.length > 0 ? Math.min(...costs) : undefined;
}

/** What each wiring is sold as. */
const SOLD_AS: Record<string, (item: PriceItem) => boolean> = {
  'nm-b': ({ spec }) => spec?.is === 'cable' && spec.form === 'nm-b',
  'uf-b': ({ spec }) => spec?.is === 'cable' && spec.form === 'uf-b',
  ser: ({ spec }) => spec?.is === 'cable' && spec.form === 'ser',
  'use-2': ({ spec }) =>
    (spec?.is === 'conductor' && spec.insulation === 'use-2') || (spec?.is === 'cable' && spec.form === 'mhf'),
  pvc: ({ spec }) => spec?.is === 'raceway' && spec.type === 'pvc-40',
  emt: ({ spec }) => spec?.is === 'raceway' && spec.type === 'emt',
  rmc: ({ spec }) => spec?.is === 'raceway' && spec.type === 'rmc',
};

/** A price book that sells only some ways of wiring. What they need besides, such as a sleeve, stays unless it goes too. */
export function cutTo(items: readonly PriceItem[], wirings: readonly string[]): Book {
  const out = Object.entries(SOLD_AS).flatMap(([wiring, isIt]) => (wirings.includes(wiring) ? [] : [isIt]));
  // A short piece of raceway through a wall is bought even where no run is laid in it.
  const kept = items.filter((item) => !out.some((isIt) => isIt(item)));
  return bookOf(kept, 1);
}
