import type { PlannedOption } from '../plan-types.ts';
import { counted, type Demands, joined, named, work } from './demand.ts';
import { hasWork, inspectionCount } from './inspections.ts';

/** Inspections that a permit's fee covers. Common practice, no source. */
const COVERED_INSPECTIONS = 2;
const SCOPE = 'permit';

/** The permit's fee as the description states it, in whole cents; nothing where the price book's holds. */
export function statedPermitCents({ description }: PlannedOption): number | undefined {
  return description.site.permit?.feeCents;
}

/** Which permit the work takes. */
function permitName({ option }: PlannedOption): { name: string; description: string } {
  if (option.serviceUpgrade) return { name: 'permit-service-upgrade', description: 'permit for a service upgrade' };
  return option.feed === 'subpanel'
    ? { name: 'permit-subpanel', description: 'permit for a subpanel and its feeder' }
    : { name: 'permit-circuit', description: 'permit for a circuit' };
}

/** Permit, right of way, inspections beyond those that the permit covers, and the work around them. */
export function feeDemands(plan: PlannedOption): Demands {
  if (!hasWork(plan)) return joined([]);
  const { permit } = plan.description.site;
  const statedCents = statedPermitCents(plan);
  const inspections = inspectionCount(plan);
  const kind =
    statedCents === undefined ? permitName(plan) : { name: 'permit-circuit', description: 'permit, at its stated fee' };
  const fee = (name: string, description: string, quantity: number, because: string) =>
    named({ name, description, class: 'fee', scope: SCOPE, quantity, because });
  return joined([
    fee(
      kind.name,
      kind.description,
      statedCents === 0 ? 0 : 1,
      statedCents === undefined
        ? 'the work needs a permit'
        : `the work needs a permit; its fee is stated: $${(statedCents / 100).toFixed(2)}`,
    ),
    fee('permit-right-of-way', 'right-of-way permit', permit?.rightOfWay ? 1 : 0, 'the work leaves the lot'),
    fee(
      'inspection-extra',
      'inspection beyond those that the permit covers',
      Math.max(0, inspections - COVERED_INSPECTIONS),
      `${counted(inspections, 'inspection')}; a permit covers ${COVERED_INSPECTIONS}`,
    ),
    work({
      task: 'load-calc-permit',
      scope: SCOPE,
      unit: 'job',
      quantity: permit?.byOwner ? 0 : 1,
      because: 'load calculation, sketch and application',
    }),
    work({
      task: 'inspection-meet',
      scope: SCOPE,
      unit: 'inspection',
      quantity: inspections,
      because: counted(inspections, 'inspection'),
    }),
  ]);
}
