import { equipmentGroundSize } from '../../electrical/equipment-ground.ts';
import { largerSize, sizeInWords } from '../../electrical/sizes.ts';
import { voltageDrop } from '../../electrical/voltage-drop.ts';
import type { Finding, RunLeg } from '../answer.ts';
import type { PlannedRun, Section, Tail } from '../plan-types.ts';
import type { ConductorSize } from '../vocabulary.ts';
import { type Circuit, circuitFt } from './circuit.ts';
import { racewayFor } from './conduit.ts';
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
  const { metal } = laying;
  const lists = stretchesOf(circuit, laying, job.route).map((stretch) => {
    const enough = sufficientSizes({ circuit, stretch, metal });
    const [fromSize] = enough;
    const of = { circuit, stretch, metal, book: job.book };
    const sold = fromSize ? enough.filter((size) => wiredAt({ ...of, fromSize }, size)) : [];
    return { stretch: { ...stretch, ...(fromSize && { fromSize }) }, enough, sold };
  });
  const stretches = lists.map(({ stretch }) => stretch);
  const common = (kind: 'enough' | 'sold') =>
    (lists[0]?.[kind] ?? []).filter((size) => lists.every((list) => list[kind].includes(size)));
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

/** What the drop over a laid circuit is at a size: at high lengths with stated rises, direct-current resistance. NEC Chapter 9 Table 8. */
export function dropAt(
  job: Job,
  { circuit, laying }: Pick<LaidCircuit, 'circuit'> & { laying: Pick<Laying, 'metal'> },
  size: ConductorSize,
) {
  const lengthFt = circuitFt(circuit, { route: job.route, point: 'high' });
  const { dropV, percent } = voltageDrop({
    voltageV: circuit.voltageV,
    currentA: circuit.dropA,
    lengthFt,
    metal: laying.metal,
    size,
    method: 'dc-resistance',
  });
  return { dropV, percent };
}

/** The run of a laid circuit at one of its sizes, and what is wrong with it. */
export function runAt(job: Job, laid: LaidCircuit, size: ConductorSize): { run: PlannedRun; findings: Finding[] } {
  const { circuit, laying, stretches } = laid;
  const built = stretches.map((stretch) => sectionOf(job, laid, stretch, size));
  const pieces = built.flatMap(({ section }, at) =>
    (stretches[at]?.pieces ?? []).map((piece) => ({ piece, ...pieceOf(job, circuit, section, piece) })),
  );
  const sections = built.map(({ section }) => section);
  const ampacityA = Math.min(
    ...stretches.map((stretch) => stretchAmpacityA({ circuit, stretch, metal: laying.metal }, size)),
  );
  const { dropV, percent } = dropAt(job, laid, size);
  const last = pieces.at(-1);
  const tail = circuit.tail && last && !last.piece.placed ? tailOf(circuit.tail, last) : undefined;
  const run: PlannedRun = {
    ...shownOf(circuit),
    ...lengthsOf(job, circuit),
    conductor: { metal: laying.metal, size, ampacityA },
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
  const of = { circuit, stretch, metal: laying.metal };
  const { fromSize = size } = stretch;
  const wired = wiredAt({ ...of, book: job.book, fromSize }, size) ?? asIfSold(laid, stretch, size);
  const { spare, ...shown } = wired;
  const section: Section = {
    ...shown,
    metal: laying.metal,
    ...(circuit.neutral && { neutralSize: size }),
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
function asIfSold({ circuit, laying }: LaidCircuit, { wiring }: Stretch, size: ConductorSize): Wired {
  const { metal } = laying;
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

function pieceOf(job: Job, circuit: Circuit, section: Section, piece: LaidPiece): BuiltPiece {
  const { insulation } = section;
  const raceway = isRaceway(piece.method) ? racewayFor(job, circuit, section, piece) : undefined;
  const because = whyHere(job, circuit, piece);
  const shown = { insulation, ...(raceway?.conduit && { conduit: raceway.conduit }), because };
  const { placed, method } = piece;
  return {
    ...shown,
    ...(placed && { leg: { leg: placed.leg, method, ...shown, others: otherMethods(job, placed, method) } }),
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

/** What lands where: both ends, and each splice between two sections. */
function terminationsOf({ from, to }: Circuit, sections: readonly Section[]): PlannedRun['terminations'] {
  const splices = sections.slice(1).map((_, at) => `splice ${at + 1}`);
  return [from, ...splices, to].map((at, order) => {
    const { metal, size } = sections[Math.min(order, sections.length - 1)] as Section; // one section at least
    return { at, metal, size, compound: metal === 'aluminum' };
  });
}

/** Results carry four decimals. */
function round(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}
