import type { EmptyRaceway, PlannedOption } from '../plan-types.ts';
import { boxDemands } from './boxes.ts';
import { type Demands, joined } from './demand.ts';
import { racewayDemands } from './raceway.ts';
import { riserDemands } from './risers.ts';
import { cappedEnds, withoutConductors } from './rough-in.ts';
import { wallDemands } from './walls.ts';
import { wayOf } from './way.ts';

/** Raceways that stay empty: laid beside the others, through the same walls and in the same ditch, capped at both ends. */
export function emptyRacewayDemands(plan: PlannedOption): Demands {
  return joined((plan.emptyRaceways ?? []).map((raceway) => emptyRaceway(withItsEnd(plan, raceway), raceway)));
}

/** The plan with the end of the empty raceway as its outlet, so that walls and boxes there are judged by where it is. */
export function withItsEnd(plan: PlannedOption, { run, outdoors }: EmptyRaceway): PlannedOption {
  return { ...plan, outlets: [{ run: run.name, connection: 'hardwired', outdoors }] };
}

function emptyRaceway(plan: PlannedOption, { run }: EmptyRaceway): Demands {
  const way = wayOf(plan, run);
  const built = joined([
    racewayDemands({ plan, way }),
    riserDemands(way, plan.description.terms.makeup.wastePercent.conduit),
    wallDemands({ plan, way }),
    boxDemands({ plan, way }),
  ]);
  return joined([withoutConductors(built), cappedEnds(plan, way)]);
}
