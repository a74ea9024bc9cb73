import { sizeInWords } from '../../electrical/sizes.ts';
import type { Run } from '../answer.ts';
import { toFourDecimals } from '../money.ts';
import type { MaterialDemand, PlannedOption, Section } from '../plan-types.ts';
import type { Spec } from '../price-book.ts';
import type { ConductorSize, Metal } from '../vocabulary.ts';
import { counted, type Demands, joined, shown, withWaste, work } from './demand.ts';
import { pullFactors } from './factors.ts';
import { isUpTo, workClass } from './sizes.ts';
import { legsOf, risersAt, type Stretch, verticalInWords, verticalsFt, type Way } from './way.ts';

type Wire = Run['wire'][number];
type Makeup = PlannedOption['description']['terms']['makeup'];

/** Conductors of one kind in a section, or the cable that holds them all. */
interface Strand {
  use: Wire['use'];
  metal: Metal;
  size: ConductorSize;
  insulation: string;
  count: number;
  spec: Spec;
  words: string;
}

/** A section as it is cut: its length in feet, and that length as it is read aloud. */
export interface Cut {
  section: Section;
  stretches: Stretch[];
  cutLengthFt: number;
  words: string;
}

const FORM_NAMES = { 'nm-b': 'NM-B', 'uf-b': 'UF-B', ser: 'SER', mhf: 'Direct-burial quadruplex' } as const;
const INSULATION_NAMES: Record<string, string> = {
  'thwn-2': 'THWN-2',
  'xhhw-2': 'XHHW-2',
  'use-2': 'USE-2',
  bare: 'Bare',
};

/**
 * The wire list of a run: every cable and conductor with the length it is cut to at likely lengths: legs, rises, the
 * climb out of the ground at each end of a ditch, the way to the outlet, and makeup in panels and boxes. Feet.
 */
export function wireList(way: Way, cuts: readonly Cut[]): Run['wire'] {
  return cuts.flatMap(({ section, cutLengthFt }) =>
    strandsOf(way, section).map(({ use, metal, size, insulation, count }) => ({
      use,
      metal,
      size,
      insulation,
      count,
      cutLengthFt,
      legs: section.legs,
    })),
  );
}

/** What the wire list takes from the shop: a piece a cable and a piece a conductor, with waste; no piece is spliced. */
export function wireDemands(way: Way, cuts: readonly Cut[], { wastePercent: waste }: Makeup): Demands {
  const materials = cuts.flatMap((cut) => {
    const { section, cutLengthFt, words } = cut;
    return strandsOf(way, section).map((strand): MaterialDemand => {
      const wastePercent = waste[strand.use === 'cable' ? 'cable' : 'conductor'];
      const piece = withWaste(cutLengthFt, wastePercent);
      const times = strand.count > 1 ? `${strand.count} conductors of ` : '';
      return {
        spec: strand.spec,
        description: strand.words,
        class: 'material',
        scope: 'wire',
        unit: 'ft',
        pieces: Array.from({ length: strand.count }, () => piece),
        legs: [...section.legs],
        because: [`${times}${words}, ${shown(wastePercent)} % waste`, ...greenWords(strand)],
      };
    });
  });
  return { materials, tasks: [] };
}

/** An insulated ground up to 6 AWG is green from end to end; only a larger one may be marked with tape. NEC 250.119(A). */
function greenWords({ use, insulation, size }: Strand): string[] {
  const isGreen = use === 'ground' && insulation !== 'bare' && isUpTo(size, '6');
  return isGreen ? ['green over its whole length'] : [];
}

/** The sections of a run with the length that each is cut to. */
export function cutsOf(way: Way, makeup: Makeup): Cut[] {
  return way.run.sections.flatMap((section) => {
    const indices = way.stretches.flatMap((stretch, at) => (stretch.section === section ? [at] : []));
    return indices.length > 0 ? [cutOf({ way, section, indices, makeup })] : [];
  });
}

