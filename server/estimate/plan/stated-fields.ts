import type { Finding } from '../answer.ts';
import { authorityFindings } from './authority.ts';
import { existingPanelFindings } from './existing-panel.ts';
import { existingSupplyFindings } from './existing-supply.ts';
import { hazardFindings, unknownSteelFindings } from './hazards.ts';
import type { Job } from './job.ts';
import { loadManagementFindings } from './load-management.ts';
import { overheadFindings } from './overhead.ts';
import { serviceUpgradeFindings } from './service-upgrade.ts';

/** What follows from fields of the site and the option that no single circuit answers for. */
export function statedFieldFindings(job: Job): Finding[] {
  return [
    ...loadManagementFindings(job),
    ...serviceUpgradeFindings(job),
    ...existingSupplyFindings(job),
    ...existingPanelFindings(job),
    ...hazardFindings(job),
    ...unknownSteelFindings(job),
    ...overheadFindings(job),
    ...authorityFindings(job),
  ];
}
