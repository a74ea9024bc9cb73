import { equipmentGroundSize } from '../../electrical/equipment-ground.ts';
import { largerSize, sizeInWords } from '../../electrical/sizes.ts';
import { voltageDrop } from '../../electrical/voltage-drop.ts';
import type { Finding, RunLeg } from '../answer.ts';
import type { PlacedLeg, PlannedRun, Section, Tail } from '../plan-types.ts';
import type { ConductorSize, Metal } from '../vocabulary.ts';
import { type Circuit, circuitFt } from './circuit.ts';
import { racewayFor } from './conduit.ts';
import { cablesOfTooSmallGround, isEnlarged } from './enlarged-ground.ts';
import { findingOf, type Job } from './job.ts';
import { otherMethods, whyHere } from './methods.ts';
import { stretchAmpacityA, sufficientSizes, usualSize, type Wired, wiredAt } from './section.ts';
import { isRaceway, type LaidPiece, type Laying, type Stretch, stretchesOf } from './wiring.ts';

/** A stretch with the smallest size that would do on it, sold or not. */
type SizedStretch = Stretch & { fromSize?: ConductorSize };

/** A circuit with a way to lay it: its stretches and the sizes that all of them can be bought in. */
export interface LaidCircuit {
  circuit: Circuit;
  laying: Laying;
  stretches: SizedStretch[];
  /** One metal and size a run, smallest first; one at least, even where nothing lawful is sold. */
  sizes: [ConductorSize, ...ConductorSize[]];
  /** Why no size is both lawful and sold. */
  problem?: Finding;
}

/** Finds the sizes that carry a circuit over all its stretches and that the book sells for each of them. */
export function layCircuit(job: Job, circuit: Circuit, laying: Laying): LaidCircuit {
  const lists = stretchesOf(circuit, laying, job.route).map((stretch) => {
    const { metal } = stretch.begins ?? laying;
    const enough = sufficientSizes({ circuit, stretch, metal });
    const [fromSize] = enough;
    const of = { circuit, stretch, metal, book: job.book };
    const sold = fromSize ? enough.filter((size) => wiredAt({ ...of, fromSize }, size)) : [];
    return { stretch: { ...stretch, ...(fromSize && { fromSize }) }, enough, sold };
  });
  const stretches = lists.map(({ stretch }) => stretch);
  const common = (kind: 'enough' | 'sold') => {
    const some = lists.map(({ stretch: { begins }, [kind]: sizes }) => ({ begins, sizes }));
    if (some.some(({ begins, sizes }) => begins && !sizes.includes(begins.size))) return [];
    const [first, ...others] = some.filter(({ begins }) => !begins).map(({ sizes }) => sizes);
    return (first ?? []).filter((size) => others.every((sizes) => sizes.includes(size)));
  };
  const [smallest, ...larger] = common('sold');
  const laid = { circuit, laying, stretches };
  if (smallest) return { ...laid, sizes: [smallest, ...larger] };
  const [enough] = common('enough');
  const shown = enough ?? shownSize({ circuit, laying, stretches });
  return { ...laid, sizes: [shown], problem: noSize(job, { circuit, laying, stretches }, enough) };
}

/** The largest of the sizes that the stretches would have cool and alone: what the stop is said of. */
function shownSize({ circuit, laying: { metal }, stretches }: Unsized): ConductorSize {
  const usual = stretches.flatMap((stretch) => usualSize({ circuit, stretch, metal }) ?? []);
  const [first = circuit.largestSize ?? '6', ...others] = usual;
  return others.reduce(largerSize, first);
}

/** Is there no size at all that carries the circuit? Then nothing else of the run can be called right. */
export function isUnsized({ problem }: LaidCircuit): boolean {
  return problem?.rule === 'conductor-too-small';
}

type Unsized = Pick<LaidCircuit, 'circuit' | 'laying' | 'stretches'>;

function noSize(job: Job, { circuit, laying, stretches }: Unsized, enough: ConductorSize | undefined): Finding {
  const wirings = [...new Set(stretches.map(({ wiring }) => wiring))].join(' and ');
  const numbers = { ocpdA: circuit.ocpdA, metal: laying.metal, wiring: wirings };
  const limit = circuit.largestSize
    ? `, no larger than the ${sizeInWords(circuit.largestSize)} that its end takes`
    : '';
  return enough
    ? findingOf(job.edition, {
        rule: 'conductor-not-sold',
        severity: 'stop',
        message:
          `${circuit.ocpdA} A takes ${sizeInWords(enough)} ${laying.metal} as ${wirings}${limit}, or larger, and the price book ` +
          'sells none with a ground that suits. Add it to the price book, or choose another method or metal.',
        numbers: { ...numbers, size: enough },
        run: circuit.name,
      })
    : findingOf(job.edition, {
        rule: 'conductor-too-small',
        severity: 'stop',
        message:
          `No ${laying.metal} conductor as ${wirings}${limit} carries ${circuit.ocpdA} A here. Choose fewer amperes, ` +
          'another method or metal, or a cooler way.',
        cites: 'conductor-ampacity',
        numbers,
        run: circuit.name,
      });
}