function cutOf({
  way,
  section,
  indices,
  makeup,
}: {
  way: Way;
  section: Section;
  indices: number[];
  makeup: Makeup;
}): Cut {
  const stretches = indices.flatMap((at) => way.stretches[at] ?? []);
  const alongFt = stretches.reduce((sum, { lengthFt, riseFt }) => sum + lengthFt + riseFt, 0);
  const upFt = indices.reduce((sum, at) => sum + verticalsFt(way, at), 0);
  const makeupFt = makeupOf({ way, indices, makeup });
  const verticals = way.spans.flatMap((span) => {
    const ends = [span.from, span.to].filter((at) => indices.includes(at)).length;
    return ends > 0 ? [`${ends} × ${verticalInWords(span)}`] : [];
  });
  const legWords = stretches.filter(({ leg }) => leg !== undefined).map(({ words }) => words);
  const tailWords = stretches.filter(({ leg }) => leg === undefined).map(({ words }) => words);
  const makeupWords = makeupFt > 0 ? [`${shown(makeupFt)} ft makeup`] : [];
  return {
    section,
    stretches,
    cutLengthFt: toFourDecimals(alongFt + upFt + makeupFt),
    words: [...legWords, ...verticals, ...tailWords, ...makeupWords].join(' + '),
  };
}

/**
 * Feet to spare at both ends of a section: in a panel, in a box, at the outlet; on both sides of a switch; and where the
 * circuit divides, three ends in a box and one at the charger that stands there.
 */
function makeupOf({ way, indices, makeup }: { way: Way; indices: number[]; makeup: Makeup }): number {
  const { run, stretches } = way;
  const startFt = indices.includes(0) ? makeup.panelFt : makeup.boxFt;
  const isLast = indices.includes(stretches.length - 1);
  const endFt = !isLast ? makeup.boxFt : run.role === 'feeder' ? makeup.panelFt : makeup.outletFt;
  const switchFt = isLast && run.disconnect?.kind === 'non-fused-switch' ? 2 * makeup.boxFt : 0;
  const divideFt = isLast ? way.divisions * (3 * makeup.boxFt + makeup.outletFt) : 0;
  return startFt + endFt + switchFt + divideFt;
}

/** How many conductors of each kind a run has: ungrounded by its poles, a neutral where it needs one, a ground. */
export function conductorCounts({ run }: Way): { ungrounded: number; neutral: number; ground: number } {
  return { ungrounded: run.poles, neutral: run.neutral ? 1 : 0, ground: 1 };
}

function strandsOf(way: Way, section: Section): Strand[] {
  const { cable, metal, size, insulation } = section;
  if (cable) {
    const { form, conductors } = cable;
    const spec: Spec = { is: 'cable', form, metal, size, conductors };
    return [
      {
        use: 'cable',
        metal,
        size,
        insulation,
        count: 1,
        spec,
        words: `${FORM_NAMES[form]} ${size}/${conductors}, ${metal}`,
      },
    ];
  }
  const counts = conductorCounts(way);
  const ungrounded = { use: 'ungrounded' as const, metal, size, insulation };
  const neutral = { use: 'neutral' as const, metal, size: section.neutralSize ?? size, insulation };
  const ground = {
    use: 'ground' as const,
    metal: section.groundMetal,
    size: section.groundSize,
    insulation: groundInsulation(section),
  };
  return [ungrounded, neutral, ground].flatMap((strand) => {
    const count = counts[strand.use];
    return count > 0 ? [{ count, ...soldAs(strand), ...strand }] : [];
  });
}

/** A single conductor as the shop sells it. */
function soldAs({
  use,
  insulation,
  metal,
  size,
}: {
  use: Wire['use'];
  insulation: string;
  metal: Metal;
  size: ConductorSize;
}) {
  const sold = singleInsulation(insulation);
  const spec: Spec = { is: 'conductor', insulation: sold, metal, size };
  return { spec, words: `${INSULATION_NAMES[sold] ?? sold} ${size}, ${metal}, ${use} conductor` };
}

