import { smallestConductor } from '../../electrical/conductor.ts';
import { equipmentGroundSize } from '../../electrical/equipment-ground.ts';
import { BeyondTableError } from '../../electrical/errors.ts';
import { nextStandardOcpdA } from '../../electrical/overcurrent.ts';
import type { Finding, RunLeg } from '../answer.ts';
import type { EmptyRaceway, PlacedLeg, PlannedRun, Section } from '../plan-types.ts';
import type { TradeSize, WiringMethod } from '../vocabulary.ts';
import type { Circuit } from './circuit.ts';
import { racewayFor } from './conduit.ts';
import { findingOf, type Job } from './job.ts';
import { allowedAt, isClosed, type Setting, settingOf } from './methods.ts';

type RacewayMethod = 'pvc' | 'emt' | 'rmc';

/** Raceways by the setting of a place, in order of preference; on a span in the air there is none. */
const METHODS: Record<Setting, readonly RacewayMethod[]> = {
  concealed: ['emt', 'rmc'],
  exposed: ['emt', 'rmc'],
  outdoors: ['pvc', 'rmc'],
  ground: ['pvc', 'rmc'],
  span: [],
};
const TYPE_OF = { pvc: 'pvc-40', emt: 'emt', rmc: 'rmc' } as const;

/** A leg that an empty raceway goes along, with its method. */
interface EmptyLeg {
  placed: PlacedLeg;
  method: RacewayMethod;
}

/** Empty raceways that go along with the option's own runs, and what is to be said of them. */
export interface EmptyRaceways {
  raceways: EmptyRaceway[];
  findings: Finding[];
}

/** The spare raceway for a later feeder, and the raceway for data, over the whole route: in the same ditch, each capped. */
export function emptyRacewaysOf(job: Job): EmptyRaceways {
  const { spareConduit, dataConduit, feed } = job.option;
  if (!spareConduit && !dataConduit) return { raceways: [], findings: [] };
  if (feed === 'existing-receptacle') {
    const message = 'No empty raceway is planned where nothing is built: choose a circuit or a subpanel.';
    return {
      raceways: [],
      findings: [findingOf(job.edition, { rule: 'empty-raceway', severity: 'caution', message })],
    };
  }
  const legs = job.route.flatMap((placed): EmptyLeg[] => {
    const method = methodAt(job, placed);
    return method ? [{ placed, method }] : [];
  });
  const spare = spareConduit ? spareOf(job, legs, spareConduit.toA) : { raceways: [], findings: [] };
  const data = dataConduit ? dataOf(job, legs, dataConduit.tradeSize) : { raceways: [], findings: [] };
  return {
    raceways: [...spare.raceways, ...data.raceways],
    findings: [...legFindings(job), ...spare.findings, ...data.findings],
  };
}

function methodAt(job: Job, placed: PlacedLeg): RacewayMethod | undefined {
  if (placed.stated.kind === 'existing-raceway') return undefined;
  return METHODS[settingOf(placed.place)].find(
    (method) => allowedAt(job, placed, method satisfies WiringMethod).allowed,
  );
}

/** Legs that an empty raceway cannot go along, or only with more trouble than the circuit beside it. */
function legFindings(job: Job): Finding[] {
  const said = (placed: PlacedLeg, message: string) =>
    findingOf(job.edition, { rule: 'empty-raceway', severity: 'caution', message, leg: placed.leg });
  return job.route.flatMap((placed) => {
    const { kind } = placed.stated;
    if (!methodAt(job, placed)) {
      return said(placed, `No empty raceway is planned along this leg (${kind}): it is interrupted here.`);
    }
    if (isClosed(job, placed)) {
      return said(
        placed,
        'An empty raceway does not go through closed framing: the finish is opened along this leg and patched.',
      );
    }
    return kind === 'bore'
      ? said(placed, 'The bore is made wide enough for all that goes through it: say so when it is ordered.')
      : [];
  });
}

/** A feeder as the circuit that raceways are sized for. */
function laterFeeder(job: Job, legs: readonly EmptyLeg[], ocpdA: number): Circuit {
  return {
    name: 'spare conduit',
    role: 'feeder',
    from: job.start,
    to: 'spare conduit',
    poles: 2,
    voltageV: 240,
    loadA: ocpdA,
    continuousA: 0,
    dropA: ocpdA,
    ocpdA,
    neutral: true,
    separateNeutral: true,
    breaker: { ocpdA, poles: 2, spaces: 2, kind: 'standard', because: [`a later feeder of ${ocpdA} A`] },
    metals: ['copper'],
    terminalsC: job.terminalsC,
    severalReceptacles: false,
    legs: legs.map(({ placed }) => placed.leg),
    chargers: [],
  };
}

