import type { EstimateOption, Finding } from '../estimate/answer.ts';
import { type LegCost, type LegCosts, legCosts } from '../estimate/leg-costs.ts';
import { bendMarks } from './bends.ts';
import { namesBelow, undergroundOf } from './buried-lines.ts';
import type { Drawing, Mark } from './drawing.ts';
import { emptyRacewayMarks } from './empty-raceways.ts';
import { groundDepthFt } from './ground.ts';
import { type LabelBand, type LegLabel, labelBand } from './leg-labels.ts';
import { PARKING_PT, type Parking, RIDGE_FT } from './parking.ts';
import { HEIGHT_FT, type Profile, profileOf } from './profile.ts';
import { riseMarks } from './rises.ts';
import type { SectionInput } from './section-input.ts';
import { legendOf, notesOf, scaleBar } from './section-notes.ts';
import { dimensionLine, projection, routeMarks } from './section-route.ts';
import { HOUSE_PT, scenery } from './section-scenery.ts';
import { besideInWords, labelledFeet, mainRun, plannedLeg, sectionInWords } from './section-words.ts';
import { type Frame, yOf } from './sheet-frame.ts';
import { blockHeightPt, SKYLINE_PT, skylineMarks, skylineOf } from './skyline.ts';
import { hasAttic } from './walls.ts';
import { knownMoney, LEG_WORDS, wiringMethod } from './wording.ts';

export type { SectionInput } from './section-input.ts';

export const LEAST_WIDTH_PT = 440;
export const EDGE_PT = 2;
/** Points a foot up: a house and its cellar take about a third of a sheet, on paper and on a screen. */
const PT_PER_FT_UP = { least: 6, most: 7 };
/** Between both, heights have the scale of a route that is so long in feet over the whole sheet. */
const SHEET_FT = 80;
/** The line of a way that is there already. */
const THIN_PT = 0.6;
/** Where a house is cut whose attic the route does not pass, in feet. */
const CUT_FT = 7.4;

/**
 * The route as a section through house, deck, ground and slab: lengths to one scale, heights to another, which is
 * said; over it the cost of each leg per foot, so that areas are money.
 */
export function sectionDrawing(stated: SectionInput): Drawing {
  const isRun = stated.option.runs.length > 0;
  const input = isRun ? stated : { ...stated, isWithoutMoney: true }; // the way that is there costs nothing
  const widthPt = Math.max(LEAST_WIDTH_PT, input.widthPt);
  const costs = legCosts(input.option, input.route);
  const profile = profileOf({
    route: input.route,
    coverIn: coversOf(input.option),
    leftX: EDGE_PT + HOUSE_PT,
    rightX: widthPt - EDGE_PT - PARKING_PT,
  });
  const skyline = skylineOf(profile.stretches, input.isWithoutMoney ? [] : costs.legs);
  const band = labelBand(labelsOf(input, profile, costs.legs), { leftX: EDGE_PT, rightX: widthPt - EDGE_PT });
  const skylineY = EDGE_PT + band.heightPt + (skyline.blocks.length > 0 ? SKYLINE_PT : 0);
  const frame = frameOf(profile, { building: input.building, topY: skylineY + 9, widthPt });
  const below = namesBelow(undergroundOf(profile.stretches, frame).named, roomBelow(profile, frame, widthPt));
  const groundBottomY = Math.max(frame.bottomY, roomBelow(profile, frame, widthPt).topY + below.heightPt);
  const feetOf = footOf({ input, profile, costs, band, frame, topY: groundBottomY + 6, widthPt });
  return {
    title: input.title,
    altText: sectionInWords(input, costs),
    widthPt,
    heightPt: Math.ceil(feetOf.bottomY + EDGE_PT),
    marks: drawnAs(isRun ? 'built' : 'there', [
      ...skylineMarks(skyline, { baseY: skylineY, leftX: profile.x0, rightX: profile.x1 }),
      ...band.marksAt(EDGE_PT, (index) => skylineY - blockHeightPt(skyline, index)),
      ...scenery(input, { profile, frame }),
      ...below.marks,
      ...undergroundOf(profile.stretches, frame).marks,
      ...routeMarks(profile, frame),
      ...riseMarks(profile, frame),
      ...bendMarks(profile, frame),
      ...emptyRacewayMarks(input.emptyRaceways ?? [], { profile, frame }),
      ...(input.isWithoutMoney ? dimensionLine(profile, skylineY) : []),
      ...projection(profile, { fromY: skylineY, frame }),
      ...feetOf.marks,
    ]),
  };
}

/** A way that is there already, along which nothing is run, is drawn thin. */
function drawnAs(way: 'built' | 'there', marks: Mark[]): Mark[] {
  if (way === 'built') return marks;
  return marks.map((mark) => (mark.kind === 'line' && mark.tone === 'route' ? { ...mark, weight: THIN_PT } : mark));
}

function coversOf(option: EstimateOption): Map<number, number> {
  const legs = mainRun(option)?.legs ?? [];
  return new Map(legs.flatMap(({ leg, coverIn }) => (coverIn === undefined ? [] : [[leg, coverIn] as const])));
}

