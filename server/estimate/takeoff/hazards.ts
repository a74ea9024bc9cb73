import type { PlannedOption } from '../plan-types.ts';
import type { LegKind } from '../vocabulary.ts';
import { counted, type Demands, joined, named, work } from './demand.ts';
import { isNewConstruction } from './factors.ts';
import type { Way } from './way.ts';

type CareFor = 'asbestos' | 'lead-paint';

/** Legs along which the material is opened, drilled or disturbed. Common practice, no source. */
const OPENED: Record<CareFor, readonly LegKind[]> = {
  asbestos: ['finished-ceiling', 'finished-wall', 'attic', 'exterior-wall'],
  'lead-paint': ['finished-ceiling', 'finished-wall', 'exterior-wall'],
};
const SCOPE = 'other';

/** The care that asbestos and lead paint ask for wherever surfaces are opened: a test, sealing off, cleaning. Not their removal. */
export function hazardDemands(plan: PlannedOption, ways: readonly Way[]): Demands {
  const hazards = plan.description.site.hazards ?? [];
  if (isNewConstruction(plan)) return joined([]);
  return joined([
    hazards.includes('asbestos') ? asbestos(placesOf('asbestos', ways)) : joined([]),
    hazards.includes('lead-paint') ? leadPaint(placesOf('lead-paint', ways)) : joined([]),
  ]);
}

/** Places that are opened: a leg behind a surface, and each wall that a run passes; one that several runs share counts once. */
interface Places {
  count: number;
  legs: number[];
}

function placesOf(material: CareFor, ways: readonly Way[]): Places {
  const legs = new Set<number>();
  const walls = new Set<string>();
  for (const { run, stretches, joints } of ways) {
    for (const { leg, kind } of stretches) {
      if (leg !== undefined && kind !== 'tail' && OPENED[material].includes(kind)) legs.add(leg);
    }
    for (const { wall, legs: beside, at } of joints) {
      if (wall) walls.add(beside.length > 0 ? beside.join(' ') : `${run.name} ${at}`);
    }
  }
  return { count: legs.size + walls.size, legs: [...legs] };
}

function asbestos({ count, legs }: Places): Demands {
  const because = `asbestos: ${counted(count, 'place')} opened wet and sealed off`;
  return joined([
    named({
      name: 'asbestos-test',
      description: 'laboratory test for asbestos',
      class: 'fee',
      scope: SCOPE,
      quantity: count > 0 ? 1 : 0,
      legs,
      because: 'samples of what is opened, before anybody opens it',
    }),
    care({ name: 'asbestos-care', count, legs, because }),
  ]);
}

function leadPaint({ count, legs }: Places): Demands {
  const because = `lead paint: ${counted(count, 'place')} sealed off and cleaned`;
  return care({ name: 'lead-care', count, legs, because });
}

function care({ name, count, legs, because }: Places & { name: string; because: string }): Demands {
  return joined([
    named({
      name: `${name}-kit`,
      description: 'sheeting, tape, wipes and masks',
      scope: SCOPE,
      quantity: count,
      legs,
      because,
    }),
    work({ task: name, scope: SCOPE, unit: 'place', quantity: count, legs, because }),
  ]);
}
