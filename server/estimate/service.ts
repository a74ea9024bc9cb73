import { cite } from '../electrical/citations.ts';
import { evseLoadVA } from '../electrical/evse-load.ts';
import { CONTINUOUS_FACTOR as CONTINUOUS } from '../electrical/overcurrent.ts';
import { LEAST_MEASURED_DAYS, SERVICE_V, serviceLoad } from '../electrical/service-load.ts';
import type { Finding, ServiceCheck } from './answer.ts';
import type { PlannedOption } from './plan-types.ts';

type Fits = ServiceCheck['fits'];
interface Reading {
  method: string;
  reading: string;
  withA: number;
  fits: boolean;
}

/** What the option adds to the service, in volt-amperes, before any factor for continuous loads. */
interface Added {
  /** By 220.57 and its like: for each charger not less than the code's least. */
  chargerVA: number;
  /** Other circuits of a subpanel. */
  otherVA: number;
}

/**
 * Can the service carry the option? Yes where the strictest lawful reading fits (the charger in full, at 125 %), no
 * where the mildest does not (in the tier where the method has one, at 100 %), depends between. NEC 220.57, 220.82,
 * 220.83, 220.87. Amperes at 240 V.
 */
export function checkService(plan: PlannedOption): { check: ServiceCheck; findings: Finding[] } {
  const check = serviceCheck(plan);
  return { check, findings: [findingOf(plan, check)] };
}

function serviceCheck(plan: PlannedOption): ServiceCheck {
  const { load } = plan.description.site;
  const ratingA = ratingOf(plan);
  const added = addedBy(plan);
  const strictA = (added.chargerVA * CONTINUOUS + added.otherVA) / SERVICE_V;
  const barred = whyBarred(plan);
  if (load.method === 'unknown' || barred !== undefined) {
    return {
      method: load.method,
      addedA: round(strictA),
      fits: 'unknown',
      readings: [],
      remedies: [{ kind: 'measure', detail: barred ?? 'Nobody has stated what the house draws: measure or list it.' }],
    };
  }
  const demandA = demandBefore(plan) / SERVICE_V;
  const readings = readingsOf(plan, added, demandA, ratingA);
  const strict = capped(plan, { withA: demandA + strictA, demandA }) - demandA;
  const fits = verdict(readings, ratingA);
  return {
    method: load.method,
    demandA: round(demandA),
    addedA: round(strict),
    withA: round(demandA + strict),
    ...(ratingA !== null && { spareA: round(ratingA - demandA - strict) }),
    fits,
    readings,
    remedies: remediesOf(plan, { fits, ratingA, demandA, strictA: strict }),
  };
}

/** The rating that counts: what the option's upgrade makes of the service, or what is there. */
function ratingOf({ option, description }: PlannedOption): number | null {
  return option.serviceUpgrade?.toA ?? description.site.service.ratingA;
}

/** 220.87 bars a measurement that is too short or that local generation hides. */
function whyBarred({ description }: PlannedOption): string | undefined {
  const { load, service } = description.site;
  if (load.method !== 'measured') return undefined;
  if (load.days < LEAST_MEASURED_DAYS)
    return `${load.days} days are measured; the code asks for at least ${LEAST_MEASURED_DAYS}.`;
  if ((service.backfeedA ?? 0) > 0)
    return 'Solar or storage hides part of the load from the meter: list the loads instead.';
  return undefined;
}

function addedBy(plan: PlannedOption): Added {
  const { edition } = plan.description.site.code;
  const managed = plan.option.loadManagement;
  const branch = plan.runs.filter(({ chargers }) => chargers.length > 0);
  const perCircuit = branch.map((run) => {
    const nameplateVA = run.continuousA * (run.poles === 1 ? 120 : SERVICE_V);
    return run.poles === 1 ? nameplateVA : evseLoadVA({ nameplateVA, managed: managed !== undefined, edition });
  });
  const unmanagedVA = perCircuit.reduce((sum, va) => sum + va, 0) + existingOutletVA(plan);
  const chargerVA = managed ? Math.min(managed.maxA * SERVICE_V, unmanagedVA) : unmanagedVA;
  const feeder = plan.runs.find(({ role }) => role === 'feeder');
  const chargersA = branch.reduce((sum, { continuousA }) => sum + continuousA, 0);
  const otherVA = feeder ? Math.max(0, feeder.loadA - chargersA) * SERVICE_V : 0;
  return { chargerVA, otherVA };
}

/** A cord on a 120 V outlet that is there adds its own draw; the code's least is for equipment on its own circuit. */
function existingOutletVA({ option }: PlannedOption): number {
  if (option.feed !== 'existing-receptacle') return 0;
  return option.chargers.reduce((sum, { amps }) => {
    const drawA = amps === 'largest' ? (option.receptacle?.circuitA ?? 0) * 0.8 : amps;
    return sum + drawA * 120;
  }, 0);
}

/** What the house draws before the charger, in volt-amperes, by the method that its load is stated for. */
function demandBefore(plan: PlannedOption): number {
  return loadWith(plan, {}).demandVA;
}

function loadWith(
  plan: PlannedOption,
  extra: { addedVA?: number; chargerVA?: number; chargerReading?: 'full' | 'in-tier' },
) {
  const { load, work, code } = plan.description.site;
  const serviceA = ratingOf(plan) ?? 100;
  if (load.method === 'measured') {
    return serviceLoad({
      method: 'measured',
      peakA: load.peakA,
      days: load.days,
      serviceA,
      edition: code.edition,
      ...extra,
    });
  }
  if (load.method === 'unknown') throw new Error('An unknown load has no demand.');
  const method = work === 'new-construction' ? 'new-dwelling' : 'existing-dwelling';
  return serviceLoad({ ...load, method, serviceA, edition: code.edition, ...extra });
}

