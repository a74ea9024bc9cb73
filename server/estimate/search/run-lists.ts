/*
 * The ways of one run over several metals and sizes, in the order of their bound, looked for as far as they are asked for.
 */
import { ABOVE_GRADE_FT } from '../takeoff/way.ts';
import type { Choice, Sized } from './choices.ts';
import { emptyHeap, type Heap, leastRank, pop, push } from './heap.ts';
import type { Layers } from './layers.ts';
import type { OptionModel } from './option-model.ts';
import { once } from './parts.ts';
import { nextCents, type RunWay, takeWay, type Ways, waysThrough } from './paths.ts';
import { endsDelta, type Free, type Ground, NOTHING_FREE, type Search } from './preparing.ts';
import { floorCents, layersOf } from './run-bound.ts';
import { kindsOfWire, leastWireCents, type RunQuestion } from './run-rates.ts';
import type { RunModel } from './run-tally.ts';

/** Ways of one run over several metals and sizes, in the order of their bound, as far as they were asked for. */
export interface RunList {
  taken: RunWay[];
  open: Heap<Opening>;
  /** The least that any of it may cost, known before its layers are. */
  leastCents: number;
}

/** A metal and size of a run, with its ways once somebody asked for them. */
interface Opening {
  run: number;
  sized: Sized;
  ground: Ground;
  free: Free;
  /** Known once it was opened: first what its pieces cost at least, then its ways. */
  layers?: Layers;
  ways?: Ways;
}

/**
 * The way of a list at a place in its order, looked for where nobody asked for it yet; nothing beyond the last one that
 * costs no more than so many cents.
 */
export function wayAt(
  search: Search,
  list: RunList,
  { at, mostCents }: { at: number; mostCents: number },
): RunWay | undefined {
  while (list.taken.length <= at && leastRank(list.open) <= mostCents) {
    const opening = pop(list.open)?.item;
    if (!opening) return undefined;
    const { layers, ways } = opening;
    if (ways) {
      const way = takeWay(ways, mostCents);
      if (way) list.taken.push(way);
      if (Number.isFinite(nextCents(ways))) push(list.open, nextCents(ways), opening);
    } else if (layers) {
      const found = afresh(waysOf(search, opening, layers));
      if (Number.isFinite(nextCents(found))) push(list.open, nextCents(found), { ...opening, ways: found });
    } else {
      const found = layersAt(search, opening);
      push(list.open, floorCents(found), { ...opening, layers: found });
    }
  }
  return list.taken[at];
}

interface RunAsked {
  run: number;
  sized: Sized;
  free: Free;
}

/** Asked once: what `mostAlongFt` finds for a run. */
function mostFtOf(search: Search, run: number, wiring: Choice['wiring']): number {
  return once(search.mostFt, `${run} ${wiring}`, () => {
    const one = search.model.runs[run];
    return one ? mostAlongFt(search.model, one, wiring) : 0;
  });
}

/** Feet that all sections of a wiring take together at most, makeup of two sections included, along one run. */
function mostAlongFt(
  { job, ditches }: OptionModel,
  { space, ditchOf, divisions }: RunModel,
  wiring: Choice['wiring'],
): number {
  const { panelFt, boxFt, outletFt } = job.description.terms.makeup;
  const choices = [...space.choices.values()].flatMap((choice) => (choice?.wiring === wiring ? [choice] : []));
  const at = new Set(choices.map((choice) => choice.at));
  const climbFt = Math.max(0, ...choices.map(({ coverIn }) => coverIn)) / 12 + ABOVE_GRADE_FT;
  const dug = ditches.filter((_, ditch) => [...at].some((piece) => ditchOf[piece] === ditch)).length;
  const alongFt = space.pieces
    .filter((piece) => at.has(piece.at))
    .reduce((sum, { laid: { placed } }) => {
      return sum + (placed ? placed.feet.likely + placed.stated.riseFt : (space.circuit.tail?.lengthFt ?? 0));
    }, 0);
  const endsFt = panelFt + Math.max(panelFt, outletFt) + 4 * boxFt + divisions * (3 * boxFt + outletFt);
  return alongFt + 2 * dug * climbFt + endsFt;
}

/** The layers of one run at one metal and size, looked for once; so are its ways. */
export function layersAt(search: Search, { ground, ...asked }: RunAsked & { ground: Ground }): Layers {
  const known = asked.run < search.model.arriving ? ground.layers : search.branchLayers;
  return once(known, askedText(asked), () => layersOf(questionOf(search, ground, asked)));
}

