import type { PlannedOption } from '../plan-types.ts';
import { type Demands, joined } from './demand.ts';
import { emptyRacewayDemands } from './empty-raceways.ts';
import { existingSupplyDemands } from './existing-supply.ts';
import { hazardDemands } from './hazards.ts';
import { loadManagementDemands } from './load-management.ts';
import { serviceUpgradeDemands } from './service-upgrade.ts';
import type { Way } from './way.ts';

/** What fields of the site and the option ask for beside runs and their ends. */
export function statedFieldDemands(plan: PlannedOption, ways: readonly Way[]): Demands {
  return joined([
    loadManagementDemands(plan, ways),
    serviceUpgradeDemands(plan),
    existingSupplyDemands(plan),
    emptyRacewayDemands(plan),
    hazardDemands(plan, ways),
  ]);
}
