import { usableAmpacity } from '../electrical/ampacity.ts';
import { circuitCheck } from '../electrical/circuit-check.ts';
import { twoAmpacityTests } from '../electrical/conductor.ts';
import { BeyondTableError } from '../electrical/errors.ts';
import { circuitWires } from '../electrical/ev.ts';
import { CONTINUOUS_FACTOR, isStandardOcpd, largestOcpdForConductor, reaches } from '../electrical/overcurrent.ts';
import { sizeInWords } from '../electrical/sizes.ts';
import type { EstimateOption, Finding, Run } from './answer.ts';
import type { Description } from './description.ts';
import type { OptionEstimate } from './option-estimate.ts';
import { findingOf } from './plan/job.ts';
import { currentCarrying } from './plan/section.ts';
import type { PlannedOption } from './plan-types.ts';
import type { Metal, WiringMethod } from './vocabulary.ts';

type Offers = NonNullable<Description['bids'][number]['offers']>;
type Insulation = Parameters<typeof usableAmpacity>[0]['insulation'];

interface OfferedAt {
  bid: { offers?: Offers | undefined };
  one: OptionEstimate;
  option: EstimateOption;
  description: Description;
}

/**
 * What a bid says will be built, by the rules of a plan: the feeder where the option has one, else the circuit of its
 * charger. Only what the bid states is judged; where it says nothing the plan's stands in, and no finding rests on it.
 */
export function offerFindings(at: OfferedAt): Finding[] {
  const { bid, option } = at;
  const { offers } = bid;
  if (!offers) return [];
  const feeder = option.runs.find(({ role }) => role === 'feeder');
  const circuit = option.runs.find(({ role }) => role === 'branch-circuit');
  const wired = withinTables(at, () => {
    if (feeder) return feederFindings(at, offers, feeder);
    return circuit ? circuitFindings(at, offers, circuit) : [];
  });
  return [
    ...wired,
    ...settingFindings(at, offers),
    ...(wired.some(isGroundFault) ? [] : groundFaultFindings(at, offers)),
    ...panelFindings(at, offers, feeder),
  ];
}

/** Is a finding about ground-fault protection? */
const isGroundFault = ({ rule }: Finding) => /gfci|ground-fault/.test(rule);

/** What the tables of the code book do not reach, such as 14 AWG aluminum or 600 kcmil, cannot be judged: a question, no answer. */
function withinTables({ description }: OfferedAt, judge: () => Finding[]): Finding[] {
  try {
    return judge();
  } catch (error) {
    if (!(error instanceof BeyondTableError)) throw error;
    const message = `What the bid offers cannot be judged here, for ${error.message}. Ask whether it is meant so.`;
    const numbers = { [error.field]: String(error.value) };
    return [
      findingOf(description.site.code.edition, { rule: 'bid-beyond-tables', severity: 'caution', message, numbers }),
    ];
  }
}

/** Which stated fields a rule of the circuit check rests on; a rule that is not named rests on none that a bid states. */
const RESTS_ON: Record<string, readonly (keyof Offers)[]> = {
  'ev-continuous-load': ['ocpdA'],
  'standard-ratings': ['ocpdA'],
  'two-ampacity-tests': ['size', 'metal'],
  'conductor-ampacity': ['size', 'metal'],
  'next-size-up': ['size', 'metal', 'ocpdA'],
  'small-conductors': ['size', 'metal', 'ocpdA'],
  'receptacle-rating': ['ocpdA'],
  'single-receptacle-rating': ['ocpdA'],
  'plug-or-hardwired': ['amps'],
  'dissimilar-metals': ['metal'],
  'voltage-drop': ['size', 'metal'],
};

/** Copper is meant where a bid names a size and no metal. Common practice, no source. */
function metalOffered({ metal, size }: Offers, run: Run): Metal {
  return metal ?? (size === undefined ? weakerPart(run).metal : 'copper');
}

/** Where a run changes its conductors, the part that carries least, of the metal that is offered if it has one of it. */
function weakerPart({ begins, conductor }: Run, metal?: Metal): Run['conductor'] {
  const parts = [...(begins ? [begins.conductor] : []), conductor];
  const offered = parts.filter((part) => part.metal === metal);
  return (offered.length > 0 ? offered : parts).reduce((weak, part) => (part.ampacityA < weak.ampacityA ? part : weak));
}