type SingleInsulation = Extract<Spec, { is: 'conductor' }>['insulation'];

/** A section without a cable has one of the insulations that single conductors are sold with. */
function singleInsulation(insulation: string): SingleInsulation {
  return insulation === 'xhhw-2' || insulation === 'use-2' || insulation === 'bare' ? insulation : 'thwn-2';
}

/**
 * What the ground is insulated with. A copper ground beside aluminum conductors is THWN-2 in a raceway and bare in the
 * earth; aluminum may not lie bare there (NEC 250.120(B)), so it is as the others.
 */
function groundInsulation({ insulation, metal, groundMetal }: Section): SingleInsulation {
  if (groundMetal === metal || groundMetal === 'aluminum') return singleInsulation(insulation);
  return insulation === 'use-2' ? 'bare' : 'thwn-2';
}

/** Feet of a section that lie in raceway, with their climbs out of the ground. */
function racewayFtOf(way: Way, section: Section): { ft: number; stretches: Stretch[] } {
  const inside = way.stretches.flatMap((stretch, at) =>
    stretch.section === section && (stretch.conduit || stretch.existing) ? [{ stretch, at }] : [],
  );
  const ft = inside.reduce((sum, { stretch, at }) => sum + stretch.lengthFt + stretch.riseFt + verticalsFt(way, at), 0);
  return { ft, stretches: inside.map(({ stretch }) => stretch) };
}

/** The labor of pulling conductors into raceway, conductor-foot by conductor-foot, grouped by size. */
export function pullTasks(plan: PlannedOption, way: Way): Demands {
  return joined(way.run.sections.map((section) => pullsOf(plan, way, section)));
}

/** Pulling the conductors of one section through all its raceway. */
export function pullsOf(plan: PlannedOption, way: Way, section: Section): Demands {
  const { ft, stretches } = racewayFtOf(way, section);
  if (ft <= 0) return joined([]);
  const risers = stretches.reduce((sum, stretch) => sum + risersAt(way, way.stretches.indexOf(stretch)), 0);
  const climbs = risers > 0 ? `, ${counted(risers, 'climb')} out of the ground included` : '';
  return joined(
    strandsOf(way, section).map((strand) => {
      // A cable of several conductors is as hard to pull as its conductors one by one.
      const count = strand.use === 'cable' ? (section.cable?.conductors ?? 2) + 1 : strand.count;
      return work({
        task: `pull-${workClass(strand.size)}`,
        scope: 'wire',
        unit: 'ft of one conductor',
        quantity: ft * count,
        factors: pullFactors(plan, strand.size),
        legs: legsOf(stretches),
        because: `${counted(count, 'conductor')} of ${sizeInWords(strand.size)} ${strand.metal} × ${shown(ft)} ft of raceway${climbs}`,
      });
    }),
  );
}

/**
 * The labor of landing the conductors at the start of a run that the breaker does not take: neutral and ground. What
 * lands at the breaker and at the run's end is part of the tasks that mount those.
 */
export function startTerminations(way: Way): Demands {
  const first = way.stretches[0]?.section ?? way.run.sections[0];
  if (!first) return { materials: [], tasks: [] };
  const neutral = way.run.neutral ? [first.neutralSize ?? first.size] : [];
  return joined(
    [...neutral, first.groundSize].map((size, at) =>
      work({
        task: `terminate-${workClass(size)}`,
        scope: 'wire',
        unit: 'termination',
        quantity: 1,
        legs: legsOf(way.stretches.slice(0, 1)),
        because: `${at < neutral.length ? 'neutral' : 'ground'} of ${way.run.name}, ${sizeInWords(size)}, landed in the ${way.run.from}`,
      }),
    ),
  );
}