function labelsOf(
  { option, route, isWithoutMoney }: SectionInput,
  { stretches }: Profile,
  costs: readonly LegCost[],
): LegLabel[] {
  return stretches.map(({ index, x0, x1, lengthFt }) => {
    const leg = route[index];
    const planned = plannedLeg(option, index);
    const severity = severityAt(option.findings, index);
    return {
      index,
      lines: [
        `${index + 1}  ${leg ? LEG_WORDS[leg.kind] : ''}`,
        labelledFeet(lengthFt, leg),
        ...(planned ? [wiringMethod(planned)] : []),
        ...(isWithoutMoney ? [] : [knownMoney(costs[index] ?? { amountCents: 0, complete: false })]),
      ],
      ...(severity && { severity }),
      ...(isWithoutMoney && { isWithoutMoney }),
      middleX: (x0 + x1) / 2,
    };
  });
}

function severityAt(findings: readonly Finding[], index: number): 'caution' | 'stop' | undefined {
  const here = findings.filter(({ leg }) => leg === index).map(({ severity }) => severity);
  if (here.includes('stop')) return 'stop';
  return here.includes('caution') ? 'caution' : undefined;
}

interface FrameChoice {
  building: Parking['building'];
  topY: number;
  widthPt: number;
}

/** One scale for heights and depths; the sheet shows no more height than the route and its end need. */
function frameOf({ stretches, startUnder }: Profile, { building, topY, widthPt }: FrameChoice): Frame {
  const { least, most } = PT_PER_FT_UP;
  const ptPerFtUp = Math.max(least, Math.min(most, widthPt / SHEET_FT));
  const highestFt = Math.max(0, ...stretches.map(({ routeFt }) => routeFt));
  const houseTopFt = hasAttic(stretches) ? HEIGHT_FT.roof : CUT_FT;
  const topFt = Math.max(houseTopFt, highestFt + 1, building === 'outdoor' ? 0 : RIDGE_FT + 0.3);
  const unders = [startUnder, ...stretches.filter(({ place }) => place === 'house').map(({ under }) => under)];
  const houseFt = unders.includes('basement') ? 8 : unders.includes('crawl') ? 3.6 : 2;
  const depthFt = Math.max(houseFt, groundDepthFt(stretches));
  const groundY = topY + topFt * ptPerFtUp;
  return { groundY, ptPerFtUp, topFt, houseTopFt, bottomY: groundY + depthFt * ptPerFtUp };
}

/** The names of what is in the ground stand below it, right of a basement, or below that where it is in the way. */
function roomBelow({ stretches, x0, startUnder }: Profile, frame: Frame, widthPt: number) {
  const firstOut = stretches.findIndex(({ place }) => place === 'outdoors');
  const insideAgain = stretches.some(({ place, index }) => place === 'house' && index > firstOut && firstOut >= 0);
  if (insideAgain) return { leftX: EDGE_PT, rightX: widthPt - EDGE_PT, topY: frame.bottomY };
  const lastHouse = stretches.findLast(({ place }) => place === 'house');
  const deep = [startUnder, ...stretches.map(({ under }) => under)].some((under) => under !== 'slab');
  const groundY = yOf(frame, -groundDepthFt(stretches)) + 2;
  return {
    leftX: Math.max(EDGE_PT, (lastHouse?.x1 ?? x0) + (deep ? 8 : -HOUSE_PT)),
    rightX: widthPt - EDGE_PT,
    topY: groundY,
  };
}

interface Foot {
  input: SectionInput;
  profile: Profile;
  costs: LegCosts;
  band: LabelBand;
  frame: Frame;
  topY: number;
  widthPt: number;
}

/** Below the section: names of both ends, scale, notes, and the legend where numbers stand for legs. */
function footOf({ input, profile, costs, band, frame, topY, widthPt }: Foot): { marks: Mark[]; bottomY: number } {
  const labels = labelsOf(input, profile, costs.legs);
  const routed = profile.stretches.length > 0;
  const scale = routed
    ? scaleBar(profile, { topY, leftX: EDGE_PT })
    : { marks: [], bottomY: topY, rightX: EDGE_PT - 14 };
  const exaggeration = frame.ptPerFtUp / profile.ptPerFtAlong;
  const notes = notesOf({
    exaggeration,
    costs,
    isWithoutMoney: input.isWithoutMoney ?? false,
    isRun: input.option.runs.length > 0,
    beside: besideInWords(input),
    leftX: scale.rightX + 14,
    rightX: widthPt - EDGE_PT,
    topY,
  });
  const legendY = Math.max(scale.bottomY, notes.bottomY);
  const legend = band.numbered
    ? legendOf(labels, { topY: legendY + 4, leftX: EDGE_PT, rightX: widthPt - EDGE_PT })
    : undefined;
  return {
    marks: [...scale.marks, ...notes.marks, ...(legend?.marks ?? [])],
    bottomY: legend?.bottomY ?? legendY,
  };
}