function circuitFindings({ one, description }: OfferedAt, offers: Offers, run: Run): Finding[] {
  const [chargerAt = 0] = one.plan.runs.find(({ name }) => name === run.name)?.chargers ?? [];
  const charger = one.plan.option.chargers[chargerAt];
  if (!charger) return [];
  const { poles, neutral } = circuitWires(charger.connection);
  const metal = metalOffered(offers, run);
  const size = offers.size ?? weakerPart(run, metal).size;
  const insulation = insulationOf(offers.method, metal, run);
  const { terminalsC } = description.site.code;
  const { findings } = circuitCheck({
    ocpdA: offers.ocpdA ?? run.ocpdA,
    metal,
    size,
    insulation,
    wires: (poles + (neutral ? 1 : 0) + 1) as 2 | 3 | 4,
    terminalsC,
    lengthFt: run.lengthFt,
    ...harshestWay(one.plan, run, { metal, size, insulation, terminalsC }),
    amps: offers.amps ?? charger.amps,
    connection: charger.connection,
    ...(offers.gfci !== undefined && { gfci: offers.gfci }),
    edition: description.site.code.edition,
  });
  return findings
    .filter((finding) => {
      if (isGroundFault(finding)) return offers.gfci !== undefined;
      return RESTS_ON[finding.rule]?.every((field) => offers[field] !== undefined || isSame(field, offers)) ?? false;
    })
    .map((finding) => ({ ...finding, run: run.name }));
}

/** Copper is meant where a bid names a size and no metal. Common practice, no source. */
const isSame = (field: keyof Offers, { size }: Offers) => field === 'metal' && size !== undefined;

/** Insulations by what a bid says of the method; where it says nothing, the plan's with the lowest column: the safe side. */
function insulationOf(method: WiringMethod | undefined, metal: Metal, run: Run): Insulation {
  switch (method) {
    case undefined:
      return (
        run.legs.find(({ insulation }) => insulation === 'nm-b' || insulation === 'uf-b')?.insulation ?? single(metal)
      );
    case 'nm-b':
    case 'uf-b':
    case 'ser':
      return method;
    case 'direct-burial':
      return 'use-2';
    default:
      return single(metal);
  }
}
const single = (metal: Metal): Insulation => (metal === 'copper' ? 'thwn-2' : 'xhhw-2');

interface Way {
  ambientC: number;
  currentCarrying: number;
}

/**
 * Where the way of a planned run leaves a conductor the fewest amperes: its hottest leg, or a raceway that others are in
 * (310.15(B), (C)). What is offered goes the same way, and the end of it has the temperature of the site.
 * @throws {BeyondTableError} where it is too hot for the insulation
 */
function harshestWay(
  plan: PlannedOption,
  run: Run,
  conductor: Pick<Parameters<typeof usableAmpacity>[0], 'metal' | 'size' | 'insulation' | 'terminalsC'>,
): Way {
  const alongLegs = run.legs.flatMap(({ leg }): Way[] => {
    const placed = plan.route[leg];
    if (!placed) return [];
    const together = plan.runs.filter(({ legs }) => legs.some((other) => other.leg === leg)).length;
    return [{ ambientC: placed.ambientC, currentCarrying: currentCarrying({ placed }, together) }];
  });
  const atItsEnd = { ambientC: plan.description.site.ambientC, currentCarrying: currentCarrying({}) };
  const carriedA = (way: Way) => usableAmpacity({ ...conductor, ...way }).correctedA;
  return [...alongLegs, atItsEnd].reduce((worst, way) => (carriedA(way) < carriedA(worst) ? way : worst));
}

