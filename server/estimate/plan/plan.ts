import type { Finding } from '../answer.ts';
import type { Description, DescriptionOption } from '../description.ts';
import type { PlannedOption, PlannedRun } from '../plan-types.ts';
import type { Book } from '../price-book.ts';
import type { ConductorSize } from '../vocabulary.ts';
import { chargerChecks, runChecks } from './checks.ts';
import { fillExistingRaceways } from './conduit.ts';
import { digDitches } from './ditches.ts';
import { emptyRacewaysOf } from './empty-raceways.ts';
import { receptacleFindings, receptacleOutlets } from './existing-receptacle.ts';
import { branchWays, lastWays, layingOf, type Way, waysOf } from './families.ts';
import { type Job, routeTerminalsC, type SettledOption } from './job.ts';
import { dropAt, isUnsized, type LaidCircuit, layCircuit, runAt } from './lay.ts';
import { overrideFindings } from './methods.ts';
import { circuitsOf, type OptionCircuits } from './option-circuits.ts';
import { placedRoute, routeFindings } from './place.ts';
import { endsAtSeparate, groundingOf } from './separate-building.ts';
import { serviceWorkOf } from './service-upgrade.ts';
import { settle } from './settle.ts';
import { chooseSizes, dropFindings, pathDropPercent, type SizedCircuit } from './sizing.ts';
import { statedFieldFindings } from './stated-fields.ts';
import type { Laying } from './wiring.ts';

/** An option before anything is chosen: its circuits, and what was found out about all of it. */
export interface OpenedOption {
  job: Job;
  /** Nothing where what is there is used. */
  circuits?: OptionCircuits;
  findings: Finding[];
}

/** Settles an option: amperes, route, circuits, and what holds however they are laid. */
export function openOption(description: Description, option: DescriptionOption, book: Book): OpenedOption {
  const settled = settle(description, option);
  const job = jobOf(description, settled.option, book);
  const common = [...settled.findings, ...routeFindings(job), ...statedFieldFindings(job), ...chargerChecks(job)];
  if (option.feed === 'existing-receptacle') return { job, findings: common };
  const circuits = circuitsOf(job);
  return { job, circuits, findings: [...common, ...overrideFindings(job), ...circuits.findings] };
}

/**
 * The plans that a crew would think of first, by families of wiring methods, metals and the smallest sizes that keep the
 * drop. The search for the least cost does not need them; where nothing may be built they are the plans with the fewest
 * stops, so that lines and totals still show what it would take. Without a cent: pricing chooses among them.
 * @returns at least one plan; every illegal override, overfull raceway or overloaded part is a finding `stop` in it
 */
export function familiarPlans(opened: OpenedOption): PlannedOption[] {
  const { job, circuits, findings } = opened;
  if (!circuits) return [receptaclePlan(job, findings)];
  const plansBy = (ways: typeof waysOf) =>
    layOuts(job, circuits, ways).map((layOut) => planOf(job, circuits, sizedBy(job, layOut), findings));
  const usual = plansBy(waysOf);
  const plans = usual.some((plan) => stops(plan) === 0) ? usual : [...usual, ...plansBy(lastWays)];
  return keepingDrop(buildable(plans));
}

/** The familiar plans of an option that nobody has opened yet. */
export function planCandidates(description: Description, option: DescriptionOption, book: Book): PlannedOption[] {
  return familiarPlans(openOption(description, option, book));
}

/** How one circuit is laid, and the size that it gets. */
export interface ChosenCircuit {
  laying: Laying;
  size: ConductorSize;
}

/** The plan of an option whose circuits are laid as chosen: those that follow the route first, then the branches. */
export function planBy({ job, circuits, findings }: OpenedOption, chosen: readonly ChosenCircuit[]): PlannedOption {
  if (!circuits) return receptaclePlan(job, findings);
  const decided = [...circuits.arriving, ...circuits.branches];
  const sized = decided.flatMap(({ circuit }, at) => {
    const choice = chosen[at];
    if (!choice) return [];
    const laid = layCircuit(job, circuit, choice.laying);
    return { laid, size: choice.size, dropPercent: dropAt(job, laid, choice.size).percent };
  });
  const count = circuits.arriving.length;
  return planOf(job, circuits, { arriving: sized.slice(0, count), branches: sized.slice(count) }, findings);
}

/** The plans without a stop, or else those with the fewest. */
function buildable(plans: readonly PlannedOption[]): PlannedOption[] {
  const fewest = Math.min(...plans.map(stops));
  return plans.filter((plan) => stops(plan) === fewest);
}

/** The limit of the voltage drop binds while some plan keeps it; else the least drop is planned. */
function keepingDrop(plans: readonly PlannedOption[]): PlannedOption[] {
  const keeping = plans.filter(({ option, dropPercent }) => dropPercent <= option.maxDropPercent);
  if (keeping.length > 0) return keeping;
  const least = Math.min(...plans.map(({ dropPercent }) => dropPercent));
  return plans.filter(({ dropPercent }) => dropPercent === least);
}

function jobOf(description: Description, option: SettledOption, book: Book): Job {
  const { site } = description;
  return {
    description,
    option,
    route: placedRoute(description, option),
    book,
    edition: site.code.edition,
    start: site.start ? 'existing subpanel' : 'main panel',
    terminalsC: routeTerminalsC(description),
    separate: endsAtSeparate(site.building, option),
    verdicts: new Map(),
  };
}

function stops({ findings }: PlannedOption): number {
  return findings.filter(({ severity }) => severity === 'stop').length;
}

