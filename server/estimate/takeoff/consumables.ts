import type { MaterialDemand, PlannedOption } from '../plan-types.ts';
import { counted, type Demands, joined, named, shown } from './demand.ts';

/** Joints that a pint of cement does, conductor-feet that a quart of lubricant eases, ends that a bottle of compound coats. Common practice, no source. */
const JOINTS_PER_PINT = 40;
const PULLED_FT_PER_QUART = 600;
const ENDS_PER_BOTTLE = 40;
const STICK_FT = 10;
/** Glued joints of a PVC fitting: one where it ends at a thread, a strap none, else two. */
const JOINTS_OF_PIECE: Record<string, number> = {
  'box-adapter': 1,
  'male-adapter': 1,
  'female-adapter': 1,
  'end-bell': 1,
  strap: 0,
  hub: 0,
  'locknut-bushing': 0,
};

/** What gets used up along the way: it follows from all that was taken off so far. */
export function consumables(plan: PlannedOption, taken: Demands): Demands {
  return joined([glue(taken.materials), lubricant(taken), compound(plan), small(plan, taken)]);
}

function isPvcPart({ spec }: MaterialDemand): boolean {
  return (spec.is === 'raceway' || spec.is === 'fitting') && (spec.type === 'pvc-40' || spec.type === 'pvc-80');
}

function jointsOf({ spec, quantity = 0 }: MaterialDemand): number {
  if (spec.is === 'raceway') return quantity / STICK_FT;
  return spec.is === 'fitting' ? quantity * (JOINTS_OF_PIECE[spec.piece ?? ''] ?? 2) : 0;
}

function glue(materials: readonly MaterialDemand[]): Demands {
  const parts = materials.filter(isPvcPart);
  const joints = parts.reduce((sum, part) => sum + jointsOf(part), 0);
  const legs = parts.flatMap((part) => part.legs);
  const because = `${shown(joints)} glued joints, ${JOINTS_PER_PINT} a tin`;
  const scope = 'conduit';
  const quantity = joints / JOINTS_PER_PINT;
  return joined([
    named({ name: 'pvc-cement-pint', description: 'PVC cement, pint', scope, quantity, legs, because }),
    named({ name: 'pvc-primer', description: 'PVC primer, half pint', scope, quantity, legs, because }),
  ]);
}

function lubricant({ tasks }: Demands): Demands {
  const pulls = tasks.filter(({ task }) => task.startsWith('pull-') && task !== 'pull-box');
  const ft = pulls.reduce((sum, { quantity }) => sum + quantity, 0);
  return named({
    name: 'wire-lube',
    description: 'pulling lubricant, quart',
    scope: 'wire',
    quantity: ft / PULLED_FT_PER_QUART,
    legs: pulls.flatMap(({ legs }) => legs),
    because: `${shown(ft)} ft of single conductors pulled, ${PULLED_FT_PER_QUART} ft a quart`,
  });
}

/** Compound on every end of aluminum, as the plan's list of terminations names them. */
function compound({ runs }: PlannedOption): Demands {
  const ends = runs.flatMap(({ terminations }) => terminations).filter(({ metal }) => metal === 'aluminum').length;
  return named({
    name: 'antiox',
    description: 'anti-oxidant compound',
    scope: 'wire',
    quantity: ends / ENDS_PER_BOTTLE,
    because: `${counted(ends, 'landing')} of aluminum, ${ENDS_PER_BOTTLE} a bottle`,
  });
}

function small({ runs }: PlannedOption, { materials }: Demands): Demands {
  const hasSingles = materials.some(({ spec, scope }) => spec.is === 'conductor' && scope === 'wire');
  const hasJoints = materials.some(({ spec }) => spec.is === 'other' && /splice|twist/.test(spec.name));
  const built = runs.length > 0 ? 1 : 0;
  const scope = 'other';
  return joined([
    named({
      name: 'anchors-screws',
      description: 'anchors and screws',
      scope,
      quantity: built,
      because: 'an assortment for the job',
    }),
    named({
      name: 'labels',
      description: 'panel and disconnect labels',
      scope,
      quantity: built,
      because: 'a set for the job',
    }),
    named({
      name: 'tape-color',
      description: 'colored marking tape',
      scope: 'wire',
      quantity: hasSingles ? 1 : 0,
      because: 'single conductors are marked by their use',
    }),
    named({
      name: 'tape-vinyl',
      description: 'vinyl tape',
      scope: 'boxes',
      quantity: hasJoints ? 1 : 0,
      because: 'over the joints in boxes',
    }),
  ]);
}
