import type { PlannedOption } from '../plan-types.ts';
import type { Scope } from '../vocabulary.ts';
import { moleFt } from './bores.ts';
import { type Demands, joined, named, rental, shown, work } from './demand.ts';
import { type DitchLeg, type Soil, TASK_DEPTH_IN, type Tool } from './ditches.ts';
import { strips } from './surfaces.ts';

/** Feet of ditch, 24 in deep, that a machine digs in a day with its moving about. Common practice, no source. */
const DITCH_FT_A_DAY: Record<Soil, number> = { loam: 300, clay: 220, wet: 200, roots: 120, rocky: 100, frozen: 50 };
/** Feet of 4 in cut, ft² of 4 in slab broken, feet of mole bore, and feet compacted in a day. Common practice, no source. */
const CUT_FT_A_DAY = 250;
const BROKEN_FT2_A_DAY = 100;
const BORED_FT_A_DAY = 30;
const COMPACTED_FT_A_DAY = 250;

/** Whole days of a machine for so much work, at its output a day. */
export function daysOf(amount: number, outputADay: number): number {
  return Math.ceil(amount / outputADay - 1e-9);
}

/** Machines rented by the day for the whole job, brought and fetched, and the work of setting them up. */
export function rentalDemands(plan: PlannedOption, dug: readonly DitchLeg[]): Demands {
  return joined([digger(dug, 'trencher'), digger(dug, 'excavator'), compactor(dug), sawAndBreaker(dug), mole(plan)]);
}

function day(parts: {
  name: string;
  description: string;
  scope: Scope;
  days: number;
  legs: number[];
  because: string;
}): Demands {
  return rental({ unit: 'day', quantity: parts.days, ...parts });
}

type Machine = Exclude<Tool, 'hand'>;

/** Whole days that a machine digs. */
function diggerDays(dug: readonly DitchLeg[], tool: Machine): number {
  const daysExactly = dug.reduce((sum, ditch) => {
    if (ditch.tool !== tool) return sum;
    const { lengthFt, byHandFt, dugIn, soils } = ditch;
    const output = Math.min(...soils.map((soil) => DITCH_FT_A_DAY[soil]));
    return sum + ((lengthFt - byHandFt) * dugIn) / TASK_DEPTH_IN / output;
  }, 0);
  return daysOf(daysExactly, 1);
}

/** Whole days that machines are rented for to dig: they follow from how deep the ditches are. */
export function diggingDays(dug: readonly DitchLeg[]): number {
  return diggerDays(dug, 'trencher') + diggerDays(dug, 'excavator');
}

function digger(dug: readonly DitchLeg[], tool: Machine): Demands {
  const ditches = dug.filter((ditch) => ditch.tool === tool);
  const legs = ditches.map(({ leg }) => leg);
  const days = diggerDays(dug, tool);
  const soils = [...new Set(ditches.flatMap((ditch) => ditch.soils))];
  const outputs = soils.map((soil) => `${DITCH_FT_A_DAY[soil]} ft of ${TASK_DEPTH_IN} in a day in ${soil}`).join(', ');
  const because = `${shown(ditches.reduce((sum, { lengthFt, byHandFt }) => sum + lengthFt - byHandFt, 0))} ft at ${outputs}`;
  const scope = 'trench';
  const isTrencher = tool === 'trencher';
  return joined([
    day({
      name: isTrencher ? 'trencher-walk-day' : 'mini-ex-day',
      description: isTrencher ? 'walk-behind trencher' : 'mini excavator',
      scope,
      days,
      legs,
      because,
    }),
    rental({
      name: 'delivery-one-way',
      description: 'delivery or pick-up of a machine',
      scope,
      unit: 'trip',
      quantity: days > 0 ? 2 : 0,
      legs,
      because: `the ${tool} is brought and fetched`,
    }),
    work({
      task: 'trencher-setup',
      scope,
      unit: 'day',
      quantity: days,
      legs,
      because: `the ${tool} unloaded, fuelled, cleaned`,
    }),
  ]);
}

