import type { MaterialDemand, PlannedOption } from '../plan-types.ts';
import type { Spec } from '../price-book.ts';
import type { ConductorSize } from '../vocabulary.ts';
import { counted, type Demands, joined, materials, named, withWaste, work } from './demand.ts';
import { panelFactors } from './factors.ts';

const SCOPE = 'panel';
/** Feeder of the subpanel beside: 60 A on 6 AWG copper, 65 A at 75 °C (NEC Table 310.16), with a 10 AWG ground (250.122). */
const FEEDER_A = 60;
const FEEDER_SIZE = '6';
const GROUND_SIZE = '10';
/** Its breaker takes two spaces of the panel that is full. */
const FEEDER_SPACES = 2;
/** From enclosure to enclosure, in feet. Common practice, no source. */
const NIPPLE_FT = 2;
/** Spaces of the subpanels that are sold for it, the smaller first. */
const SPACES = [6, 12] as const;
const LARGEST_SPACES = 20;

/**
 * A small subpanel beside a panel that is full: it takes over as many single-pole circuits as make room for the new
 * breakers and for its own. Common practice, no source; the circuits are taken to be of 20 A and to reach.
 * @param short  spaces that are lacking, more than 0
 */
export function houseSubpanelDemands(plan: PlannedOption, short: number): Demands {
  const moved = short + FEEDER_SPACES;
  const spaces = SPACES.find((one) => one >= moved);
  const because = `${counted(short, 'space')} lacking, and ${FEEDER_SPACES} for the subpanel's own breaker: ${counted(moved, 'circuit')} move to it`;
  const panel: Spec = spaces
    ? { is: 'panel', ratingA: 100, spaces, enclosure: 'indoor', mainBreaker: false }
    : { is: 'panel', ratingA: 200, spaces: LARGEST_SPACES, enclosure: 'indoor', mainBreaker: false };
  const factors = panelFactors(plan);
  const part = (spec: Spec, description: string, quantity = 1) =>
    materials({ spec, description, scope: SCOPE, quantity, because });
  const task = (name: string, quantity: number, unit = 'each') =>
    work({ task: name, scope: SCOPE, unit, quantity, factors, because });
  return joined([
    part(panel, 'subpanel beside the panel that is full'),
    part({ is: 'breaker', ratingA: FEEDER_A, poles: 2, gfci: false }, `breaker ${FEEDER_A} A, for the subpanel beside`),
    part({ is: 'breaker', ratingA: 20, poles: 1, gfci: false }, 'breaker 20 A, for a circuit that moves', moved),
    part({ is: 'fitting', type: 'emt', tradeSize: '1', piece: 'connector' }, 'EMT connector 1 in', 2),
    named({ name: 'ground-bar-kit', description: 'equipment ground bar kit', scope: SCOPE, quantity: 1, because }),
    nipple(plan, because),
    task('subpanel-mount-60', 1),
    task('breaker-2p-small', 1),
    task('breaker-1p', moved),
    task('panel-rearrange', moved, 'each circuit'),
  ]);
}

/** The short raceway between the two, and what goes through it: two hots, a neutral and a ground. */
function nipple({ description }: PlannedOption, because: string): Demands {
  const { panelFt, wastePercent } = description.terms.makeup;
  const cutFt = withWaste(NIPPLE_FT + 2 * panelFt, wastePercent.conductor);
  const cut = (size: ConductorSize, count: number): MaterialDemand => ({
    spec: { is: 'conductor', insulation: 'thwn-2', metal: 'copper', size },
    description: `THWN-2 ${size} copper, to the subpanel beside`,
    class: 'material',
    scope: SCOPE,
    unit: 'ft',
    pieces: Array.from({ length: count }, () => cutFt),
    legs: [],
    because: [because],
  });
  const raceway: MaterialDemand = {
    spec: { is: 'raceway', type: 'emt', tradeSize: '1' },
    description: 'EMT 1 in, to the subpanel beside',
    class: 'material',
    scope: SCOPE,
    unit: 'ft',
    quantity: withWaste(NIPPLE_FT, wastePercent.conduit),
    legs: [],
    because: [because],
  };
  return { materials: [raceway, cut(FEEDER_SIZE, 3), cut(GROUND_SIZE, 1)], tasks: [] };
}