/** A monitor of the service keeps the whole house at its limit, but cannot take away what the house draws without the car. */
function capped(plan: PlannedOption, { withA, demandA }: { withA: number; demandA: number }): number {
  const { loadManagement } = plan.option;
  if (loadManagement?.kind !== 'service-monitor') return withA;
  const limitA = loadManagement.houseLimitA ?? ratingOf(plan) ?? withA;
  return Math.max(demandA, Math.min(withA, limitA));
}

/** Every lawful way to count the charger, the strictest first. */
function readingsOf(plan: PlannedOption, added: Added, demandA: number, ratingA: number | null): Reading[] {
  const { load, code, work } = plan.description.site;
  const method = load.method === 'measured' ? '220.87' : work === 'new-construction' ? '220.82' : '220.83';
  const fullAt = (factor: number) => demandA + (added.chargerVA * factor + added.otherVA) / SERVICE_V;
  const inTierAt = (factor: number) =>
    loadWith(plan, { addedVA: added.chargerVA * factor + added.otherVA }).demandVA / SERVICE_V;
  const hasTier = load.method === 'listed' && code.edition !== '2026';
  const ways = [
    { reading: 'the charger in full, at 125 %', withA: fullAt(CONTINUOUS), keptBy: 'full' },
    { reading: 'the charger in full, at 100 %', withA: fullAt(1), keptBy: 'both' },
    ...(hasTier
      ? [
          { reading: 'the charger in the tier, at 125 %', withA: inTierAt(CONTINUOUS), keptBy: 'in-tier' },
          { reading: 'the charger in the tier, at 100 %', withA: inTierAt(1), keptBy: 'both' },
        ]
      : []),
  ];
  const kept = ways.filter(({ keptBy }) => code.chargerReading === 'both' || keptBy === code.chargerReading);
  return (kept.length > 0 ? kept : ways.slice(0, 1)).map(({ reading, withA }) => ({
    method,
    reading,
    withA: round(capped(plan, { withA, demandA })),
    fits: ratingA !== null && capped(plan, { withA, demandA }) <= ratingA,
  }));
}

function verdict(readings: readonly Reading[], ratingA: number | null): Fits {
  if (ratingA === null) return 'unknown';
  if (readings.every(({ fits }) => fits)) return 'yes';
  return readings.some(({ fits }) => fits) ? 'depends' : 'no';
}

interface Tightness {
  fits: Fits;
  ratingA: number | null;
  demandA: number;
  strictA: number;
}

/** What would help where the service does not carry it, without prices. */
function remediesOf(plan: PlannedOption, { fits, ratingA, demandA, strictA }: Tightness): ServiceCheck['remedies'] {
  if (fits === 'yes') return [];
  if (ratingA === null) {
    return [
      { kind: 'measure', detail: 'Read the rating on the handle of the main breaker; do not open the panel for it.' },
    ];
  }
  const remedies: ServiceCheck['remedies'] = [];
  const spareA = Math.floor((ratingA - demandA) / CONTINUOUS);
  if (spareA >= 6) {
    remedies.push({
      kind: 'lower-amps',
      amps: spareA,
      detail: `Set to ${spareA} A the charger fits by every reading.`,
    });
  }
  if (!plan.option.loadManagement) {
    remedies.push({
      kind: 'load-management',
      detail: 'A listed monitor on the service lets the charger have only what the house leaves.',
    });
  }
  const neededA = Math.ceil(demandA + strictA);
  remedies.push({
    kind: 'service-upgrade',
    amps: neededA,
    detail: `A service of at least ${neededA} A carries all of it.`,
  });
  return remedies;
}

const SEVERITY_OF = { yes: 'ok', depends: 'caution', no: 'stop', unknown: 'caution' } as const;

function findingOf(plan: PlannedOption, check: ServiceCheck): Finding {
  const { edition } = plan.description.site.code;
  const ratingA = ratingOf(plan);
  const rule = plan.description.site.load.method === 'measured' ? 'measured-demand' : 'optional-existing-a';
  return {
    rule: 'service-capacity',
    severity: SEVERITY_OF[check.fits],
    message: messageOf(check, ratingA),
    citation: cite(rule, edition),
    numbers: {
      ...(ratingA !== null && { ratingA }),
      ...(check.demandA !== undefined && { demandA: check.demandA }),
      ...(check.addedA !== undefined && { addedA: check.addedA }),
      ...(check.withA !== undefined && { withA: check.withA }),
    },
  };
}

function messageOf({ fits, withA, addedA, remedies }: ServiceCheck, ratingA: number | null): string {
  if (fits === 'yes') return `The service carries it: ${withA} A of ${ratingA} A with the charger.`;
  if (fits === 'no')
    return `The service does not carry it: ${withA} A of ${ratingA} A by the strictest reading, and too much by the mildest. ${remedies[0]?.detail ?? ''}`;
  if (fits === 'depends')
    return `Whether the service carries it depends on how the charger is counted: ${withA} A of ${ratingA} A by the strictest reading. The AHJ decides which reading holds.`;
  return `Whether the service carries another ${addedA} A is not known. ${remedies[0]?.detail ?? ''}`;
}

/** Amperes to a hundredth: finer than any meter, and the same on every machine. */
function round(amperes: number): number {
  return Math.round(amperes * 100) / 100;
}