/** A plate compactor where a ditch is filled by machine, or is driven or walked on. */
function compactor(dug: readonly DitchLeg[]): Demands {
  const filled = dug.filter(
    ({ tool, stated }) => tool !== 'hand' || stated.kind.endsWith('-cut') || stated.kind === 'pavers-lift',
  );
  const ft = filled.reduce((sum, { lengthFt }) => sum + lengthFt, 0);
  return day({
    name: 'plate-compactor-day',
    description: 'plate compactor',
    scope: 'trench',
    days: daysOf(ft, COMPACTED_FT_A_DAY),
    legs: filled.map(({ leg }) => leg),
    because: `${shown(ft)} ft compacted, ${COMPACTED_FT_A_DAY} ft a day`,
  });
}

function sawAndBreaker(dug: readonly DitchLeg[]): Demands {
  const concrete = strips(dug, 'concrete-cut');
  const all = [...concrete, ...strips(dug, 'asphalt-cut')];
  const scope = 'hard-surface';
  const legs = all.map(({ leg }) => leg);
  const cutFt = all.reduce((sum, { sawCutFt, thicknessIn }) => sum + sawCutFt * Math.max(1, thicknessIn / 4), 0);
  const brokenFt2 = all.reduce((sum, { areaFt2, thicknessIn }) => sum + areaFt2 * Math.max(1, thicknessIn / 4), 0);
  const sawDays = daysOf(cutFt, CUT_FT_A_DAY);
  return joined([
    day({
      name: 'concrete-saw-walk-day',
      description: 'walk-behind concrete saw',
      scope,
      days: sawDays,
      legs,
      because: `${shown(cutFt)} ft of cut as if 4 in deep, ${CUT_FT_A_DAY} ft a day`,
    }),
    work({
      task: 'saw-setup',
      scope,
      unit: 'day',
      quantity: sawDays,
      legs,
      because: 'saw set up, water, slurry cleaned up',
    }),
    day({
      name: 'breaker-electric-day',
      description: 'electric breaker',
      scope,
      days: daysOf(brokenFt2, BROKEN_FT2_A_DAY),
      legs,
      because: `${shown(brokenFt2)} ft² broken out as if 4 in thick, ${BROKEN_FT2_A_DAY} ft² a day`,
    }),
  ]);
}

function mole(plan: PlannedOption): Demands {
  const { ft, legs } = moleFt(plan);
  return day({
    name: 'mole-day',
    description: 'pneumatic mole with compressor',
    scope: 'trench',
    days: daysOf(ft, BORED_FT_A_DAY),
    legs,
    because: `${shown(ft)} ft bored, ${BORED_FT_A_DAY} ft a day`,
  });
}

/** Fees and calls before the ground is opened: public marks are free, private lines are found by somebody who is paid. */
export function locateDemands(plan: PlannedOption, isOpened: boolean): Demands {
  const crossings = plan.route.flatMap(({ leg, stated }) =>
    (stated.crossings ?? []).map(({ what }) => ({ leg, what })),
  );
  const own = crossings.filter(({ what }) => what === 'private-electric' || what === 'irrigation');
  return joined([
    work({
      task: 'locate-call',
      scope: 'trench',
      unit: 'job',
      quantity: isOpened ? 1 : 0,
      because: 'buried lines are marked before the ground is opened; the call is free',
    }),
    named({
      name: 'private-locate',
      description: 'locating own buried lines',
      class: 'fee',
      scope: 'trench',
      quantity: isOpened && own.length > 0 ? 1 : 0,
      legs: own.map(({ leg }) => leg),
      because: `public marks end at the meter; own lines are crossed: ${[...new Set(own.map(({ what }) => what))].join(', ')}`,
    }),
  ]);
}
