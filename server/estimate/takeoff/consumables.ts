import type { MaterialDemand, PlannedOption, PlannedRun, Section } from '../plan-types.ts';
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
  const aluminumEnds = plan.runs.flatMap(({ terminations }) => terminations).filter(({ compound }) => compound).length;
  return usedUp(usesOf(taken), { aluminumEnds, isBuilt: plan.runs.length > 0, ...cablesOf(plan) });
}

/** What of a take-off uses something up, added up: it can be gathered part by part. */
export interface Uses {
  /** Glued joints of PVC, and feet of single conductors that are pulled. */
  glued: number;
  gluedLegs: number[];
  pulledFt: number;
  pulledLegs: number[];
  hasSingles: boolean;
  hasJoints: boolean;
}

/** What a plan uses up beside what its take-off says. */
export interface UsesOfRuns {
  aluminumEnds: number;
  isBuilt: boolean;
  /** Is the white wire of a cable of two hot, and does a conductor of a cable serve nothing? */
  hasWhiteHot: boolean;
  hasUnused: boolean;
}

/** Gathers what uses something up. */
export function usesOf({ materials, tasks }: Demands): Uses {
  const uses: Uses = { glued: 0, gluedLegs: [], pulledFt: 0, pulledLegs: [], hasSingles: false, hasJoints: false };
  for (const demand of materials) {
    const { spec, scope, legs } = demand;
    if (isPvcPart(demand)) {
      uses.glued += jointsOf(demand);
      uses.gluedLegs.push(...legs);
    }
    if (spec.is === 'conductor' && scope === 'wire') uses.hasSingles = true;
    if (spec.is === 'other' && /splice|twist/.test(spec.name)) uses.hasJoints = true;
  }
  for (const { task, quantity, legs } of tasks) {
    if (!task.startsWith('pull-') || task === 'pull-box') continue;
    uses.pulledFt += quantity;
    uses.pulledLegs.push(...legs);
  }
  return uses;
}

/** Tins, bottles and rolls for what is used up. */
export function usedUp(uses: Uses, ofRuns: UsesOfRuns): Demands {
  return joined([glue(uses), lubricant(uses), compound(ofRuns.aluminumEnds), small(uses, ofRuns)]);
}

function isPvcPart({ spec }: MaterialDemand): boolean {
  if (spec.is === 'other') return spec.name === 'pvc-reducer';
  return (spec.is === 'raceway' || spec.is === 'fitting') && (spec.type === 'pvc-40' || spec.type === 'pvc-80');
}

function jointsOf({ spec, quantity = 0 }: MaterialDemand): number {
  if (spec.is === 'raceway') return quantity / STICK_FT;
  return quantity * (spec.is === 'fitting' ? (JOINTS_OF_PIECE[spec.piece ?? ''] ?? 2) : 2);
}

function glue({ glued: joints, gluedLegs: legs }: Uses): Demands {
  const because = `${shown(joints)} glued joints, ${JOINTS_PER_PINT} a tin`;
  const scope = 'conduit';
  const quantity = joints / JOINTS_PER_PINT;
  return joined([
    named({ name: 'pvc-cement-pint', description: 'PVC cement, pint', scope, quantity, legs, because }),
    named({ name: 'pvc-primer', description: 'PVC primer, half pint', scope, quantity, legs, because }),
  ]);
}

function lubricant({ pulledFt: ft, pulledLegs: legs }: Uses): Demands {
  return named({
    name: 'wire-lube',
    description: 'pulling lubricant, quart',
    scope: 'wire',
    quantity: ft / PULLED_FT_PER_QUART,
    legs,
    because: `${shown(ft)} ft of single conductors pulled, ${PULLED_FT_PER_QUART} ft a quart`,
  });
}

/** Compound on every end of aluminum, as the plan's list of terminations names them. */
function compound(ends: number): Demands {
  return named({
    name: 'antiox',
    description: 'anti-oxidant compound',
    scope: 'wire',
    quantity: ends / ENDS_PER_BOTTLE,
    because: `${counted(ends, 'landing')} of aluminum, ${ENDS_PER_BOTTLE} a bottle`,
  });
}

/** What the cables of a plan ask for; nothing where conductors are left for later. */
function cablesOf({ runs, option }: PlannedOption): Pick<UsesOfRuns, 'hasWhiteHot' | 'hasUnused'> {
  const uses = option.roughInOnly ? [] : runs.flatMap((run) => run.sections.map((section) => cableUse(run, section)));
  return { hasWhiteHot: uses.some((use) => use.hasWhiteHot), hasUnused: uses.some((use) => use.hasUnused) };
}

/** Is the white wire of a section's cable hot (NEC 200.7(C)(1)), and does one of its conductors serve nothing? */
export function cableUse(
  { poles, neutral }: Pick<PlannedRun, 'poles' | 'neutral'>,
  { cable }: Pick<Section, 'cable'>,
): Pick<UsesOfRuns, 'hasWhiteHot' | 'hasUnused'> {
  return {
    hasWhiteHot: cable?.conductors === 2 && poles === 2 && !neutral,
    hasUnused: cable !== undefined && cable.conductors > poles + Number(neutral),
  };
}

/** What tape marks: single conductors by their use, and the white wire of a cable that is hot. NEC 200.7(C)(1). */
function markings({ hasSingles }: Uses, { hasWhiteHot }: UsesOfRuns): string[] {
  return [
    ...(hasSingles ? ['single conductors are marked by their use'] : []),
    ...(hasWhiteHot ? ['the white wire of a cable of two is hot here, and is marked so at both ends'] : []),
  ];
}

/** What tape covers: joints, and the conductor of a cable that serves nothing. */
function wrappings({ hasJoints }: Uses, { hasUnused }: UsesOfRuns): string[] {
  return [
    ...(hasJoints ? ['over the joints in boxes'] : []),
    ...(hasUnused ? ['over both ends of a conductor that serves nothing'] : []),
  ];
}

function small(uses: Uses, ofRuns: UsesOfRuns): Demands {
  const marks = markings(uses, ofRuns);
  const wraps = wrappings(uses, ofRuns);
  const built = ofRuns.isBuilt ? 1 : 0;
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
