import type { PlannedOption } from './plan-types.ts';
import type { Scope } from './vocabulary.ts';

/** Scopes that are the same work in every option. */
const WORDS: Readonly<Record<Exclude<Scope, 'panel' | 'outlet' | 'charger' | 'service-upgrade'>, string>> = {
  wire: 'the wire or cable, and running it',
  conduit: 'the conduit with its fittings',
  boxes: 'the boxes, and drilling through walls and framing',
  breaker: 'the breakers',
  trench: 'digging and filling the trench',
  'hard-surface': 'cutting through concrete, asphalt or pavers',
  restoration: 'making walls, lawns and surfaces good again',
  grounding: 'the ground rods and their wire',
  permit: 'the permit and the inspections',
  'load-management': 'the load management and setting it up',
  travel: 'driving to the job and setting up there',
  other: 'everything else that the estimate lists, such as testing and tidying up',
};

/**
 * A scope of an option as one names it to the person who would do it, to follow "include" and "leaves out": a panel that
 * is there is opened, a new one is bought; a charger that is owned is only mounted.
 */
export function scopeForPeople(scope: Scope, plan: PlannedOption): string {
  switch (scope) {
    case 'panel':
      return buysPanel(plan)
        ? 'the new panel and connecting it'
        : 'opening the panel, connecting the circuit and closing it again';
    case 'outlet':
      return plan.outlets.some(({ connection }) => connection !== 'hardwired')
        ? 'the receptacles and what else is mounted at the end of a circuit'
        : 'the disconnecting switch or lock for the charger';
    case 'charger':
      return plan.option.chargers.some(({ equipment }) => equipment === 'buy')
        ? 'the charger itself and mounting it'
        : 'mounting the charger that is there already';
    case 'service-upgrade':
      return plan.serviceWork?.kind === 'panel-swap' ? 'the new main panel' : 'the larger service';
    default:
      return WORDS[scope];
  }
}

/** Is a panel bought besides the one that the option starts at? */
function buysPanel({ panel, roomBy }: PlannedOption): boolean {
  return panel !== undefined || roomBy === 'house-subpanel';
}
