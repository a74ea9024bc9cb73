import type { RuleKey } from '../../electrical/citations.ts';
import type { Finding } from '../answer.ts';
import type { OtherCircuit } from './feeder-load.ts';
import { findingOf, type Job } from './job.ts';

/** What was stated of the old supply, before anything was planned. */
interface Stated extends Pick<Job, 'description'> {
  option: Pick<Job['option'], 'existingSupply'>;
}

/** What becomes of an older circuit that feeds the building: the option's own answer, else the site's. */
export function supplyFate({ description, option }: Stated): 'none' | 'removed' | 'kept' {
  return option.existingSupply ?? description.site.existingSupply;
}

/**
 * What the old circuit fed, as a circuit of the subpanel: it keeps its space and counts in the feeder's load. Only its
 * breaker and its joint are new, so it is no run of the plan.
 */
export function refedCircuits(job: Stated): OtherCircuit[] {
  const { existingCircuit } = job.description.site;
  if (supplyFate(job) !== 'removed' || !existingCircuit || existingCircuit.feeds.length === 0) return [];
  const { amps, poles, feeds } = existingCircuit;
  return [{ use: `${feeds.join(', ')} (old circuit)`, amps, poles, continuous: false, build: false }];
}

/** What happens to the old supply and to what hangs on it. Nothing where the option adds no supply of its own. */
export function existingSupplyFindings(job: Job): Finding[] {
  if (job.option.feed === 'existing-receptacle') return [];
  const fate = supplyFate(job);
  if (fate === 'removed') return [...removedFindings(job), ...racewayLeft(job)];
  return fate === 'kept' ? withoutGround(job) : unplacedCircuit(job);
}

const ruleOf = (job: Job, rule: string, severity: Finding['severity'], message: string, cites?: RuleKey): Finding =>
  findingOf(job.edition, { rule, severity, message, ...(cites && { cites }) });

function removedFindings(job: Job): Finding[] {
  const { roughInOnly, feed } = job.option;
  const feeds = job.description.site.existingCircuit?.feeds ?? [];
  if (roughInOnly) {
    const message =
      'Only raceway and boxes are built now: the old supply stays until the new one is live, and is not taken out yet.';
    return [ruleOf(job, 'old-supply-stays', 'note', message)];
  }
  if (feeds.length === 0) {
    const message =
      'What the old supply feeds was not stated: once it is taken out, all of that goes dead. Switch it off, walk through ' +
      'the building and list what stops working.';
    return [ruleOf(job, 'old-loads', 'caution', message, 'one-supply')];
  }
  const loads = feeds.join(', ');
  if (feed !== 'subpanel') {
    const message = `${loads}: dead once the old supply is taken out, for a charging circuit may not carry it. A subpanel can.`;
    return [ruleOf(job, 'old-loads', 'caution', message, 'individual-branch-circuit')];
  }
  const message = `${loads}: moved to the subpanel on a breaker of its own. An older circuit without an equipment ground gets one before it is joined.`;
  return [ruleOf(job, 'old-loads', 'note', message)];
}

/** A raceway is used again only where the route says so. */
function racewayLeft(job: Job): Finding[] {
  const { existingCircuit } = job.description.site;
  if (!existingCircuit || existingCircuit.raceway === 'none' || reusesRaceway(job.route.map(({ stated }) => stated)))
    return [];
  const message = `The old circuit's ${existingCircuit.raceway} raceway stays empty. Where it goes the same way, state it as a leg "existing-raceway": digging may be saved.`;
  return [ruleOf(job, 'old-raceway', 'note', message)];
}

/** Does the route go through a raceway that is there? */
export function reusesRaceway(route: readonly { kind: string }[]): boolean {
  return route.some(({ kind }) => kind === 'existing-raceway');
}

/** Two wires to another building have no equipment ground. NEC 250.32(B)(1). */
function withoutGround(job: Job): Finding[] {
  const wires = job.description.site.existingCircuit?.wires;
  if (wires !== 2) return [];
  return [
    findingOf(job.edition, {
      rule: 'old-supply-ground',
      severity: 'caution',
      message:
        'The old circuit that stays has two wires and so no equipment ground: have it looked at, whatever is built beside it.',
      cites: 'neutral-separate-building',
      numbers: { wires },
    }),
  ];
}

function unplacedCircuit(job: Job): Finding[] {
  if (!job.description.site.existingCircuit) return [];
  const message =
    'An existing circuit is stated, and existingSupply says that there is none: nothing is planned or priced for it. Say ' +
    'whether it is kept or removed.';
  return [ruleOf(job, 'old-supply-unplaced', 'caution', message)];
}