/** A feeder's breaker and conductor: NEC 215.2, 215.3, 240.4(B), 240.6, 310.16. */
function feederFindings({ one, description }: OfferedAt, offers: Offers, run: Run): Finding[] {
  const { edition, terminalsC } = description.site.code;
  const { ocpdA, size } = offers;
  const metal = metalOffered(offers, run);
  const neededA = run.loadA + run.continuousA * (CONTINUOUS_FACTOR - 1);
  const found: Finding[] = [];
  const add = (rule: string, severity: Finding['severity'], message: string, numbers: Finding['numbers']) =>
    found.push(
      findingOf(edition, {
        rule,
        severity,
        message,
        numbers,
        run: run.name,
        cites: CITES[rule] ?? 'feeder-continuous-load',
      }),
    );
  if (ocpdA !== undefined) {
    if (!isStandardOcpd(ocpdA, edition)) {
      add('standard-ratings', 'caution', `${ocpdA} A is no standard rating of a breaker.`, { ocpdA });
    }
    const carries = reaches(ocpdA, neededA);
    const message = carries
      ? `A feeder breaker of ${ocpdA} A carries the ${shown(neededA)} A that are needed.`
      : `A feeder breaker of ${ocpdA} A is too small: ${shown(neededA)} A are needed, charging at 125 %.`;
    add('feeder-continuous-load', carries ? 'ok' : 'stop', message, { ocpdA, neededA });
  }
  if (size === undefined) return found;
  const insulation = insulationOf(offers.method, metal, run);
  const way = harshestWay(one.plan, run, { metal, size, insulation, terminalsC });
  const ampacity = usableAmpacity({ metal, size, insulation, terminalsC, ...way });
  const { ampacityA } = ampacity;
  const { atTerminals, alongTheWay } = twoAmpacityTests({ loadA: run.loadA, continuousA: run.continuousA, ampacity });
  const hot = way.ambientC > 30 ? ` at ${way.ambientC} °C` : '';
  const wire = `${sizeInWords(size)} ${metal}`;
  const numbers = { ampacityA, ambientC: way.ambientC, neededA, ...(ocpdA !== undefined && { ocpdA }) };
  if (!atTerminals.passes) {
    const message = `${wire} carries ${shown(atTerminals.hasA)} A, and ${shown(neededA)} A are needed.`;
    add('conductor-ampacity', 'stop', message, numbers);
  } else if (!alongTheWay.passes) {
    const message = `${wire} carries ${shown(alongTheWay.hasA)} A${hot}, and ${shown(run.loadA)} A flow through it.`;
    add('conductor-ampacity', 'stop', message, numbers);
  }
  if (ocpdA === undefined) return found;
  const mostA = largestOcpdForConductor({ metal, size, ampacityA });
  const message =
    ocpdA <= mostA
      ? `${wire} may lie behind ${ocpdA} A.`
      : `${wire} carries ${shown(ampacityA)} A${hot} and may lie behind ${mostA} A at most, not ${ocpdA} A: a larger wire, or a smaller breaker.`;
  add('next-size-up', ocpdA <= mostA ? 'ok' : 'stop', message, { ...numbers, mostA });
  return found;
}

const CITES = {
  'standard-ratings': 'standard-ratings',
  'conductor-ampacity': 'conductor-ampacity',
  'next-size-up': 'next-size-up',
} as Partial<Record<string, NonNullable<Parameters<typeof findingOf>[1]['cites']>>>;

/** Fewer amperes for the car than the option asks for are no fault; they are said. */
function settingFindings({ one, description }: OfferedAt, { amps }: Offers): Finding[] {
  const { edition } = description.site.code;
  const askedA = Math.max(0, ...one.plan.option.chargers.map((charger) => charger.amps));
  if (amps === undefined || amps >= askedA) return [];
  return [
    findingOf(edition, {
      rule: 'bid-setting',
      severity: 'caution',
      message: `The bid charges with ${amps} A, and ${askedA} A were asked for.`,
      numbers: { amps, askedA },
    }),
  ];
}

/** Protection that a bid leaves out and the plan has; said where no check of the circuit says it already. */
function groundFaultFindings({ one, description }: OfferedAt, { gfci }: Offers): Finding[] {
  const { edition } = description.site.code;
  const protectedRun = one.plan.runs.find(({ breaker }) => breaker.kind === 'gfci');
  if (gfci !== false || !protectedRun) return [];
  return [
    findingOf(edition, {
      rule: 'bid-ground-fault',
      severity: 'caution',
      message: `The bid has no ground-fault protection, and the plan has it for ${protectedRun.name}: ${protectedRun.breaker.because.join('; ')}.`,
      numbers: {},
      run: protectedRun.name,
    }),
  ];
}

/** The panel that is offered, against what feeds it and what was asked for. NEC 408.36. */
function panelFindings({ one, description }: OfferedAt, { panelA, ocpdA }: Offers, feeder: Run | undefined): Finding[] {
  if (panelA === undefined) return [];
  const { edition } = description.site.code;
  const askedA = one.plan.option.subpanel?.ratingA ?? one.plan.option.serviceUpgrade?.toA;
  const fedA = feeder ? (ocpdA ?? feeder.ocpdA) : undefined;
  if (fedA !== undefined && panelA < fedA) {
    const message = `A panel of ${panelA} A may not be fed by ${fedA} A.`;
    const numbers = { panelA, fedA };
    return [
      findingOf(edition, { rule: 'panel-protection', severity: 'stop', message, numbers, cites: 'panel-protection' }),
    ];
  }
  if (askedA !== undefined && panelA < askedA) {
    const message = `The bid has a panel of ${panelA} A, and ${askedA} A were asked for.`;
    return [findingOf(edition, { rule: 'bid-panel', severity: 'caution', message, numbers: { panelA, askedA } })];
  }
  return [];
}

/** Amperes as people read them. */
const shown = (amps: number) => String(Math.round(amps * 100) / 100);
