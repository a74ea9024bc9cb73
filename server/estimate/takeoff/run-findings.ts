import { checkBends } from '../../electrical/bends.ts';
import { boxFillIn3, isPullBox } from '../../electrical/boxes.ts';
import { cite } from '../../electrical/citations.ts';
import { checkSoilCorrosion } from '../../electrical/corrosion.ts';
import { BeyondTableError } from '../../electrical/errors.ts';
import { checkExpansion } from '../../electrical/expansion.ts';
import { feederNeutralSize } from '../../electrical/feeder-neutral.ts';
import { CONTINUOUS_FACTOR } from '../../electrical/overcurrent.ts';
import { compareSizes, largerSize, sizeInWords } from '../../electrical/sizes.ts';
import { outgrownTerminals } from '../../electrical/terminal-range.ts';
import type { Finding } from '../answer.ts';
import { otherCircuitsOf } from '../plan/other-circuit.ts';
import { isBuried } from '../plan/place.ts';
import type { PlannedOption, PlannedRun, Section } from '../plan-types.ts';
import type { ConductorSize } from '../vocabulary.ts';
import { spliceBox } from './boxes.ts';
import { counted, shown } from './demand.ts';
import { outletFindings } from './outlet-findings.ts';
import { segmentsOf } from './segments.ts';
import { isInside, isNewRaceway, isOpened, type Joint, legsOf, type Stretch, type Way, waysOf } from './way.ts';
import { conductorCounts } from './wire.ts';

/** What was checked of the runs as they are taken off: bends between pull points, boxes, expansion of PVC, rust of steel, a feeder's neutral, and what it ends in. */
export function runFindings(plan: PlannedOption): Finding[] {
  return [...waysOf(plan).flatMap((way) => wayFindings(plan, way)), ...outletFindings(plan)];
}

function wayFindings(plan: PlannedOption, way: Way): Finding[] {
  const findings = [
    ...segmentsOf(way).flatMap((segment) => bends(plan, segment)),
    ...way.stretches.flatMap((stretch) => [
      ...bendsThere(plan, stretch),
      ...expansion(plan, stretch),
      ...rust(plan, stretch),
    ]),
    ...way.joints.flatMap((joint) => (joint.splice ? boxFill(plan, way, joint) : [])),
    ...neutral(plan, way.run),
    ...terminals(plan, way.run),
  ];
  return findings.map((finding) => ({ ...finding, run: way.run.name }));
}

const editionOf = ({ description }: PlannedOption) => description.site.code.edition;
const methodOf = (type: 'pvc-40' | 'pvc-80' | 'emt' | 'rmc') => (type === 'pvc-40' || type === 'pvc-80' ? 'pvc' : type);

/** Where bends are too many, the take-off puts in as many pull points as the rule names: then they are not. */
function bends(
  plan: PlannedOption,
  { conduit, bendsDeg, stretches }: ReturnType<typeof segmentsOf>[number],
): Finding[] {
  if (bendsDeg === 0) return [];
  const [leg] = legsOf(stretches);
  const checked = checkBends({ raceway: methodOf(conduit.type), bendsDeg, leg, edition: editionOf(plan) });
  if (checked.severity === 'ok') return [checked];
  const points = counted(Number(checked.numbers.pullPoints), 'pull point');
  const message = `${shown(bendsDeg)}° of bends in one raceway: with ${points} on the way, which the lines hold, none of its parts has more than ${checked.numbers.mostDeg}°.`;
  return [{ ...checked, severity: 'note', message }];
}

/** Where the pull points of a raceway that is there are, nobody has said. */
function bendsThere(plan: PlannedOption, { existing, conduit, stated, leg }: Stretch): Finding[] {
  const bendsDeg = stated?.bendsDeg ?? 0;
  if (!existing || !conduit || bendsDeg === 0) return [];
  const checked = checkBends({ raceway: methodOf(conduit.type), bendsDeg, leg, edition: editionOf(plan) });
  return [checked.severity === 'ok' ? checked : { ...checked, severity: 'caution' }];
}

/** PVC above ground out of doors grows and shrinks with the weather. */
function expansion(plan: PlannedOption, stretch: Stretch): Finding[] {
  const { conduit, place, lengthFt, riseFt, leg } = stretch;
  if (!conduit || methodOf(conduit.type) !== 'pvc' || !isNewRaceway(stretch)) return [];
  if (isInside(place) || isOpened(stretch)) return [];
  const swingF = plan.description.site.temperatureSwingF;
  const checked = checkExpansion({ lengthFt: lengthFt + riseFt, swingF, leg, edition: editionOf(plan) });
  const { fittingNeeded: _needed, ...finding } = checked;
  return [finding];
}

/** Steel in the ground, new or there already. */
function rust(plan: PlannedOption, { conduit, place, leg }: Stretch): Finding[] {
  if (!conduit || !isBuried(place)) return [];
  const raceway = methodOf(conduit.type);
  return raceway === 'pvc' ? [] : [checkSoilCorrosion({ raceway, leg, edition: editionOf(plan) })];
}

