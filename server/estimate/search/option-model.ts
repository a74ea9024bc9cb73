/*
 * A whole option as the search sees it: its runs, its ditches, and what it takes whatever is chosen.
 */
import { statedPermit } from '../lines.ts';
import { conductorsIn } from '../plan/conduit.ts';
import { digDitches } from '../plan/ditches.ts';
import { emptyRacewaysOf } from '../plan/empty-raceways.ts';
import type { Job } from '../plan/job.ts';
import type { OpenedOption } from '../plan/plan.ts';
import { groundingOf } from '../plan/separate-building.ts';
import { serviceWorkOf } from '../plan/service-upgrade.ts';
import type { Ditch, PlannedOption, PlannedRun } from '../plan-types.ts';
import { dividingBoxes } from '../takeoff/boxes.ts';
import { cableUse, usedUp } from '../takeoff/consumables.ts';
import { type Demands, joined } from '../takeoff/demand.ts';
import { feeDemands } from '../takeoff/fees.ts';
import { withoutConductors } from '../takeoff/rough-in.ts';
import { statedFieldDemands } from '../takeoff/stated-fields.ts';
import { ends, groundWork, roughEnds, takeoffOf, wholeJob } from '../takeoff/takeoff.ts';
import { drillDays } from '../takeoff/walls.ts';
import { type Stretch, waysOf } from '../takeoff/way.ts';
import { type Choice, fitsThere, type Sized, spaceOf } from './choices.ts';
import { once, type Parts, partsFor } from './parts.ts';
import { type Cost, costOf, type Prices, pricesOf } from './prices.ts';
import { type RunModel, runModel, runStub, settledPath, tallyRun, withTail } from './run-tally.ts';
import { add, emptyTally, type Part, partOf, type Tally } from './tally.ts';
import { type Workshop, workshopFor } from './workshop.ts';

/** How one run is laid: a metal and size, and a choice for each piece. */
export interface RunChoice {
  sized: Sized;
  path: readonly Choice[];
}

/** An option, ready to be searched. */
export interface OptionModel {
  job: Job;
  /** Those that follow the route, then those from the subpanel. */
  runs: RunModel[];
  arriving: number;
  /** The ditches with nothing in them but empty raceways: none is shallower. */
  ditches: Ditch[];
  plan: PlannedOption;
  workshop: Workshop;
  parts: Parts;
  prices: Prices;
  /** What every plan takes, but for a permit's fee where it is stated: that one is with the extras. */
  always: Part;
}

/** Makes the model of an option that was opened and has circuits. */
export function modelOf(
  opened: Required<OpenedOption>,
  { opensFinishes = false }: { opensFinishes?: boolean } = {},
): OptionModel {
  const { job, circuits } = opened;
  const { description, option, route, book } = job;
  const workshop = workshopFor(book, description);
  const { ids, kinds } = workshop;
  const spaces = [...circuits.arriving, ...circuits.branches].map(({ circuit }) =>
    spaceOf(job, circuit, { ids, opensFinishes }),
  );
  const emptyRaceways = emptyRacewaysOf(job).raceways;
  const { ditches } = digDitches(
    job,
    emptyRaceways.map(({ run }) => run),
  );
  const empty: PlannedOption = {
    ...{ description, option, route, runs: [], ditches: [], outlets: circuits.outlets, dropPercent: 0, findings: [] },
    ...(circuits.panel && { panel: circuits.panel }),
    ...serviceWorkOf(job),
    ...(emptyRaceways.length > 0 && { emptyRaceways }),
  };
  const runs = spaces.map((space) =>
    runModel(
      space,
      empty,
      ditches.map(({ legs }) => legs),
    ),
  );
  const grounding = groundingOf(job, runs[0]?.bare).grounding;
  const plan = { ...empty, runs: runs.map(({ bare }) => bare), ...(grounding && { grounding }) };
  const demands = joined([feeDemands(plan), wholeJob(plan)]);
  const { permit, others } = statedPermit(demands.materials, plan);
  const prices = pricesOf(workshop, book, description);
  prices.extras.cents += permit.reduce((sum, line) => sum + line.amountCents, 0);
  return {
    ...{ job, runs, ditches, plan, prices },
    arriving: circuits.arriving.length,
    workshop,
    parts: partsFor(plan, workshop),
    always: partOf(kinds, { ...demands, materials: [...others] }),
  };
}

