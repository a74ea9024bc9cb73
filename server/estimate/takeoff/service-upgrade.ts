import { electrodeConductorSize } from '../../electrical/grounding-electrode.ts';
import { DWELLING_310_12 } from '../../electrical/tables/dwelling-310-12.ts';
import type { PlannedOption } from '../plan-types.ts';
import type { ConductorSize } from '../vocabulary.ts';
import { counted, type Demands, joined, materials, named, shown, withWaste, work } from './demand.ts';
import { panelFactors } from './factors.ts';

type ServiceWork = NonNullable<PlannedOption['serviceWork']>;

const SCOPE = 'service-upgrade';
const ONE_PANEL_A = 200;
/** Rods at a service, feet apart and feet from the panel to the first, and feet to the water pipe. The first two: NEC 250.53(A); else common practice, no source. */
const RODS = 2;
const BETWEEN_RODS_FT = 6;
const TO_RODS_FT = 15;
const TO_PIPE_FT = 25;

/** A larger or a new service: equipment, entrance, electrodes, surge protection, disconnect, the utility's charge, the hours. */
export function serviceUpgradeDemands(plan: PlannedOption): Demands {
  const { serviceWork } = plan;
  if (!serviceWork) return joined([]);
  return joined([
    ...serviceWork.panels.map((panel) => mainPanel(serviceWork, panel)),
    groundBars(serviceWork),
    movedCircuits(serviceWork),
    meterAndDisconnect(serviceWork),
    entrance(serviceWork),
    electrodes(serviceWork, plan.description.terms.makeup.wastePercent.conductor),
    surge(),
    relocation(serviceWork, plan.description.terms.makeup),
    utilityCharge(serviceWork),
    hours(plan, serviceWork),
  ]);
}

/** Is the service of this work larger than one panel carries? */
const isLarge = ({ toA }: ServiceWork) => toA > ONE_PANEL_A;

function mainPanel({ toA }: ServiceWork, panel: ServiceWork['panels'][number]): Demands {
  const { ratingA, spaces, enclosure, mainBreaker } = panel;
  const words = `main panel ${ratingA} A, ${spaces} spaces, for a service of ${toA} A`;
  return materials({
    spec: { is: 'panel', ratingA, spaces, enclosure, mainBreaker },
    description: words,
    scope: SCOPE,
    quantity: 1,
    because: words,
  });
}

/** With the disconnect outside, neutral and grounds part in the panel: grounds get a bar of their own. NEC 250.24(A)(5), 408.40. */
function groundBars({ panels }: ServiceWork): Demands {
  return named({
    name: 'ground-bar-kit',
    description: 'equipment ground bar kit',
    scope: SCOPE,
    quantity: panels.length,
    because: 'the disconnect is outside: in the panel grounds land on a bar of their own, apart from the neutral',
  });
}

/** The circuits of the old panel get breakers that the new one is listed for. */
function movedCircuits({ panels }: ServiceWork): Demands {
  return named({
    name: 'service-breakers',
    description: 'breakers for the circuits that move to a new panel',
    scope: SCOPE,
    unit: 'job',
    quantity: panels.length > 0 ? 1 : 0,
    because: 'a new panel takes only breakers that it is listed for; how many circuits there are is not known',
  });
}

/** With a new meter the disconnect outside comes along; where the meter stays it is a switch of its own. NEC 230.85. */
function meterAndDisconnect(service: ServiceWork): Demands {
  const label = named({
    name: 'service-label',
    description: 'marking of the emergency disconnect',
    scope: SCOPE,
    quantity: 1,
    because: 'EMERGENCY DISCONNECT, and what else it is',
  });
  if (service.replacesMeter) {
    const name = isLarge(service) ? 'panel-320a-meter-main' : 'panel-200a-meter-main';
    const because = `meter and disconnect outside in one, for ${service.toA} A`;
    return joined([named({ name, description: 'meter-main combination', scope: SCOPE, quantity: 1, because }), label]);
  }
  const because = 'the meter stays: the disconnect outside is a switch of its own';
  const name = isLarge(service) ? 'disc-400-switch' : 'disc-200-switch';
  return joined([
    named({ name, description: 'emergency disconnect', scope: SCOPE, quantity: 1, because }),
    work({ task: 'disconnect', scope: SCOPE, quantity: 1, because }),
    label,
  ]);
}

/** Mast or pipe, service conductors and fittings; a replacement at the same rating keeps them. */
function entrance(service: ServiceWork): Demands {
  const { kind, supply, toA } = service;
  const way = supply === 'overhead' ? 'oh' : 'ug';
  return named({
    name: isLarge(service) ? 'service-entrance-400' : `service-entrance-${way}-200`,
    description: `service entrance, ${supply}: conductors, raceway and fittings`,
    scope: SCOPE,
    unit: 'job',
    quantity: kind === 'upgrade' ? 1 : 0,
    because: `${supply}, for ${toA} A`,
  });
}

/** Aluminum conductors of a dwelling's service. NEC Table 310.12(A); beyond what is listed, the largest. */
function serviceSize(toA: number): ConductorSize {
  const row = DWELLING_310_12.rows.find(([ratingA]) => ratingA >= toA) ?? DWELLING_310_12.rows.at(-1);
  return row?.[2] ?? '600';
}

