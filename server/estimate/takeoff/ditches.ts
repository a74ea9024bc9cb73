import { legField } from '../description/leg.ts';
import type { Leg } from '../description.ts';
import type { PlannedOption } from '../plan-types.ts';
import { isDitch } from '../vocabulary.ts';

export type Soil = NonNullable<Leg['soil']>[number];
export type Tool = 'hand' | 'trencher' | 'excavator';

/** A stretch of ditch as it is dug. Feet and inches. */
export interface DitchLeg {
  leg: number;
  stated: Leg;
  lengthFt: number;
  /** From the surface to the bottom. */
  depthIn: number;
  /** What is dug: without the slab or asphalt on top, which is broken out. */
  dugIn: number;
  soils: Soil[];
  /** Why the soil may be another: it is loam, stated or not, and the leg beside it in the ground has harder soil. */
  soilDoubt?: string;
  tool: Tool;
  /** Dug by hand even where a machine digs the rest: at marked lines and among roots. */
  byHandFt: number;
}

/** What the hours of the digging tasks are for, in inches. */
export const TASK_DEPTH_IN = 24;
/** Cover and cable where a plan states no depth, in inches. */
const UNSTATED_DEPTH_IN = 26;
/** A walk-behind trencher digs so deep, in inches; deeper ditches take an excavator. */
const TRENCHER_REACH_IN = 36;
/** By hand on both sides of a marked line, and among the roots of a tree, in feet. Common practice, no source. */
const BY_HAND_FT = { line: 4, roots: 10 };
/**
 * Up to so much digging a machine does not pay: feet of loam, 24 in deep, some three hours by hand. Common practice, no
 * source.
 */
const HAND_UP_TO_LOAM_FT = 40;

/** From easy to hard by hand, and how many times as slow as loam: the likely hours of the digging tasks. Common practice, no source. */
export const HAND_EFFORT: Record<Soil, number> = { loam: 1, wet: 1.4, clay: 1.5, roots: 2.25, rocky: 2.5, frozen: 5 };

/** Of several soils the hardest to dig. */
export function hardestSoil(soils: readonly Soil[]): Soil {
  return [...soils].sort((a, b) => HAND_EFFORT[b] - HAND_EFFORT[a])[0] ?? 'loam';
}

/** Hard ground on top, in inches, that is cut and broken out rather than dug. */
function slabIn({ kind, thicknessIn = 4 }: Leg): number {
  return kind === 'concrete-cut' || kind === 'asphalt-cut' ? thicknessIn : 0;
}

/** The legs of the route that some run lies in. */
function usedLegs({ runs, route }: PlannedOption): PlannedOption['route'] {
  const used = new Set<number>();
  for (const { legs } of runs) for (const { leg } of legs) used.add(leg);
  return route.filter(({ leg }) => used.has(leg));
}

/** The legs that some run lies in, dug once however many runs share them. */
export function dugLegs(plan: PlannedOption): DitchLeg[] {
  const dug = usedLegs(plan).filter(({ stated }) => isDitch(stated.kind));
  const measured = dug.map(({ leg, stated, feet }, at) => {
    const depthIn = plan.ditches.find(({ legs }) => legs.includes(leg))?.depthIn ?? UNSTATED_DEPTH_IN;
    const soils = legField(stated, 'soil') as Soil[];
    const lengthFt = feet.likely;
    return {
      leg,
      stated,
      lengthFt,
      depthIn,
      dugIn: Math.max(depthIn - slabIn(stated), 0),
      soils,
      byHandFt: handFt(stated, lengthFt),
      ...soilDoubt(
        stated,
        [dug[at - 1], dug[at + 1]].filter((beside) => beside && Math.abs(beside.leg - leg) === 1),
      ),
    };
  });
  const effortFt = measured.reduce((sum, ditch) => sum + effortOf(ditch), 0);
  return measured.map((ditch) => ({ tool: toolFor(ditch, effortFt), ...ditch }));
}

/** Loam is taken where no soil is stated, also beside a leg of harder ground: that is said, and nothing is guessed. */
function soilDoubt(stated: Leg, beside: readonly ({ stated: Leg } | undefined)[]): Pick<DitchLeg, 'soilDoubt'> {
  if ((legField(stated, 'soil') as Soil[]).some((soil) => soil !== 'loam')) return {};
  const harder = beside.flatMap((other) => other?.stated.soil ?? []).filter((soil) => soil !== 'loam');
  if (harder.length === 0) return {};
  return {
    soilDoubt: `loam is taken here, though the leg beside it has ${[...new Set(harder)].join(' and ')}: state its soil if it is the same`,
  };
}

/** The same ditch at another depth, dug with another tool. */
export function ditchAt(ditch: DitchLeg, { depthIn, tool }: { depthIn: number; tool: Tool }): DitchLeg {
  return { ...ditch, depthIn, dugIn: Math.max(depthIn - slabIn(ditch.stated), 0), tool };
}

function effortOf({ lengthFt, dugIn, soils }: Omit<DitchLeg, 'tool'>): number {
  return lengthFt * (dugIn / TASK_DEPTH_IN) * HAND_EFFORT[hardestSoil(soils)];
}

function toolFor({ stated, depthIn, soils }: Omit<DitchLeg, 'tool'>, effortFt: number): Tool {
  const dig = legField(stated, 'dig');
  if (dig !== 'auto') return dig;
  if (stated.kind === 'planting-bed' || soils.includes('roots') || effortFt <= HAND_UP_TO_LOAM_FT) return 'hand';
  return depthIn > TRENCHER_REACH_IN ? 'excavator' : 'trencher';
}

function handFt({ crossings = [] }: Leg, lengthFt: number): number {
  const feet = crossings.reduce(
    (sum, { what, count }) => sum + count * (what === 'tree-root-zone' ? BY_HAND_FT.roots : BY_HAND_FT.line),
    0,
  );
  return Math.min(lengthFt, feet);
}

/** Bores of the route that some run lies in. */
export function boredLegs(plan: PlannedOption): { leg: number; stated: Leg; lengthFt: number }[] {
  return usedLegs(plan)
    .filter(({ stated }) => stated.kind === 'bore')
    .map(({ leg, stated, feet }) => ({ leg, stated, lengthFt: feet.likely }));
}

/** Does some run lie in a ditch or a bore? */
export function liesInGround(plan: PlannedOption): boolean {
  return usedLegs(plan).some(({ stated: { kind } }) => isDitch(kind) || kind === 'bore');
}

/** Does a finished surface hide some run? */
export function liesBehindFinish(plan: PlannedOption): boolean {
  return usedLegs(plan).some(({ stated: { kind } }) => kind.startsWith('finished-'));
}

/** Is any ground opened, or a rod driven into it, so that buried lines must be marked first? */
export function isGroundOpened(plan: PlannedOption): boolean {
  const drivesRods = plan.grounding !== undefined || plan.serviceWork !== undefined;
  return drivesRods || liesInGround(plan);
}