/** Copper THWN-2 for a feeder of so many amperes through the hottest leg. NEC Table 310.16, 250.122; nothing beyond the tables. */
function feederSection(
  job: Job,
  legs: readonly EmptyLeg[],
  ocpdA: number,
): { section: Section; ampacityA: number } | undefined {
  try {
    const { size, ampacityA } = smallestConductor({
      loadA: ocpdA,
      continuous: false,
      ocpdA,
      metal: 'copper',
      insulation: 'thwn-2',
      terminalsC: job.terminalsC,
      ambientC: Math.max(30, ...legs.map(({ placed }) => placed.ambientC)),
      currentCarrying: 3,
      supplies: 'feeder',
      edition: job.edition,
    });
    const groundSize = equipmentGroundSize({ ocpdA, metal: 'copper' });
    const indices = legs.map(({ placed }) => placed.leg);
    const section: Section = {
      insulation: 'thwn-2',
      metal: 'copper',
      size,
      groundSize,
      groundMetal: 'copper',
      legs: indices,
      tail: false,
    };
    return { section, ampacityA };
  } catch (error) {
    if (error instanceof BeyondTableError) return undefined;
    throw error;
  }
}

function spareOf(job: Job, legs: readonly EmptyLeg[], toA: number): EmptyRaceways {
  const ocpdA = nextStandardOcpdA(toA);
  const circuit = laterFeeder(job, legs, ocpdA);
  const found = feederSection(job, legs, ocpdA);
  if (!found || legs.length === 0) {
    const known = { rule: 'spare-conduit', severity: 'stop', numbers: { toA } } as const;
    const noLeg =
      'No leg of this route takes a second raceway, so there is nothing to keep for a later feeder. Leave the spare conduit out.';
    const noSize = `No copper conductor in a raceway carries a later feeder of ${toA} A along this route. Ask for fewer amperes.`;
    const finding =
      legs.length === 0
        ? findingOf(job.edition, { ...known, message: noLeg })
        : findingOf(job.edition, { ...known, message: noSize, cites: 'conductor-ampacity' });
    return { raceways: [], findings: [finding] };
  }
  const { section, ampacityA } = found;
  const sized = legs.map((leg) => ({ leg, raceway: racewayFor(job, circuit, section, leg) }));
  const conductor = { metal: section.metal, size: section.size, ampacityA };
  const run = emptyRun(job, circuit, {
    sections: [section],
    conductor,
    groundSize: section.groundSize,
    legs: sized.map(({ leg, raceway }) => emptyLeg(leg, raceway.conduit)),
  });
  const message = `A second, empty raceway for a later feeder of ${ocpdA} A in copper (${section.size}), capped at both ends. Its voltage drop is judged when it is used.`;
  const numbers = { toA, ocpdA, size: section.size };
  const note = findingOf(job.edition, {
    rule: 'spare-conduit',
    severity: 'note',
    message,
    cites: 'conduit-fill',
    numbers,
  });
  return {
    raceways: [{ use: 'spare', run, outdoors: endsOutdoors(job) }],
    findings: [note, ...sized.flatMap(({ raceway }) => raceway.problem ?? [])],
  };
}

function dataOf(job: Job, legs: readonly EmptyLeg[], tradeSize: TradeSize): EmptyRaceways {
  const circuit: Circuit = {
    ...laterFeeder(job, legs, 15),
    name: 'data conduit',
    to: 'data conduit',
    poles: 1,
    neutral: false,
  };
  const run = emptyRun(job, circuit, {
    sections: [],
    conductor: { metal: 'copper', size: '14', ampacityA: 0 },
    groundSize: '14',
    legs: legs.map((leg) => emptyLeg(leg, { type: TYPE_OF[leg.method], tradeSize, fillPercent: 0 })),
  });
  const message = `A raceway of ${tradeSize} in for data lies beside the power: no power conductor ever goes into it.`;
  const numbers = { tradeSize };
  return {
    raceways: [{ use: 'data', run, outdoors: endsOutdoors(job) }],
    findings: [
      findingOf(job.edition, { rule: 'data-conduit', severity: 'note', message, cites: 'signal-separation', numbers }),
    ],
  };
}

function emptyLeg({ placed, method }: EmptyLeg, conduit: RunLeg['conduit']): RunLeg {
  const because = ['empty for now, with a pull line'];
  return { leg: placed.leg, method, insulation: 'thwn-2', ...(conduit && { conduit }), because, others: [] };
}

/** Does the raceway end out of doors: at an outdoor panel, or where chargers hang outside? */
function endsOutdoors({ option, description }: Job): boolean {
  if (option.subpanel) return option.subpanel.enclosure === 'outdoor';
  return option.chargers.some(({ outdoors }) => outdoors) || description.site.building === 'outdoor';
}

type RunParts = Pick<PlannedRun, 'sections' | 'conductor' | 'groundSize' | 'legs'>;

function emptyRun(job: Job, circuit: Circuit, parts: RunParts): PlannedRun {
  const { name, from, to, poles, loadA, continuousA, ocpdA, neutral, separateNeutral, breaker } = circuit;
  const lengthFt = parts.legs.reduce((sum, { leg }) => sum + (job.route[leg]?.feet.likely ?? 0), 0);
  const ends = parts.sections.length > 0 ? [from, to] : [];
  return {
    ...{ name, role: 'branch-circuit', from, to, lengthFt, loadA, continuousA, ocpdA, poles },
    ...{ breaker, neutral, separateNeutral, dropPercent: 0, dropV: 0, chargers: [] },
    terminations: ends.map((at) => ({ at, metal: 'copper', size: parts.conductor.size, compound: false })),
    ...parts,
  };
}