/** Ditches as deep as what lies in them asks. */
export function ditchesFor(model: OptionModel, paths: readonly (readonly Choice[])[]): Ditch[] {
  return model.ditches.map((ditch, at) => {
    let { coverIn } = ditch;
    let thickIn = ditch.depthIn - coverIn;
    paths.forEach((path, run) => {
      path.forEach((choice, piece) => {
        if (model.runs[run]?.ditchOf[piece] !== at) return;
        coverIn = Math.max(coverIn, choice.coverIn);
        thickIn = Math.max(thickIn, choice.thickIn);
      });
    });
    return { legs: ditch.legs, coverIn, depthIn: coverIn + thickIn };
  });
}

/** What fields of the site and the option ask for beside the runs: how deep the ditches are is all that matters to it. */
export function besideRuns({ plan, runs, parts: { others, kinds } }: OptionModel, ditches: readonly Ditch[]): Part {
  const text = `beside ${ditches.map(({ coverIn }) => coverIn).join('/')}`;
  return once(others, text, () => {
    const dug = { ...plan, ditches: [...ditches], runs: runs.map(({ bare, space }) => withTail(bare, space)) };
    return partOf(kinds, statedFieldDemands(dug, waysOf(dug)));
  });
}

/** Do the conductors of all runs fit together into the raceways that are there? */
function fitTogether({ job, runs, arriving }: OptionModel, paths: readonly (readonly Choice[])[]): boolean {
  if (arriving <= 1) return true;
  return job.route.every((placed) => {
    const through = paths.flatMap((path, at) => {
      const circuit = runs[at]?.space.circuit;
      const choice = path.find(({ stretch }) => stretch.leg === placed.leg);
      return circuit && choice ? conductorsIn(choice.section, circuit) : [];
    });
    return fitsThere(placed, through);
  });
}

/** What of the ends of all runs depends on what is chosen: the last choice of each, and the size. */
export function endsText(runs: readonly PlannedRun[], paths: readonly (readonly Choice[])[]): string {
  return runs
    .map(({ conductor: { metal, size } }, at) => {
      return `${metal} ${size} ${paths[at]?.at(-1)?.id}`;
    })
    .join(' / ');
}

/** What the runs begin and end at, with their electrodes. */
export function endDemands(
  model: OptionModel,
  runs: readonly PlannedRun[],
  paths: readonly (readonly Choice[])[],
): Demands {
  const ended = runs.map((run, at): PlannedRun => {
    const last = paths[at]?.at(-1);
    const { circuit } = model.runs[at]?.space ?? {};
    const conduit = last?.conduit ? { conduit: last.conduit } : {};
    const sections = last ? [last.section] : [];
    const how = { method: last?.method ?? 'pvc', insulation: last?.section.insulation ?? 'thwn-2', because: [] };
    if (circuit?.tail) return { ...run, sections, tail: { ...circuit.tail, ...how, ...conduit } };
    return {
      ...run,
      sections,
      legs: run.legs.map((leg, index) => (index < run.legs.length - 1 ? leg : { ...leg, ...conduit })),
    };
  });
  const { grounding } = groundingOf(model.job, runs[0]);
  const plan: PlannedOption = { ...model.plan, runs: ended, ...(grounding && { grounding }) };
  const ways = ended.map((run, at) => {
    const last = paths[at]?.at(-1)?.stretch;
    const stretches: Stretch[] = last && !model.runs[at]?.nowhere ? [last] : [];
    return { run, stretches, joints: [], spans: [], divisions: model.runs[at]?.divisions ?? 0 };
  });
  const dividing = joined(ways.map((way) => dividingBoxes({ plan, way })));
  if (plan.option.roughInOnly) return joined([roughEnds(plan, ways), withoutConductors(dividing)]);
  return joined([ends(plan, ways), dividing]);
}

