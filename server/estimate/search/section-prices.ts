/*
 * What the conductors of the sections of a run cost at least, by the pieces that they go from and to.
 */
import { type Layers, type Node, type Stretch, wiringsOf } from './layers.ts';
import { once } from './parts.ts';
import { ratesOf, type Tools } from './run-rates.ts';
import { loneCents, piecesCents, pooledLines, pooledPerFt, type SectionWire } from './section-wire.ts';

/** What the sections of a run cost: each alone, or cut from the coils of others. */
export function sectionPrices(
  tools: Tools,
  nodes: readonly Node[][],
): Omit<Layers, 'nodes' | 'changesAt' | 'step' | 'startCents' | 'endCents' | 'bends' | 'opening' | 'closing'> {
  const { least, isFirst, free, mostFt, model, sized } = tools.question;
  const wirings = wiringsOf(sized);
  const wires: (SectionWire | undefined)[] = [];
  const feet = wirings.map(() => new Float64Array(nodes.length));
  nodes.forEach((some, piece) => {
    for (const { wiring, choice, wireFt } of some) {
      wires[wiring] ??= ratesOf(tools, choice).wire;
      const along = feet[wiring];
      if (along) along[piece] = Math.min(along[piece] || Number.POSITIVE_INFINITY, wireFt);
    }
  });
  const kinds = wires.flatMap((wire) => wire?.map(({ kind }) => kind) ?? []);
  const shared = new Set(kinds.filter((kind, at) => kinds.indexOf(kind) !== at));
  const before = feet.map(sumsBefore);
  const alongFt = (wiring: number, from: number, to: number) =>
    (before[wiring]?.[to + 1] ?? 0) - (before[wiring]?.[from] ?? 0);
  const hasEnds = model.places.length > 0;
  const makeupFt = (from: number, to: number) => {
    if (!hasEnds) return 0;
    return (from === 0 ? startFt(tools) : boxFt(tools)) + (to === nodes.length - 1 ? endFt(tools) : boxFt(tools));
  };
  const lines = wirings.map((wiring, at) =>
    pooledLines(least, wires[at] ?? [], { mostFt: mostFt(wiring), free, isFirst }),
  );
  const perFt = wirings.map((_, at) => pooledPerFt(wires[at] ?? [], free));
  const known = new Map<number, number>();
  const pooled = new Map<number, number>();
  const beyond = new Map<string, number>();
  const beyondLineAtLast = (wiring: number, line: number, sections: readonly Stretch[]) =>
    once(beyond, `${wiring} ${line} ${sections.map(({ from, to }) => `${from}-${to}`).join()}`, () => {
      const { main, mainCents, fixedCents } = lines[wiring]?.[line] ?? {};
      if (!main || !mainCents || !isFirst || shared.has(main.kind)) return 0;
      const lengths = sections.map(({ from, to }) => alongFt(wiring, from, to) + makeupFt(from, to));
      const byLine = lengths.reduce((sum, ft) => sum + mainCents(ft), fixedCents ?? 0);
      return Math.max(0, piecesCents(least, main, lengths) - byLine);
    });
  return {
    wirings: wirings.length,
    isAlonePriced: (wiring) => isFirst && (wires[wiring]?.some(({ kind }) => !shared.has(kind)) ?? false),
    aloneCents: (wiring, from, to) => {
      const key = (wiring * nodes.length + from) * nodes.length + to;
      return once(known, key, () => {
        const lengthFt = alongFt(wiring, from, to) + makeupFt(from, to);
        return loneCents(least, wires[wiring] ?? [], { lengthFt, shared });
      });
    },
    leastPerFt: (wiring) => perFt[wiring] ?? 0,
    lines: (wiring) => lines[wiring] ?? [],
    beyondLineAtLast,
    beyondLine: (wiring, line, sections) =>
      (lines[wiring]?.[line]?.fixedCents ?? 0) > 0 ? beyondLineAtLast(wiring, line, sections) : 0,
    pooledCents: (wiring, { from, to, line, withMakeup }) => {
      const key = ((wiring * nodes.length + from) * nodes.length + to) * 4 + line * 2 + Number(withMakeup);
      return once(pooled, key, () => {
        const lengthFt = alongFt(wiring, from, to) + (withMakeup ? makeupFt(from, to) : 0);
        return lines[wiring]?.[line]?.sectionCents(lengthFt) ?? 0;
      });
    },
  };
}

/** Of each place the sum of all before it, and the whole sum last. */
function sumsBefore(feet: Float64Array): Float64Array {
  const sums = new Float64Array(feet.length + 1);
  feet.forEach((ft, at) => {
    sums[at + 1] = (sums[at] ?? 0) + ft;
  });
  return sums;
}

function boxFt({ question }: Tools): number {
  return question.parts.plan.description.terms.makeup.boxFt;
}

function startFt({ question }: Tools): number {
  return question.parts.plan.description.terms.makeup.panelFt;
}

function endFt({ question, run }: Tools): number {
  const { panelFt, boxFt, outletFt } = question.parts.plan.description.terms.makeup;
  const switchFt = run.disconnect?.kind === 'non-fused-switch' ? 2 * boxFt : 0;
  const divideFt = question.model.divisions * (3 * boxFt + outletFt);
  return (run.role === 'feeder' ? panelFt : outletFt) + switchFt + divideFt;
}
