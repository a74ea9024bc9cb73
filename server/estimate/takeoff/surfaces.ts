import { legField } from '../description/leg.ts';
import type { Leg } from '../description.ts';
import { counted, type Demands, joined, named, shown, work } from './demand.ts';
import type { DitchLeg } from './ditches.ts';

/** Side of a whole panel of a slab or walk, in feet. Common practice, no source: measure before breaking out. */
const PANEL_FT = 4;
/** Up to this thickness a slab is sawn, broken and poured at the hours of a 4 in slab; else at those of a 6 in one. */
const THIN_SLAB_IN = 4;
const THICK_SLAB_IN = 6;
/** Asphalt that the saw's task is for, in inches. */
const ASPHALT_IN = 3;
/** ft³ in a bag of 80 lb; waste; the gravel under a slab in inches; ft³ of a load of debris. Common practice, no source. */
const BAG_FT3 = 0.6;
const CONCRETE_WASTE_PERCENT = 10;
const BASE_IN = 4;
const LOAD_FT3 = 27;
/** ft³ that a bag of cold patch fills, and across the ditch how far pavers are lifted at least. Common practice, no source. */
const PATCH_FT3 = 0.4;
const PAVERS_LIFTED_IN = 18;
/** Rebar in a new strip: two along it and one across for each of so many feet. Common practice, no source. */
const REBAR_ACROSS_EVERY_FT = 1.5;

const CUT = 'hard-surface';
const MENDED = 'restoration';

/** A strip of hard surface as it is opened. Feet, inches, square and cubic feet. */
export interface Strip {
  leg: number;
  stated: Leg;
  lengthFt: number;
  widthFt: number;
  areaFt2: number;
  thicknessIn: number;
  volumeFt3: number;
  /** Both edges, and each end that does not run out at another surface. */
  sawCutFt: number;
  closedEnds: number;
  words: string;
}

/** Opening and mending of concrete, asphalt and pavers. */
export function surfaceDemands(dug: readonly DitchLeg[]): Demands {
  return joined([
    ...strips(dug, 'concrete-cut').map(concrete),
    ...strips(dug, 'asphalt-cut').map(asphalt),
    ...dug.filter(({ stated }) => stated.kind === 'pavers-lift').map(pavers),
  ]);
}

/** The strips of one kind that are cut open. */
export function strips(dug: readonly DitchLeg[], kind: 'concrete-cut' | 'asphalt-cut'): Strip[] {
  return dug.filter(({ stated }) => stated.kind === kind).map((ditch) => stripOf(ditch, dug));
}

function stripOf({ leg, stated, lengthFt: alongFt }: DitchLeg, dug: readonly DitchLeg[]): Strip {
  const wholePanels = legField(stated, 'replace') === 'panel';
  const lengthFt = wholePanels ? Math.ceil(alongFt / PANEL_FT) * PANEL_FT : alongFt;
  const widthFt = Math.max(legField(stated, 'widthIn') / 12, wholePanels ? PANEL_FT : 0);
  const thicknessIn = legField(stated, 'thicknessIn');
  // A strip that comes from another ditch, or goes on into one, runs out at the edge of the slab: no cut across it there.
  const open = [leg - 1, leg + 1].filter((beside) => dug.some((other) => other.leg === beside)).length;
  const closedEnds = 2 - open;
  const areaFt2 = lengthFt * widthFt;
  return {
    leg,
    stated,
    lengthFt,
    widthFt,
    areaFt2,
    thicknessIn,
    volumeFt3: (areaFt2 * thicknessIn) / 12,
    sawCutFt: 2 * lengthFt + closedEnds * widthFt,
    closedEnds,
    words: `${shown(lengthFt)} ft × ${shown(widthFt * 12)} in${wholePanels ? `, whole panels of ${PANEL_FT} ft` : ''}, ${shown(thicknessIn)} in thick`,
  };
}

/** Hours are for 4 in up to 4 in, else for 6 in, and grow beyond that with the thickness. */
function slabClass(thicknessIn: number): { suffix: '4' | '6'; times: number } {
  if (thicknessIn <= THIN_SLAB_IN) return { suffix: '4', times: 1 };
  return { suffix: '6', times: Math.max(1, thicknessIn / THICK_SLAB_IN) };
}

function concrete(strip: Strip): Demands {
  const { leg, stated, areaFt2, sawCutFt, thicknessIn, words } = strip;
  const { suffix, times } = slabClass(thicknessIn);
  const legs = [leg];
  const steel = stated.reinforcement ?? 'none';
  const cut = `${words}: both edges and ${counted(strip.closedEnds, 'closed end')}`;
  const steelFactors = steel === 'none' ? [] : [`factor-slab-${steel}`];
  return joined([
    work({
      task: `saw-concrete-${suffix}`,
      scope: CUT,
      unit: 'ft of cut',
      quantity: sawCutFt * times,
      inPlace: sawCutFt,
      legs,
      because: cut,
    }),
    bladeWear(strip, cut),
    work({
      task: `break-haul-${suffix}`,
      scope: CUT,
      unit: 'ft2',
      quantity: areaFt2 * times,
      inPlace: areaFt2,
      factors: steelFactors,
      legs,
      because: `${words}: ${shown(areaFt2)} ft²`,
    }),
    debris(strip),
    ...(legField(stated, 'restore') ? [gravelBase(strip), repour(strip), slabSteel(strip)] : []),
  ]);
}

function bladeWear({ leg, sawCutFt, thicknessIn }: Strip, because: string): Demands {
  return named({
    name: 'saw-blade-share',
    description: 'diamond blade wear, per ft of 4 in cut',
    scope: CUT,
    unit: 'ft',
    quantity: sawCutFt * Math.max(1, thicknessIn / THIN_SLAB_IN),
    legs: [leg],
    because,
  });
}