/** Is there room in the box of a joint? From 4 AWG on its raceways say how wide it is. NEC 314.16(B), 314.28(A). */
function boxFill(plan: PlannedOption, way: Way, joint: Joint): Finding[] {
  const sections = [joint.before, joint.after].flatMap((side) => side?.section ?? []);
  const [first] = sections;
  if (!first) return [];
  const size = sections.map((section) => section.size).reduce(largerSize, way.run.conductor.size);
  const box = spliceBox(way, joint);
  const about = { legs: joint.legs, edition: editionOf(plan) };
  if (isPullBox(size)) return box.why ? [pullBoxFinding(about, box.description, box.why)] : [];
  if (box.volumeIn3 === undefined) return [];
  const { ungrounded, neutral: neutrals } = conductorCounts(way);
  const neededIn3 = boxFillIn3({
    conductors: [{ size, count: 2 * (ungrounded + neutrals) }],
    // Elsewhere in the run, where it is of another metal or size, its ground may be larger than what is joined here.
    grounds: { size: sections.map((section) => section.groundSize).reduce(largerSize, first.groundSize), count: 2 },
    internalClamps: true,
  });
  const fits = neededIn3 <= box.volumeIn3;
  const [leg] = joint.legs;
  return [
    {
      rule: 'box-fill',
      severity: fits ? 'ok' : 'stop',
      message: `The joint needs ${shown(neededIn3)} in³ of box; the ${box.description} has ${shown(Math.floor(box.volumeIn3 * 10) / 10)} in³.`,
      citation: cite('box-fill', about.edition),
      numbers: { neededIn3, volumeIn3: box.volumeIn3 },
      ...(leg !== undefined && { leg }),
    },
  ];
}

function pullBoxFinding(
  { legs: [leg], edition }: { legs: readonly number[]; edition: ReturnType<typeof editionOf> },
  description: string,
  why: string,
): Finding {
  return {
    rule: 'pull-box',
    severity: 'ok',
    message: `The ${description} is wide enough for the joint: ${why}.`,
    citation: cite('pull-box', edition),
    numbers: {},
    ...(leg !== undefined && { leg }),
  };
}

/** Conductors that were enlarged for the drop may be too thick for what they land on. */
function terminals(plan: PlannedOption, { name, conductor, begins, ocpdA }: PlannedRun): Finding[] {
  const isEnlarged = plan.findings.some(({ rule, run }) => rule === 'enlarged-for-drop' && run === name);
  if (!isEnlarged) return [];
  const size = begins ? largerSize(begins.conductor.size, conductor.size) : conductor.size;
  return [outgrownTerminals({ size, ocpdA, edition: editionOf(plan) })].flatMap((finding) => finding ?? []);
}

/** The neutral of a feeder carries what its 120 V circuits do not balance, at worst all of them on one leg. NEC 220.61, 215.2(B). */
function neutral(plan: PlannedOption, run: PlannedRun): Finding[] {
  if (run.role !== 'feeder' || run.neutralSize === undefined) return [];
  const found = run.sections.flatMap((section) => neutralOf(plan, run, section));
  const worst = found.find(({ severity }) => severity === 'stop') ?? found[0];
  return worst ? [worst] : [];
}

/** The neutral along one section, by its own metal, insulation and size. */
function neutralOf(plan: PlannedOption, run: PlannedRun, section: Section): Finding[] {
  const neutralSize = section.neutralSize ?? run.neutralSize;
  if (neutralSize === undefined) return [];
  const edition = editionOf(plan);
  const unbalancedA = unbalancedOf(plan);
  const ambientC = Math.max(...run.legs.map(({ leg }) => plan.route[leg]?.ambientC ?? 30), 30);
  const leastSize = leastNeutral({
    unbalancedA: Math.min(unbalancedA, run.ocpdA),
    ocpdA: run.ocpdA,
    metal: section.metal,
    insulation: section.insulation,
    terminalsC: plan.description.site.code.terminalsC,
    ambientC,
    currentCarrying: 2,
  });
  if (!leastSize) return []; // too hot for any size: a stop of the plan says so
  const enough = compareSizes(neutralSize, leastSize) >= 0;
  const numbers = { neutralSize, leastSize, unbalancedA };
  const message = `The neutral of ${sizeInWords(neutralSize)} ${enough ? 'is large enough' : 'is too small'}: ${shown(unbalancedA)} A may be unbalanced, which takes ${sizeInWords(leastSize)} at least.`;
  const citation = cite('feeder-neutral-minimum', edition);
  return [{ rule: 'feeder-neutral', severity: enough ? 'ok' : 'stop', message, citation, numbers }];
}

function leastNeutral(question: Parameters<typeof feederNeutralSize>[0]): ConductorSize | undefined {
  try {
    return feederNeutralSize(question);
  } catch (error) {
    if (error instanceof BeyondTableError) return undefined;
    throw error;
  }
}

/** All 120 V loads on one leg, and 14-50 receptacles in full, whose neutral's load is not known. What lasts at 125 %. */
function unbalancedOf({ description, option }: PlannedOption): number {
  const edition = description.site.code.edition;
  const others = otherCircuitsOf({ description, option, edition }).others.filter(({ poles }) => poles === 1);
  const withNeutral = option.chargers.filter(
    ({ connection }) => connection !== 'hardwired' && connection !== 'receptacle-6-50',
  );
  const chargersA = withNeutral.reduce((sum, { amps }) => sum + amps * CONTINUOUS_FACTOR, 0);
  return others.reduce((sum, { amps }) => sum + amps, chargersA);
}