/** What a plan costs, and how it ranks among equals. */
export interface PlanCost extends Cost {
  costCents: number;
  /** Working days of the crew; none where the owner does all of it. */
  days: number;
  splices: number;
}

/** What an option costs that is laid so: as its lines would, to the cent. Nothing where part of it is not sold. */
export function costOfChoice(model: OptionModel, chosen: readonly RunChoice[]): PlanCost | undefined {
  const paths: Choice[][] = [];
  for (const [at, { path }] of chosen.entries()) {
    const run = model.runs[at];
    const settled = run && settledPath(run, path);
    if (!settled) return undefined;
    paths.push(settled);
  }
  if (!fitTogether(model, paths)) return undefined;
  const tally = emptyTally();
  const { splices, aluminumEnds, walls, runs, ditches, cables } = tallyRuns(model, { chosen, paths, tally });
  add(tally, besideRuns(model, ditches));
  const { kinds, others } = model.parts;
  const addOnce = (text: string, ask: () => Demands) =>
    add(
      tally,
      once(others, text, () => partOf(kinds, ask())),
    );
  addOnce(`ground ${ditches.map(({ depthIn }) => depthIn).join('/')}`, () => groundWork({ ...model.plan, ditches }));
  addOnce(`ends ${endsText(runs, paths)}`, () => endDemands(model, runs, paths));
  const cored = walls.filter(Boolean).length;
  addOnce(`drills ${cored} ${walls.length}`, () => drillDays(walls.map((one) => ({ legs: [], cored: one }))));
  const { glued, pulledFt, hasSingles, hasJoints } = tally;
  const uses = { glued, pulledFt, hasSingles, hasJoints, gluedLegs: [], pulledLegs: [] };
  const { hasWhiteHot, hasUnused } = cables;
  addOnce(`used ${glued} ${pulledFt} ${hasSingles} ${hasJoints} ${aluminumEnds} ${hasWhiteHot} ${hasUnused}`, () =>
    usedUp(uses, { aluminumEnds, isBuilt: chosen.length > 0, ...cables }),
  );
  add(tally, model.always);
  return { ...costOf(model.prices, model.plan, tally), splices };
}

/** What a plan costs that somebody else made of the option: as its lines would. */
export function costOfPlan({ prices, plan: own, parts: { kinds } }: OptionModel, plan: PlannedOption): Cost {
  const { materials, tasks } = takeoffOf(plan);
  const tally = emptyTally();
  add(tally, partOf(kinds, { materials: [...statedPermit(materials, plan).others], tasks }));
  return costOf(prices, own, tally);
}

function tallyRuns(
  model: OptionModel,
  { chosen, paths, tally }: { chosen: readonly RunChoice[]; paths: readonly Choice[][]; tally: Tally },
) {
  const ditches = ditchesFor(model, paths);
  const coversIn = ditches.map(({ coverIn }) => coverIn);
  const walls: boolean[] = [];
  const runs: PlannedRun[] = [];
  let splices = 0;
  let aluminumEnds = 0;
  const cables = { hasWhiteHot: false, hasUnused: false };
  model.runs.forEach((run, at) => {
    const { sized } = chosen[at] ?? {};
    const path = paths[at];
    if (!sized || !path) return;
    const stub = runStub(run, sized);
    const laid = tallyRun({ parts: model.parts, model: run, run: stub, path, coversIn }, tally);
    runs.push(stub);
    walls.push(...laid.walls);
    splices += laid.splices;
    for (const { section } of model.plan.option.roughInOnly ? [] : path) {
      const use = cableUse(stub, section);
      cables.hasWhiteHot ||= use.hasWhiteHot;
      cables.hasUnused ||= use.hasUnused;
    }
    aluminumEnds += laid.aluminumEnds;
  });
  return { splices, aluminumEnds, walls, runs, ditches, cables };
}
