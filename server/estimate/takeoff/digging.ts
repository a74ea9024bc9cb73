import { counted, type Demands, joined, named, shown, work } from './demand.ts';
import { type DitchLeg, hardestSoil, type Soil, TASK_DEPTH_IN } from './ditches.ts';

const SCOPE = 'trench';
/** Sand under and over a run in rocky ground: inches deep, and the ditch's width. Common practice, no source. */
const BEDDING_IN = 4;
const DITCH_WIDTH_IN = 10;

/** Digging, bedding, marking tape and backfill of every ditch. */
export function diggingDemands(dug: readonly DitchLeg[]): Demands {
  return joined(
    dug.flatMap((ditch) => [
      machineDigging(ditch),
      handDigging(ditch),
      crossedLines(ditch),
      bedding(ditch),
      closing(ditch),
    ]),
  );
}

/** `41 ft × 20 in of 24 in`: the tasks' hours are for 24 in of depth. */
function depthWords(ft: number, dugIn: number): string {
  return `${shown(ft)} ft, ${shown(dugIn)} in deep where the task is for ${TASK_DEPTH_IN} in`;
}

/** How much of a task's unit a ditch is: its feet by its depth against what the task is for. */
function taskFt(ft: number, dugIn: number): number {
  return (ft * dugIn) / TASK_DEPTH_IN;
}

const soilFactors = (soils: readonly Soil[]) =>
  soils.filter((soil) => soil !== 'loam').map((soil) => `factor-soil-${soil}`);

function machineDigging({ leg, lengthFt, dugIn, byHandFt, soils, soilDoubt, tool }: DitchLeg): Demands {
  if (tool === 'hand') return joined([]);
  const ft = lengthFt - byHandFt;
  const { task, rest } = tool === 'trencher' ? trencherTask(soils) : { task: 'excavator-trench', rest: soils };
  return work({
    task,
    scope: SCOPE,
    unit: 'ft',
    quantity: taskFt(ft, dugIn),
    inPlace: ft,
    factors: soilFactors(rest),
    legs: [leg],
    because: [`${depthWords(ft, dugIn)}, ${soils.join(' and ')}, by ${tool}`, ...(soilDoubt ? [soilDoubt] : [])],
  });
}

/** The trencher's task for the hardest soil that has one, and the soils that still slow it down. */
function trencherTask(soils: readonly Soil[]): { task: string; rest: Soil[] } {
  const hard = soils.filter((soil) => soil === 'rocky' || soil === 'roots');
  if (hard.length > 0) return { task: 'trencher-rocky', rest: soils.filter((soil) => soil !== hard[0]) };
  if (soils.includes('frozen')) return { task: 'trencher-rocky', rest: [...soils] };
  if (soils.includes('clay')) return { task: 'trencher-clay', rest: soils.filter((soil) => soil !== 'clay') };
  return { task: 'trencher-loam', rest: [...soils] };
}

function handDigging({ leg, stated, lengthFt, dugIn, byHandFt, soils, soilDoubt, tool }: DitchLeg): Demands {
  const ft = tool === 'hand' ? lengthFt : byHandFt;
  const rooted =
    tool !== 'hand' && stated.crossings?.some(({ what }) => what === 'tree-root-zone') ? ['roots' as const] : [];
  const all = [...new Set([...soils, ...rooted])];
  const hardest = hardestSoil(all);
  // Wet ground has no task of its own: it is loam that is slowed down.
  const task = hardest === 'wet' ? 'loam' : hardest;
  const where = tool === 'hand' ? '' : ', at lines and roots that are crossed';
  return work({
    task: `hand-dig-${task}`,
    scope: SCOPE,
    unit: 'ft',
    quantity: taskFt(ft, dugIn),
    inPlace: ft,
    factors: soilFactors(all.filter((soil) => soil !== task)),
    legs: [leg],
    because: [`${depthWords(ft, dugIn)}, ${all.join(' and ')}, by hand${where}`, ...(soilDoubt ? [soilDoubt] : [])],
  });
}

/** Marked lines on the way are exposed by hand before anything is dug or bored across them. */
export function crossedLines({ leg, stated }: Pick<DitchLeg, 'leg' | 'stated'>): Demands {
  const lines = (stated.crossings ?? []).filter(({ what }) => what !== 'tree-root-zone');
  return work({
    task: 'pothole-utility',
    scope: SCOPE,
    quantity: lines.reduce((sum, { count }) => sum + count, 0),
    legs: [leg],
    because: `exposed by hand before anything is dug or bored across: ${lines.map(({ what, count }) => counted(count, `${what} line`)).join(', ')}`,
  });
}

function bedding({ leg, lengthFt, soils }: DitchLeg): Demands {
  if (!soils.includes('rocky')) return joined([]);
  const ft3 = lengthFt * (DITCH_WIDTH_IN / 12) * (BEDDING_IN / 12);
  const because = `rocky ground: ${shown(lengthFt)} ft × ${DITCH_WIDTH_IN} in × ${BEDDING_IN} in of sand around the run`;
  return joined([
    named({
      name: 'sand',
      description: 'bedding sand',
      scope: SCOPE,
      unit: 'ft3',
      quantity: ft3,
      legs: [leg],
      because,
    }),
    work({ task: 'bedding-sand', scope: SCOPE, unit: 'ft', quantity: lengthFt, legs: [leg], because }),
  ]);
}

function closing({ leg, lengthFt, dugIn, soils, tool }: DitchLeg): Demands {
  const legs = [leg];
  const tape = `${shown(lengthFt)} ft, laid above the run: good practice, not asked by the code here`;
  return joined([
    named({
      name: 'warning-tape-200',
      description: 'buried-line warning tape',
      scope: SCOPE,
      unit: 'ft',
      quantity: lengthFt,
      legs,
      because: tape,
    }),
    work({ task: 'warning-tape', scope: SCOPE, unit: 'ft', quantity: lengthFt, legs, because: tape }),
    work({
      task: tool === 'hand' ? 'backfill' : 'backfill-machine',
      scope: SCOPE,
      unit: 'ft',
      quantity: taskFt(lengthFt, dugIn),
      inPlace: lengthFt,
      factors: soils.includes('frozen') ? ['factor-rain-cold'] : [],
      legs,
      because: depthWords(lengthFt, dugIn),
    }),
  ]);
}
