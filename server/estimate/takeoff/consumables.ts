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
  if (spec.is === 'other') return spec.name === 'pvc-reducer';
  return (spec.is === 'raceway' || spec.is === 'fitting') && (spec.type === 'pvc-40' || spec.type === 'pvc-80');
}

function jointsOf({ spec, quantity = 0 }: MaterialDemand): number {
  if (spec.is === 'raceway') return quantity / STICK_FT;
  return quantity * (spec.is === 'fitting' ? (JOINTS_OF_PIECE[spec.piece ?? ''] ?? 2) : 2);
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

/** Whole cables of a plan with the run that each serves; none where conductors are left for later. */
function cablesOf({ runs, option }: PlannedOption): { conductors: 2 | 3; hot: number; neutral: boolean }[] {
  if (option.roughInOnly) return [];
  return runs.flatMap(({ sections, poles, neutral }) =>
    sections.flatMap(({ cable }) => (cable ? [{ conductors: cable.conductors, hot: poles, neutral }] : [])),
  );
}

/** What tape marks: single conductors by their use, and the white wire of a cable that is hot. NEC 200.7(C)(1). */
function markings(plan: PlannedOption, materials: readonly MaterialDemand[]): string[] {
  const hasSingles = materials.some(({ spec, scope }) => spec.is === 'conductor' && scope === 'wire');
  const hasWhiteHot = cablesOf(plan).some(({ conductors, hot, neutral }) => conductors === 2 && hot === 2 && !neutral);
  return [
    ...(hasSingles ? ['single conductors are marked by their use'] : []),
    ...(hasWhiteHot ? ['the white wire of a cable of two is hot here, and is marked so at both ends'] : []),
  ];
}

/** What tape covers: joints, and the conductor of a cable that serves nothing. */
function wrappings(plan: PlannedOption, materials: readonly MaterialDemand[]): string[] {
  const hasJoints = materials.some(({ spec }) => spec.is === 'other' && /splice|twist/.test(spec.name));
  const hasUnused = cablesOf(plan).some(({ conductors, hot, neutral }) => conductors > hot + Number(neutral));
  return [
    ...(hasJoints ? ['over the joints in boxes'] : []),
    ...(hasUnused ? ['over both ends of a conductor that serves nothing'] : []),
  ];
}

function small(plan: PlannedOption, { materials }: Demands): Demands {
  const { runs } = plan;
  const marks = markings(plan, materials);
  const wraps = wrappings(plan, materials);
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
      quantity: marks.length > 0 ? 1 : 0,
      because: marks,
    }),
    named({
      name: 'tape-vinyl',
      description: 'vinyl tape',
      scope: 'boxes',
      quantity: wraps.length > 0 ? 1 : 0,
      because: wraps,
    }),
  ]);
}