/**
 * What the drop over a laid circuit is at a size: at high lengths with stated rises, direct-current resistance, over both
 * parts where it changes. NEC Chapter 9 Table 8.
 */
export function dropAt(
  job: Job,
  { circuit, laying: { metal, begins } }: Pick<LaidCircuit, 'circuit'> & { laying: Pick<Laying, 'metal' | 'begins'> },
  size: ConductorSize,
) {
  const { legs, voltageV, dropA: currentA } = circuit;
  const over = (part: Pick<Circuit, 'legs' | 'tail'>, conductor: { metal: Metal; size: ConductorSize }) => {
    const lengthFt = circuitFt(part, { route: job.route, point: 'high' });
    return voltageDrop({ voltageV, currentA, lengthFt, ...conductor, method: 'dc-resistance' });
  };
  if (!begins) return over(circuit, { metal, size });
  const first = over({ legs: legs.slice(0, begins.pieces) }, begins);
  const rest = over({ ...circuit, legs: legs.slice(begins.pieces) }, { metal, size });
  return { dropV: first.dropV + rest.dropV, percent: first.percent + rest.percent };
}

/** The run of a laid circuit at one of its sizes, and what is wrong with it. */
export function runAt(job: Job, laid: LaidCircuit, size: ConductorSize): { run: PlannedRun; findings: Finding[] } {
  const { circuit, laying, stretches } = laid;
  const built = stretches.map((stretch) => sectionOf(job, laid, stretch, size));
  const pieces = built.flatMap(({ section }, at) =>
    (stretches[at]?.pieces ?? []).map((piece) => {
      const enlarged = isEnlarged(section, stretches[at]?.fromSize);
      return { piece, ...pieceOf({ job, circuit, section, enlarged }, piece) };
    }),
  );
  const sections = built.map(({ section }) => section);
  const ampacityA = leastAmpacityA(
    laid,
    stretches.filter(({ begins }) => !begins),
    size,
  );
  const { dropV, percent } = dropAt(job, laid, size);
  const last = pieces.at(-1);
  const tail = circuit.tail && last && !last.piece.placed ? tailOf(circuit.tail, last) : undefined;
  const run: PlannedRun = {
    ...shownOf(circuit),
    ...lengthsOf(job, circuit),
    conductor: { metal: laying.metal, size, ampacityA },
    ...changeOf(laid, sections),
    ...(circuit.neutral && { neutralSize: size }),
    groundSize: sections.map(({ groundSize }) => groundSize).reduce(largerSize),
    terminations: terminationsOf(circuit, sections),
    legs: pieces.flatMap(({ leg }) => leg ?? []),
    dropPercent: round(percent),
    dropV: round(dropV),
    sections,
    ...(tail && { tail }),
    chargers: circuit.chargers,
    ...(circuit.otherUse !== undefined && { otherUse: circuit.otherUse }),
  };
  const findings = [
    ...(laid.problem ? [laid.problem] : []),
    ...built.flatMap(({ note }) => note ?? []),
    ...pieces.flatMap(({ problem }) => problem ?? []),
  ];
  return { run, findings };
}

/** The least ampacity of some stretches, in amperes, at the size that a run ends in; before its change, at that one's. */
function leastAmpacityA({ circuit, laying }: LaidCircuit, stretches: readonly Stretch[], size: ConductorSize): number {
  return Math.min(
    ...stretches.map((stretch) => {
      const { metal } = stretch.begins ?? laying;
      return stretchAmpacityA({ circuit, stretch, metal }, stretch.begins?.size ?? size);
    }),
  );
}

/** What a run begins as that changes its metal or size on its way. */
function changeOf(laid: LaidCircuit, sections: readonly Section[]): Pick<PlannedRun, 'begins'> {
  const { begins } = laid.laying;
  if (!begins) return {};
  const before = laid.stretches.filter((stretch) => stretch.begins);
  const { metal, size } = begins;
  return {
    begins: {
      conductor: { metal, size, ampacityA: leastAmpacityA(laid, before, size) },
      until: spliceName(before.length),
      legs: sections.slice(0, before.length).flatMap(({ legs }) => legs),
    },
  };
}

/** What an answer prints of the circuit itself. */
function shownOf({ name, role, from, to, loadA, continuousA, ocpdA, poles, breaker, ...circuit }: Circuit) {
  const { neutral, separateNeutral, disconnect } = circuit;
  return {
    name,
    role,
    from,
    to,
    loadA,
    continuousA,
    ocpdA,
    poles,
    breaker,
    neutral,
    separateNeutral,
    ...(disconnect && { disconnect }),
  };
}

