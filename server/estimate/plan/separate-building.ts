import { buildingDisconnect, buildingGrounding, checkOneSupply, garageDuties } from '../../electrical/outbuildings.ts';
import type { Finding, Grounding } from '../answer.ts';
import type { PlannedRun } from '../plan-types.ts';
import type { DecidedCircuit } from './charger-circuit.ts';
import type { Circuit } from './circuit.ts';
import { supplyFate } from './existing-supply.ts';
import { findingOf, type Job } from './job.ts';
import type { Panel } from './panel.ts';

/** Ratings that switches for the disconnect of a building are sold in, in amperes. Common practice, no source. */
const SWITCH_RATINGS_A = [60, 100, 200, 400] as const;

/** A panel has room for more circuits than the two that 225.39(B) lets a 30 A disconnect have. */
const MORE_THAN_TWO = 3;

/** Is what the option feeds a building or structure of its own? A post or a pedestal outdoors is one. */
export function endsAtSeparate(
  building: 'attached' | 'detached' | 'outdoor',
  option: { feed: string; chargers: readonly { mount: string }[] },
): boolean {
  if (building === 'detached') return true;
  return (
    building === 'outdoor' && (option.feed === 'subpanel' || option.chargers.some(({ mount }) => mount !== 'wall'))
  );
}

function switchOf(leastRatingA: number): number {
  return SWITCH_RATINGS_A.find((ratingA) => ratingA >= leastRatingA) ?? Math.ceil(leastRatingA);
}

/** Gives the circuits that come to a separate building the disconnect that it needs there. NEC 225.31, 225.39. */
export function withBuildingDisconnect(
  job: Job,
  arriving: readonly DecidedCircuit[],
  panel: Panel | undefined,
): DecidedCircuit[] {
  if (!job.separate) return [...arriving];
  const supply = panel ? 'feeder' : 'branch-circuit';
  const branchCircuits = panel ? MORE_THAN_TWO : arriving.length;
  return arriving.map(({ circuit, findings }) => {
    const { leastRatingA, finding } = buildingDisconnect({
      supply,
      branchCircuits,
      loadA: circuit.ocpdA,
      edition: job.edition,
    });
    const means = disconnectMeans(panel, leastRatingA);
    const kept = panel?.mainBreaker && panel.ratingA < leastRatingA ? tooSmallMain(job, panel, leastRatingA) : finding;
    return {
      circuit: { ...circuit, disconnect: means },
      findings: [...findings, { ...kept, run: circuit.name }],
    };
  });
}

function disconnectMeans(panel: Panel | undefined, leastRatingA: number): Circuit['disconnect'] {
  if (panel?.mainBreaker) {
    const because = ['the main breaker of the subpanel disconnects the building'];
    return { at: 'subpanel', ratingA: panel.ratingA, kind: 'main-breaker', because };
  }
  const because = ['where the supply comes in, within reach; a breaker in the house panel is not it'];
  return { at: 'where the supply comes in', ratingA: switchOf(leastRatingA), kind: 'non-fused-switch', because };
}

function tooSmallMain(job: Job, { ratingA }: Panel, leastRatingA: number): Finding {
  return findingOf(job.edition, {
    rule: 'building-disconnect-rating',
    severity: 'stop',
    message: `The building's disconnect must be rated at least ${leastRatingA} A; a main breaker of ${ratingA} A is not. Choose a panel of ${leastRatingA} A or more.`,
    cites: 'building-disconnect-rating',
    numbers: { ratingA, leastRatingA },
  });
}

/** What a building that a feeder supplies gets in the ground. Nothing where the option stays in the house. */
export function groundingOf(job: Job, run: PlannedRun | undefined): { grounding?: Grounding; findings: Finding[] } {
  if (!job.separate || !run) return { findings: [] };
  const { size: conductorSize, metal: conductorMetal } = run.conductor;
  const supply = run.role === 'feeder' ? 'feeder' : 'branch-circuit';
  const { neutral } = run;
  const answer = buildingGrounding({ supply, conductorSize, conductorMetal, neutral, edition: job.edition });
  const findings = answer.findings.map((finding) => ({ ...finding, run: run.name }));
  if (!answer.electrodesNeeded || !answer.conductorSize) return { findings };
  return {
    grounding: {
      electrodes: [{ kind: 'rod', count: answer.rods }],
      conductorSize: answer.conductorSize,
      because: answer.findings.map(({ message }) => message),
    },
    findings,
  };
}

/** Is the building supplied once only? A supply that stays beside a new one, or two circuits, may not be. NEC 225.30. */
export function supplyFindings(job: Job, arriving: readonly DecidedCircuit[]): Finding[] {
  if (!job.separate || arriving.length === 0) return [];
  const existingSupply = supplyFate(job);
  const newSupply = job.option.feed === 'subpanel' ? 'feeder' : 'branch-circuit';
  const one = checkOneSupply({ existingSupply, newSupply, edition: job.edition });
  return arriving.length > 1 ? [one, severalCircuits(job, arriving.length)] : [one];
}

function severalCircuits({ edition }: Job, circuits: number): Finding {
  return findingOf(edition, {
    rule: 'one-supply-different-voltage',
    severity: 'caution',
    message:
      `${circuits} branch circuits would come to the building, which may have one supply. Ask the authority having ` +
      'jurisdiction whether it counts them as different; a subpanel needs no such leave, and a shared circuit does not either.',
    cites: 'one-supply-different-voltage',
    numbers: { circuits },
  });
}

/** A lone charging circuit powers a detached garage, which then must have a receptacle and a light that it may not carry. */
export function loneCircuitFindings(job: Job): Finding[] {
  const { building, garage, code } = job.description.site;
  if (building !== 'detached' || job.option.feed !== 'dedicated-circuit') return [];
  const { bays, existing } = garage ?? { bays: 1, existing: [] };
  const duties = garageDuties({ bays, existing, edition: code.edition });
  if (duties.findings.length === 0) return [];
  return duties.findings.map((finding) => ({
    ...finding,
    severity: 'caution' as const,
    message: `${finding.message} It is not part of this option: it may not hang on the charging circuit, and a second circuit needs a subpanel or the authority's leave.`,
  }));
}
