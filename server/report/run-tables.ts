import type { EstimateOption, Run } from '../estimate/answer.ts';
import type { Column, Row } from './table.ts';
import {
  conductorSize,
  conductorsInWords,
  conductorsOf,
  counted,
  dropInWords,
  feet,
  legNumbers,
  number,
  wiringMethod,
} from './wording.ts';

/** Who comes, and what for. */
export const VISITS = {
  work: 'the crew',
  'trench-inspection': 'the inspector for the open ditch',
  'rough-inspection': 'the inspector for the rough work',
  'final-inspection': 'the inspector for the whole',
  utility: 'the utility',
} as const;

interface TableData {
  columns: readonly Column[];
  rows: Row[];
}

/** The runs: from where to where, with which device and conductor, by which methods. */
export function runTable({ runs }: EstimateOption): TableData {
  return {
    columns: [
      { head: 'Run', share: 1 },
      { head: 'Length', widthPt: 40, align: 'right' },
      { head: 'Load', widthPt: 34, align: 'right' },
      { head: 'Breaker', widthPt: 62 },
      { head: 'Conductor', widthPt: 92 },
      { head: 'Ground', widthPt: 42 },
      { head: 'Method by leg', share: 1 },
      { head: 'Drop', widthPt: 34, align: 'right' },
    ],
    rows: runs.map((run) => ({ cells: runCells(run) })),
  };
}

function runCells(run: Run): string[] {
  const { breaker } = run;
  const ampacityA = Math.min(...conductorsOf(run).map((conductor) => conductor.ampacityA));
  const kind = breaker.kind === 'gfci' ? ', GFCI' : '';
  return [
    `${run.name}, ${run.from} to ${run.to}`,
    feet(run.lengthFt),
    `${number(run.loadA, 1)} A`,
    `${breaker.ocpdA} A, ${breaker.poles}-pole${kind}`,
    `${conductorsInWords(run)}, ${number(ampacityA, 1)} A`,
    conductorSize(run.groundSize),
    methodsByLeg(run) || 'at the end of the route',
    dropInWords(run.dropPercent),
  ];
}

/** `SER cable 1; 1-1/2 in PVC 2–6`: each method with the legs that it serves. */
function methodsByLeg({ legs }: Run): string {
  const methods = [...new Set(legs.map(wiringMethod))];
  return methods
    .map(
      (method) => `${method} ${legNumbers(legs.filter((leg) => wiringMethod(leg) === method).map(({ leg }) => leg))}`,
    )
    .join('; ');
}

/** The wire list: what is cut for which run, in pieces and feet. */
export function wireTable({ runs }: EstimateOption): TableData {
  return {
    columns: [
      { head: 'Run', widthPt: 70 },
      { head: 'Use', widthPt: 70 },
      { head: 'Conductor or cable', share: 1 },
      { head: 'Pieces', widthPt: 40, align: 'right' },
      { head: 'Cut each', widthPt: 54, align: 'right' },
      { head: 'Legs', widthPt: 40 },
    ],
    rows: runs.flatMap((run) =>
      run.wire.map(({ use, metal, size, insulation, count, cutLengthFt, legs }) => ({
        cells: [
          run.name,
          use,
          `${insulation.toUpperCase()} ${conductorSize(size)}, ${metal}`,
          number(count),
          feet(cutLengthFt),
          legNumbers(legs),
        ],
      })),
    ),
  };
}

/** Steps in their order with the days of work and of waiting. */
export function scheduleTable({ schedule }: EstimateOption): TableData {
  const steps = schedule.map(({ step, workDays, waitDays, because }) => ({
    cells: [capital(step), daysOf(workDays), daysOf(waitDays), because.join('; ')],
  }));
  return {
    columns: [
      { head: 'Step', widthPt: 130 },
      { head: 'Work', widthPt: 46, align: 'right' },
      { head: 'Wait', widthPt: 46, align: 'right' },
      { head: 'Why', share: 1 },
    ],
    rows: steps,
  };
}

function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1).replaceAll('-', ' ')}`;
}

function daysOf(days: number): string {
  return days === 0 ? '' : counted(days, 'day');
}