/** Nothing is run: what is there is looked at. */
function receptaclePlan(job: Job, common: readonly Finding[]): PlannedOption {
  return {
    description: job.description,
    option: job.option,
    route: job.route,
    runs: [],
    ditches: [],
    outlets: receptacleOutlets(job),
    ...serviceWorkOf(job),
    dropPercent: 0,
    findings: [...common, ...emptyRacewaysOf(job).findings, ...receptacleFindings(job)],
  };
}

/** All circuits of an option, each with a way to lay it. */
interface LayOut {
  arriving: LaidCircuit[];
  branches: LaidCircuit[];
}

/** The ways to lay the circuits that follow the route, each with the ways to lay those from the subpanel. */
function layOuts(job: Job, { arriving, branches }: OptionCircuits, ways: typeof waysOf): LayOut[] {
  const [first] = arriving;
  if (!first) return [];
  const styles = branches.length > 0 ? branchWays(job) : [];
  const laidBranches = styles.map((style) => branches.map(({ circuit }) => layBranch(job, circuit, style)));
  return ways(job, first.circuit).flatMap((way) => {
    const laid = arriving.map(({ circuit }) => layCircuit(job, circuit, layingOf(job, circuit, way)));
    return (laidBranches.length > 0 ? laidBranches : [[]]).map((inStyle) => ({ arriving: laid, branches: inStyle }));
  });
}

/** A circuit from the subpanel in the style of the others, or in another one where that is not sold. */
function layBranch(job: Job, circuit: LaidCircuit['circuit'], style: Way): LaidCircuit {
  const wanted = layCircuit(job, circuit, layingOf(job, circuit, style));
  if (!wanted.problem) return wanted;
  const others = branchWays(job).map((way) => layCircuit(job, circuit, layingOf(job, circuit, way)));
  return others.find(({ problem }) => !problem) ?? wanted;
}

/** The runs at their sizes, pulled through the raceways that are there; what is wrong with those stands with the first. */
function builtRuns(job: Job, sized: readonly SizedCircuit[]): { run: PlannedRun; findings: Finding[] }[] {
  const built = sized.map(({ laid, size }) => runAt(job, laid, size));
  const pulled = fillExistingRaceways(
    job,
    built.map(({ run }) => run),
  );
  return built.map(({ run, findings }, at) => ({
    run: pulled.runs[at] ?? run,
    findings: at === 0 ? [...findings, ...pulled.findings] : findings,
  }));
}

/** All circuits of an option with their sizes. */
interface SizedLayOut {
  arriving: SizedCircuit[];
  branches: SizedCircuit[];
}

function sizedBy(job: Job, { arriving, branches }: LayOut): SizedLayOut {
  const paths = arriving.map((laid) => chooseSizes(job, { arriving: laid, branches }));
  return { arriving: paths.map((path) => path.arriving), branches: paths[0]?.branches ?? [] };
}

/** Makes runs, ditches, electrodes and findings of circuits that are laid and sized. */
function planOf(
  job: Job,
  circuits: OptionCircuits,
  { arriving, branches }: SizedLayOut,
  common: readonly Finding[],
): PlannedOption {
  const sized = [...arriving, ...branches];
  const built = builtRuns(job, sized);
  const dug = digWith(
    job,
    built.map(({ run }) => run),
  );
  const dropPercent = Math.max(...arriving.map((path) => pathDropPercent(path, branches)));
  const ground = groundingOf(job, dug.runs[0]);
  const decided = [...circuits.arriving, ...circuits.branches].flatMap(({ findings }) => findings);
  return {
    description: job.description,
    option: job.option,
    route: job.route,
    runs: dug.runs,
    ditches: dug.ditches,
    outlets: circuits.outlets,
    ...(circuits.panel && { panel: circuits.panel }),
    ...serviceWorkOf(job),
    ...(dug.emptyRaceways.length > 0 && { emptyRaceways: dug.emptyRaceways }),
    ...(ground.grounding && { grounding: ground.grounding }),
    dropPercent: Math.round(dropPercent * 10_000) / 10_000,
    findings: [
      ...common,
      ...decided,
      ...built.flatMap(({ findings }) => findings),
      ...checksOf(job, dug.runs, sized, dropPercent),
      ...dug.findings,
      ...ground.findings,
    ],
  };
}

/** The ditches of the runs and of the empty raceways that lie in them. */
function digWith(job: Job, runs: readonly PlannedRun[]) {
  const empty = emptyRacewaysOf(job);
  const dug = digDitches(job, [...runs, ...empty.raceways.map(({ run }) => run)]);
  const emptyRaceways = empty.raceways.flatMap((raceway, at) => {
    const run = dug.runs[runs.length + at];
    return run ? [{ ...raceway, run }] : [];
  });
  const findings = [...dug.findings, ...empty.findings];
  return { ditches: dug.ditches, runs: dug.runs.slice(0, runs.length), emptyRaceways, findings };
}

function checksOf(
  job: Job,
  runs: readonly PlannedRun[],
  sized: readonly SizedCircuit[],
  dropPercent: number,
): Finding[] {
  const checked = runs.flatMap((run, at) => {
    const unsized = sized[at] && isUnsized(sized[at].laid);
    return runChecks(job, run).filter(({ severity }) => !unsized || severity !== 'ok');
  });
  const anyUnsized = sized.some(({ laid }) => isUnsized(laid));
  return anyUnsized ? checked : [...checked, ...dropFindings(job, sized, dropPercent)];
}