/** NEC 250.53(A), 250.66: rods, and the conductor to metal water pipe by the size of the service's conductors. */
function electrodes({ toA }: ServiceWork, wastePercent: number): Demands {
  const conductorSize = serviceSize(toA);
  const service = { conductorSize, conductorMetal: 'aluminum', metal: 'copper' } as const;
  const toRods = electrodeConductorSize({ ...service, electrode: 'rod' });
  const toPipe = electrodeConductorSize({ ...service, electrode: 'water-pipe' });
  const rodsFt = TO_RODS_FT + BETWEEN_RODS_FT * (RODS - 1);
  const scope = 'grounding';
  const because = `a service of ${toA} A on ${conductorSize} aluminum`;
  return joined([
    named({ name: 'ground-rod-8', description: 'ground rod 5/8 in × 8 ft', scope, quantity: RODS, because }),
    named({ name: 'acorn-clamp', description: 'electrode clamp', scope, quantity: RODS, because }),
    named({ name: 'water-pipe-clamp', description: 'water pipe clamp', scope, quantity: 1, because }),
    named({ name: 'intersystem-bond', description: 'intersystem bonding terminal', scope, quantity: 1, because }),
    bare({ size: toRods, ft: rodsFt, wastePercent, to: 'rods', because }),
    bare({ size: toPipe, ft: TO_PIPE_FT, wastePercent, to: 'water pipe', because }),
  ]);
}

interface BareConductor {
  size: ConductorSize;
  ft: number;
  wastePercent: number;
  to: string;
  because: string;
}

function bare({ size, ft, wastePercent, to, because }: BareConductor): Demands {
  const words = `${shown(ft)} ft to the ${to}, ${shown(wastePercent)} % waste`;
  return {
    materials: [
      {
        spec: { is: 'conductor', insulation: 'bare', metal: 'copper', size },
        description: `bare copper ${size}, electrode conductor`,
        class: 'material',
        scope: 'grounding',
        unit: 'ft',
        pieces: [withWaste(ft, wastePercent)],
        legs: [],
        because: [words, because],
      },
    ],
    tasks: [],
  };
}

function surge(): Demands {
  const because = 'a dwelling’s service that is replaced gets surge protection';
  return joined([
    named({ name: 'surge-type2', description: 'surge protective device', scope: SCOPE, quantity: 1, because }),
    work({ task: 'surge-mount', scope: SCOPE, quantity: 1, because }),
  ]);
}

/** A panel that moves: a feeder to its new place, and the old circuits lengthened to it. NEC Table 310.12(A) for the feeder. */
function relocation(
  { panels, toA, relocateFt }: ServiceWork,
  makeup: PlannedOption['description']['terms']['makeup'],
): Demands {
  if (relocateFt <= 0) return joined([]);
  const size = serviceSize(Math.min(toA, ONE_PANEL_A));
  const feeders = Math.max(1, panels.length);
  const ft = withWaste(relocateFt + 2 * makeup.panelFt, makeup.wastePercent.cable);
  const because = `the panel moves by ${shown(relocateFt)} ft`;
  const feeder: Demands = {
    materials: [
      {
        spec: { is: 'cable', form: 'ser', metal: 'aluminum', size, conductors: 3 },
        description: `SER ${size} aluminum to the panel’s new place`,
        class: 'material',
        scope: SCOPE,
        unit: 'ft',
        pieces: Array.from({ length: feeders }, () => ft),
        legs: [],
        because: [
          because,
          `${counted(feeders, 'feeder')} of ${shown(relocateFt)} ft + 2 × ${shown(makeup.panelFt)} ft makeup`,
        ],
      },
    ],
    tasks: [],
  };
  return joined([
    feeder,
    named({
      name: 'service-relocate-wire',
      description: 'cables, boxes and joints that lengthen the old circuits',
      scope: SCOPE,
      unit: 'ft',
      quantity: relocateFt,
      because,
    }),
    work({ task: 'service-relocate', scope: SCOPE, unit: 'ft', quantity: relocateFt, because }),
  ]);
}

function utilityCharge({ kind, supply }: ServiceWork): Demands {
  const name = kind === 'panel-swap' ? 'utility-disconnect' : `utility-service-${supply}`;
  const description =
    kind === 'panel-swap' ? 'utility: disconnect and reconnect' : `utility: customer's share, ${supply}`;
  const because = 'the utility takes the service off and puts it on again, and charges what it will: ask it';
  return named({ name, description, class: 'fee', scope: SCOPE, quantity: 1, because });
}

function hours(plan: PlannedOption, service: ServiceWork): Demands {
  const task =
    service.kind === 'panel-swap'
      ? 'panel-swap-like'
      : isLarge(service)
        ? 'service-400'
        : `service-upgrade-${service.supply === 'overhead' ? 'oh' : 'ug'}-200`;
  const stays = service.panels.length === 0 ? '; the panel that stays is rewired to the new disconnect' : '';
  const because = `a service of ${service.toA} A, ${service.supply}${stays}`;
  return work({ task, scope: SCOPE, quantity: 1, factors: panelFactors(plan), because });
}