function waysOf(search: Search, { ground, ...asked }: Opening, layers: Layers): Ways {
  const known = asked.run < search.model.arriving ? ground.ways : search.branchWays;
  return once(known, askedText(asked), () => waysThrough(asked.sized, layers, search));
}

const askedText = ({ run, sized, free }: RunAsked) => `${run} ${sized.order} ${[...free].join()}`;

/** What is asked of a run in a metal and size. */
export function questionOf(search: Search, ground: Ground, { run, sized, free }: RunAsked): RunQuestion {
  const { model, least } = search;
  const single = model.arriving <= 1;
  return {
    ...{ parts: model.parts, least, sized, oneCover: single, rates: search.rates, segments: search.segments },
    model: model.runs[run] as RunModel, // asked for runs that there are
    digCents: single ? ground.bound.digCents : () => 0,
    leastCoverIn: (ditch) => model.ditches[ditch]?.coverIn ?? 0,
    allows: single ? ground.bound.allows : () => true,
    endsCents: (last) => endsDelta(search, { run, sized, last }),
    isFirst: single && run === 0,
    free,
    mostFt: (wiring) => {
      const first = single && run > 0 ? model.arriving : 0;
      const last = single && run === 0 ? 0 : model.runs.length - 1;
      let feet = 0;
      for (let one = first; one <= last; one += 1) feet += mostFtOf(search, one, wiring);
      return feet;
    },
  };
}

function bothOf(some: Free, others: Free): Free {
  const both = [...some].filter((kind) => others.has(kind));
  return both.length > 0 ? new Set(both) : NOTHING_FREE;
}

/** Kinds of conductors that a run may buy in a metal and size. */
export function kindsOf(search: Search, ground: Ground, run: number, sized: Sized): Free {
  return once(search.kinds, `${run} ${sized.order}`, () =>
    kindsOfWire(questionOf(search, ground, { run, sized, free: NOTHING_FREE })),
  );
}

/** The same ways for a list of its own, which takes them one by one. */
function afresh(ways: Ways): Ways {
  return { ...ways, open: { items: [...ways.open.items], pushed: ways.open.pushed } };
}

/** The list of a run's ways over some metals and sizes, nothing of it looked for yet. */
export function listOf(
  search: Search,
  ground: Ground,
  { run, sizes, free }: { run: number; sizes: readonly Sized[]; free: Free },
): RunList {
  const open = emptyHeap<Opening>();
  const openings = sizes.map((sized): { opening: Opening; wireCents: number } => {
    const own = free.size === 0 ? free : bothOf(free, kindsOf(search, ground, run, sized));
    const asked = { run, sized, free: own };
    return { opening: { ...asked, ground }, wireCents: wireCentsOf(search, ground, asked) };
  });
  const besideCents = search.effort === 'compare' ? besideWire(search, openings) : 0;
  for (const { opening, wireCents } of openings) push(open, wireCents + besideCents, opening);
  return { taken: [], open, leastCents: leastRank(open) };
}

/** The layers of a run in a metal and size, for each way to open the ground. */
export function layersOfRun(search: Search, run: number, sized: Sized): Layers[] {
  return search.grounds.map((ground) => layersAt(search, { run, sized, ground, free: NOTHING_FREE }));
}

/**
 * What a run costs beside its wire in the size with the cheapest: larger ones hardly cost less. No bound, but it spares to
 * look at sizes that nobody would take where an option is only compared.
 */
function besideWire(search: Search, openings: readonly { opening: Opening; wireCents: number }[]): number {
  const [first] = [...openings].sort((a, b) => a.wireCents - b.wireCents);
  return first ? Math.max(0, floorCents(layersAt(search, first.opening)) - first.wireCents) : 0;
}

/** What the wire costs at least, and what the end of the run adds. */
function wireCentsOf(search: Search, ground: Ground, asked: RunAsked): number {
  const { run, sized, free } = asked;
  return once(search.wireCents, `${run} ${sized.order} ${[...free].join()}`, () => {
    const question = questionOf(search, ground, asked);
    const ends = (sized.choices.at(-1) ?? []).map(question.endsCents);
    return leastWireCents(question) + Math.min(...ends);
  });
}