function lengthsOf(job: Job, circuit: Circuit): Pick<PlannedRun, 'lengthFt' | 'lengthRangeFt'> {
  const at = (point: 'low' | 'likely' | 'high') => circuitFt(circuit, { route: job.route, point });
  const [low, lengthFt, high] = [at('low'), at('likely'), at('high')];
  return { lengthFt, ...(low !== high && { lengthRangeFt: { low, high } }) };
}

interface BuiltSection {
  section: Section;
  note?: Finding;
}

function sectionOf(job: Job, laid: LaidCircuit, stretch: SizedStretch, size: ConductorSize): BuiltSection {
  const { circuit, laying } = laid;
  const { metal } = stretch.begins ?? laying;
  const own = stretch.begins?.size ?? size;
  const { fromSize = own } = stretch;
  const wired =
    wiredAt({ circuit, stretch, metal, book: job.book, fromSize }, own) ?? asIfSold(circuit, { stretch, metal }, own);
  const { spare, ...shown } = wired;
  const section: Section = {
    ...shown,
    metal,
    ...(circuit.neutral && { neutralSize: own }),
    legs: stretch.pieces.flatMap(({ placed }) => (placed ? [placed.leg] : [])),
    tail: stretch.pieces.some(({ placed }) => !placed),
  };
  return spare ? { section, note: spareNote(job, circuit, section) } : { section };
}

function spareNote(job: Job, { name }: Circuit, { cable, size }: Section): Finding {
  return findingOf(job.edition, {
    rule: 'unused-conductor',
    severity: 'note',
    message: `${cable?.form} ${size}/2 is not sold: ${size}/3 is taken, its third conductor capped at both ends.`,
    numbers: { size, form: cable?.form ?? '' },
    run: name,
  });
}

/** A section that nobody sells, so that an option that may not be built still shows what it would take. */
function asIfSold(
  circuit: Circuit,
  { stretch: { wiring }, metal }: { stretch: Stretch; metal: Metal },
  size: ConductorSize,
): Wired {
  const ground = { size, groundSize: equipmentGroundSize({ ocpdA: circuit.ocpdA, metal }), groundMetal: metal };
  if (wiring === 'singles') return { ...ground, insulation: metal === 'copper' ? 'thwn-2' : 'xhhw-2', spare: false };
  if (wiring === 'use-2') return { ...ground, insulation: 'use-2', spare: false };
  const conductors = circuit.neutral && circuit.poles === 2 ? 3 : 2;
  return { ...ground, insulation: wiring, cable: { form: wiring, conductors }, spare: false };
}

interface BuiltPiece {
  leg?: RunLeg;
  insulation: Section['insulation'];
  conduit?: RunLeg['conduit'];
  because: string[];
  problem?: Finding;
}

function pieceOf(
  { job, circuit, section, enlarged }: { job: Job; circuit: Circuit; section: Section; enlarged: boolean },
  piece: LaidPiece,
): BuiltPiece {
  const { insulation } = section;
  const raceway = isRaceway(piece.method) ? racewayFor(job, circuit, section, piece) : undefined;
  const because = whyHere(job, circuit, piece);
  const shown = { insulation, ...(raceway?.conduit && { conduit: raceway.conduit }), because };
  const { placed, method } = piece;
  const othersAlong = (leg: PlacedLeg) => {
    const barred = enlarged ? cablesOfTooSmallGround(job, circuit, section, leg) : [];
    return otherMethods(job, { placed: leg, taken: method, barred });
  };
  return {
    ...shown,
    ...(placed && { leg: { leg: placed.leg, method, ...shown, others: othersAlong(placed) } }),
    ...(raceway?.problem && { problem: raceway.problem }),
  };
}

function tailOf(
  { lengthFt, place, because }: NonNullable<Circuit['tail']>,
  last: BuiltPiece & { piece: LaidPiece },
): Tail {
  const { insulation, conduit } = last;
  return {
    lengthFt,
    place,
    method: last.piece.method,
    insulation,
    ...(conduit && { conduit }),
    because: [...because, ...last.because],
  };
}

const spliceName = (number: number) => `splice ${number}`;

/** What lands where: both ends, and each splice between two sections, by what goes on from it. */
function terminationsOf({ from, to }: Circuit, sections: readonly Section[]): PlannedRun['terminations'] {
  const splices = sections.slice(1).map((_, at) => spliceName(at + 1));
  return [from, ...splices, to].map((at, order) => {
    const { metal, size } = sections[Math.min(order, sections.length - 1)] as Section; // one section at least
    const met = sections.slice(Math.max(0, order - 1), order + 1);
    return { at, metal, size, compound: met.some((section) => section.metal === 'aluminum') };
  });
}

/** Results carry four decimals. */
function round(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}
