import type { PlannedOption, PlannedRun } from '../plan-types.ts';
import { counted, type Demands, joined, materials, named, work } from './demand.ts';
import { isNewConstruction, panelFactors } from './factors.ts';
import { houseSubpanelDemands } from './house-subpanel.ts';
import type { Way } from './way.ts';

/** Up to this rating a two-pole breaker is quick to land. */
const SMALL_BREAKER_A = 60;

/** Breakers, the panels they sit in, and disconnects. */
export function panelDemands(plan: PlannedOption, ways: readonly Way[]): Demands {
  return joined([
    openedPanel(plan),
    roomInPanel(plan),
    ...plan.runs.map((run) => breaker(plan, run)),
    subpanel(plan),
    ...ways.map(({ run }) => disconnect(run)),
  ]);
}

/** Runs that begin at a panel that is there already. */
const fromExisting = ({ runs }: PlannedOption) => runs.filter(({ from }) => from !== 'subpanel');

/** Is the main panel that the runs begin at a new one? Its cover is off while it is put in, and it has room to work. */
function startsAtNewPanel({ description, serviceWork }: PlannedOption): boolean {
  return !description.site.start && (serviceWork?.panels.length ?? 0) > 0;
}

/**
 * The cover of the panel that is there comes off and goes on again: a raceway that is only roughed in lands there, too. A
 * new house has no cover on its panel yet while it is roughed in.
 */
export function openedPanel(plan: PlannedOption): Demands {
  const isOpen = startsAtNewPanel(plan) || (plan.option.roughInOnly && isNewConstruction(plan));
  const [first] = isOpen ? [] : fromExisting(plan);
  return work({
    task: 'panel-cover',
    scope: 'panel',
    unit: 'panel',
    quantity: first ? 1 : 0,
    factors: panelFactors(plan),
    because: `the ${first?.from ?? 'panel'} is opened, entered and closed again`,
  });
}

/** Where too few spaces are free: two circuits share a space on a tandem breaker, which frees one each. */
function roomInPanel(plan: PlannedOption): Demands {
  const { site } = plan.description;
  const free = site.start ? site.start.freeSpaces : site.service.freeSpaces;
  if (free === null || startsAtNewPanel(plan)) return joined([]);
  const needed = fromExisting(plan).reduce((sum, { breaker: { spaces } }) => sum + spaces, 0);
  const short = Math.max(0, needed - free);
  if (short > 0 && plan.roomBy === 'house-subpanel') return houseSubpanelDemands(plan, short);
  const because = `${counted(needed, 'space')} needed, ${free} free: ${short} to be freed by tandem breakers, where the panel takes them`;
  return joined([
    named({
      name: 'tandem-breaker',
      description: 'tandem breaker',
      scope: 'panel',
      quantity: short,
      because,
    }),
    work({
      task: 'panel-rearrange',
      scope: 'panel',
      unit: 'each circuit',
      quantity: 2 * short,
      factors: panelFactors(plan),
      because,
    }),
  ]);
}

function breaker(plan: PlannedOption, run: PlannedRun): Demands {
  const { ocpdA, poles, kind, because } = run.breaker;
  const gfci = kind === 'gfci';
  const task = poles === 1 ? 'breaker-1p' : ocpdA <= SMALL_BREAKER_A ? 'breaker-2p-small' : 'breaker-2p-large';
  const factors = run.from === 'subpanel' || startsAtNewPanel(plan) ? [] : panelFactors(plan);
  const words = `${ocpdA} A, ${counted(poles, 'pole')}${gfci ? ', ground-fault protected' : ''}, for ${run.name}`;
  return joined([
    materials({
      spec: { is: 'breaker', ratingA: ocpdA, poles: poles === 1 ? 1 : 2, gfci },
      description: `breaker ${words}`,
      scope: 'breaker',
      quantity: 1,
      because: [words, ...because],
    }),
    work({ task, scope: 'breaker', quantity: 1, factors, because: words }),
    work({ task: 'breaker-gfci-add', scope: 'breaker', quantity: gfci ? 1 : 0, factors, because: words }),
  ]);
}

/** The task that mounts a subpanel of so many amperes and spaces. */
function mountTask(ratingA: number, spaces: number): string {
  if (ratingA <= 100 && spaces <= 12) return 'subpanel-mount-60';
  return ratingA <= 125 && spaces <= 24 ? 'subpanel-mount-125' : 'subpanel-mount-200';
}

function subpanel({ panel }: PlannedOption): Demands {
  if (!panel) return joined([]);
  const { ratingA, spaces, enclosure, mainBreaker } = panel;
  const outdoor = enclosure === 'outdoor';
  const words = `${ratingA} A, ${spaces} spaces, ${outdoor ? 'rainproof' : 'indoor'}${mainBreaker ? ', main breaker' : ''}`;
  const scope = 'panel';
  return joined([
    materials({
      spec: { is: 'panel', ratingA, spaces, enclosure, mainBreaker },
      description: `subpanel ${words}`,
      scope,
      quantity: 1,
      because: words,
    }),
    named({
      name: 'ground-bar-kit',
      description: 'equipment ground bar kit',
      scope,
      quantity: 1,
      because: 'grounds land on a bar of their own; the neutral bar stays isolated from the enclosure',
    }),
    materials({
      spec: { is: 'fitting', type: 'rmc', tradeSize: '2', piece: 'hub' },
      description: 'rainproof hub, up to 2 in',
      scope,
      quantity: outdoor ? 1 : 0,
      because: 'the feeder enters the rainproof enclosure',
    }),
    work({ task: mountTask(ratingA, spaces), scope, quantity: 1, because: words }),
    work({
      task: 'subpanel-outdoor-add',
      scope,
      quantity: outdoor ? 1 : 0,
      because: 'rainproof enclosure out of doors',
    }),
  ]);
}

/** A switch or lock that a run has besides its breaker. A main breaker comes with its panel. */
function disconnect(run: PlannedRun): Demands {
  const { disconnect: stated } = run;
  if (!stated || stated.kind === 'main-breaker') return joined([]);
  const scope = run.role === 'feeder' ? 'panel' : 'outlet';
  const because = [`${stated.at.startsWith('where ') ? '' : 'at '}${stated.at}, for ${run.name}`, ...stated.because];
  if (stated.kind === 'breaker-lock') {
    return named({ name: 'breaker-lock', description: 'permanent breaker lock', scope, quantity: 1, because });
  }
  return joined([
    named({
      name: switchName(stated.ratingA, run.role),
      description: `non-fused disconnect ${stated.ratingA} A`,
      scope,
      quantity: 1,
      because,
    }),
    work({ task: 'disconnect', scope, quantity: 1, because }),
  ]);
}

/** The disconnect that is sold for so many amperes: a pull-out for one circuit, a safety switch for a feeder. */
function switchName(ratingA: number, role: PlannedRun['role']): string {
  if (ratingA <= 60) return role === 'feeder' ? 'disc-60-switch' : 'disc-60-nonfused';
  if (ratingA <= 100) return 'disc-100-switch';
  return ratingA <= 200 ? 'disc-200-switch' : 'disc-400-switch';
}