function debris({ leg, volumeFt3, words }: Strip): Demands {
  return named({
    name: 'debris-haul',
    description: 'hauling and disposal of debris, small load',
    scope: CUT,
    unit: 'load',
    quantity: volumeFt3 / LOAD_FT3,
    legs: [leg],
    because: `${words}: ${shown(volumeFt3)} ft³, a load is ${LOAD_FT3} ft³`,
  });
}

function gravelBase({ leg, areaFt2 }: Strip): Demands {
  return named({
    name: 'gravel',
    description: 'crushed gravel',
    scope: MENDED,
    unit: 'ft3',
    quantity: (areaFt2 * BASE_IN) / 12,
    legs: [leg],
    because: `${shown(areaFt2)} ft² × ${BASE_IN} in under the new surface`,
  });
}

function repour({ leg, stated, areaFt2, volumeFt3, thicknessIn, words }: Strip): Demands {
  const { suffix, times } = slabClass(thicknessIn);
  const legs = [leg];
  const finish = legField(stated, 'finish');
  const bags = (volumeFt3 * (1 + CONCRETE_WASTE_PERCENT / 100)) / BAG_FT3;
  return joined([
    named({
      name: 'concrete-80',
      description: 'concrete mix, bag of 80 lb',
      scope: MENDED,
      quantity: bags,
      legs,
      because: `${words}: ${shown(volumeFt3)} ft³, ${CONCRETE_WASTE_PERCENT} % waste, ${BAG_FT3} ft³ a bag`,
    }),
    work({
      task: `repour-${suffix}`,
      scope: MENDED,
      unit: 'ft2',
      quantity: areaFt2 * times,
      inPlace: areaFt2,
      factors: finish === 'plain' ? [] : [`factor-${finish}`],
      legs,
      because: `${words}: ${shown(areaFt2)} ft², ${finish} finish`,
    }),
  ]);
}

/** Dowels into the old slab on both sides where it is reinforced or driven on; rebar where there was rebar. */
function slabSteel({ leg, stated, lengthFt, widthFt }: Strip): Demands {
  const legs = [leg];
  const steel = stated.reinforcement ?? 'none';
  const isDoweled = steel !== 'none' || legField(stated, 'traffic') === 'vehicle';
  const bars = 2 * lengthFt + Math.ceil(lengthFt / REBAR_ACROSS_EVERY_FT) * widthFt;
  return joined([
    named({
      name: 'dowels-epoxy',
      description: 'slab dowels and epoxy, per ft of joint',
      scope: MENDED,
      unit: 'ft',
      quantity: isDoweled ? 2 * lengthFt : 0,
      legs,
      because: `both edges of ${shown(lengthFt)} ft held to the old slab`,
    }),
    named({
      name: 'rebar-10ft',
      description: 'rebar 3/8 in',
      scope: MENDED,
      unit: 'ft',
      quantity: steel === 'rebar' ? bars : 0,
      legs,
      because: `two bars along ${shown(lengthFt)} ft and one across every ${REBAR_ACROSS_EVERY_FT} ft`,
    }),
  ]);
}

function asphalt(strip: Strip): Demands {
  const { leg, stated, areaFt2, sawCutFt, thicknessIn, volumeFt3, words } = strip;
  const legs = [leg];
  const times = Math.max(1, thicknessIn / ASPHALT_IN);
  const cut = `${words}: both edges and ${counted(strip.closedEnds, 'closed end')}`;
  const patch = `${words}: ${shown(volumeFt3)} ft³, ${PATCH_FT3} ft³ a bag`;
  return joined([
    work({
      task: 'saw-asphalt-3',
      scope: CUT,
      unit: 'ft of cut',
      quantity: sawCutFt * times,
      inPlace: sawCutFt,
      legs,
      because: cut,
    }),
    bladeWear(strip, cut),
    work({
      task: 'break-asphalt',
      scope: CUT,
      unit: 'ft2',
      quantity: areaFt2,
      legs,
      because: `${words}: ${shown(areaFt2)} ft²`,
    }),
    debris(strip),
    ...(legField(stated, 'restore')
      ? [
          gravelBase(strip),
          named({
            name: 'asphalt-cold-50',
            description: 'cold asphalt patch, bag of 50 lb',
            scope: MENDED,
            quantity: volumeFt3 / PATCH_FT3,
            legs,
            because: patch,
          }),
          work({ task: 'asphalt-patch', scope: MENDED, unit: 'ft2', quantity: areaFt2, legs, because: words }),
        ]
      : []),
  ]);
}

/** The one task lifts and relays, so it is halved where nobody relays them: the lifting counts to the hard surface. */
function pavers({ leg, stated, lengthFt }: DitchLeg): Demands {
  const widthFt = Math.max(legField(stated, 'widthIn'), PAVERS_LIFTED_IN) / 12;
  const areaFt2 = lengthFt * widthFt;
  const legs = [leg];
  const words = `${shown(lengthFt)} ft × ${shown(widthFt * 12)} in of pavers`;
  const half = (scope: typeof CUT | typeof MENDED, because: string) =>
    work({ task: 'pavers', scope, unit: 'ft2', quantity: areaFt2 / 2, inPlace: areaFt2, legs, because });
  if (!legField(stated, 'restore')) return half(CUT, `${words} lifted, half of lifting and relaying`);
  return joined([
    half(CUT, `${words} lifted, half of lifting and relaying`),
    half(MENDED, `${words} relaid, half of lifting and relaying`),
    named({
      name: 'sand',
      description: 'bedding sand',
      scope: MENDED,
      unit: 'ft3',
      quantity: areaFt2 / 12,
      legs,
      because: `${words}: 1 in of new bed`,
    }),
  ]);
}
