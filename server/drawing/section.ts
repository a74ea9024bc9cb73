import type { EstimateOption, Finding } from '../estimate/answer.ts';
import type { Leg } from '../estimate/description/leg.ts';
import { type LegCost, type LegCosts, legCosts } from '../estimate/leg-costs.ts';
import { bendMarks } from './bends.ts';
import { namesBelow, undergroundOf } from './buried-lines.ts';
import { type Drawing, line, type Mark, type Point, text } from './drawing.ts';
import { type EmptyRaceway, emptyRacewayMarks } from './empty-raceways.ts';
import { groundDepthFt, groundOf } from './ground.ts';
import { cutY, type Room, roomOf } from './house.ts';
import { type LabelBand, type LegLabel, labelBand } from './leg-labels.ts';
import { PARKING_PT, type Parking, type Place, panelBox, parkingGround, parkingThings, RIDGE_FT } from './parking.ts';
import { HEIGHT_FT, type Profile, profileOf, type Stretch } from './profile.ts';
import { riseMarks } from './rises.ts';
import { legendOf, notesOf, scaleBar } from './section-notes.ts';
import {
  besideInWords,
  endWords,
  labelledFeet,
  mainRun,
  plannedLeg,
  sectionInWords,
  startOf,
} from './section-words.ts';
import { at, type Frame, yOf } from './sheet-frame.ts';
import { blockHeightPt, SKYLINE_PT, skylineMarks, skylineOf } from './skyline.ts';
import { hasAttic, walls } from './walls.ts';
import { knownMoney, LEG_WORDS, wiringMethod } from './wording.ts';

/** What a section is drawn of: the option as estimated, and the route that it follows. */
export interface SectionInput {
  title: string;
  option: EstimateOption;
  route: readonly Leg[];
  building: Parking['building'];
  mount?: Parking['mount'];
  /** Empty raceways that are laid beside the runs over the whole route: for a later feeder, or for data. */
  emptyRaceways?: readonly EmptyRaceway[];
  /** Is the drawing for those who build, not for those who pay? Then it shows no money. */
  isWithoutMoney?: boolean;
  /** Breadth of the sheet in points; a narrower one than 440 becomes 440. */
  widthPt: number;
}

const LEAST_WIDTH_PT = 440;
/** The room of the panel, left of the route, in points; not to scale. */
const HOUSE_PT = 68;
/** How far the panel hangs from the house's cut edge; its name stands between. */
const PANEL_ASIDE_PT = 54;
const EDGE_PT = 2;
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
  const ptPerFtUp = Math.max(7.5, Math.min(9.5, widthPt / 64));
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

/** Everything that the route passes, from the panel to the car. */
function scenery(input: SectionInput, { profile, frame }: { profile: Profile; frame: Frame }): Mark[] {
  const { stretches, ptPerFtAlong, startUnder, x0 } = profile;
  const depthFt = groundDepthFt(stretches);
  const place = placeOf(input, { profile, frame });
  const rooms: Room[] = [
    { x0: x0 - HOUSE_PT, x1: x0, under: startUnder },
    ...stretches
      .filter(({ place }) => place !== 'outdoors')
      .map((stretch) => ({ x0: stretch.x0, x1: stretch.x1, under: stretch.under, stretch })),
  ];
  return [
    ...stretches
      .filter(({ place }) => place === 'outdoors')
      .flatMap((stretch) => groundOf(stretch, { frame, depthFt })),
    ...rooms.flatMap((room) => roomOf(room, { frame, ptPerFtAlong })),
    ...parkingGround(place),
    ...walls(profile, { frame, building: input.building, roomPt: HOUSE_PT }),
    ...parkingThings(place),
    ...panelBox(panelCorner(profile, frame)),
    ...startWords(input.option, panelCorner(profile, frame)),
  ];
}

/** The parking place at the end of the route. */
function placeOf(
  { option, building, mount }: SectionInput,
  { profile, frame }: { profile: Profile; frame: Frame },
): Place {
  const { stretches, x1 } = profile;
  const last = stretches.at(-1);
  return {
    parking: {
      building,
      mount: mount ?? 'wall',
      panel: option.runs.some(({ role }) => role === 'feeder'),
      chargers: option.charging?.perCharger.length ?? 1,
      words: endWords(option),
    },
    frame,
    x: x1,
    fromX: stretches.find(({ place }) => place === 'end-building')?.x0 ?? x1,
    routeFt: last?.routeFt ?? 3,
    inside: last?.place !== 'outdoors',
    routed: last !== undefined,
    depthFt: groundDepthFt(stretches),
  };
}

/** What the route starts with, left of the panel. */
function startWords(option: EstimateOption, [x, y]: Point): Mark[] {
  const run = mainRun(option);
  const words = [startOf(option), ...(run ? [`${run.ocpdA} A`] : [])];
  return words.map((line, nth) => text({ at: [x - 3, y + 7 + nth * 10.5], text: line, anchor: 'end' }));
}

/** The panel hangs in the basement where there is one, else on the ground floor. */
function panelCorner({ x0, startUnder }: Profile, frame: Frame): Point {
  return [x0 - HOUSE_PT + PANEL_ASIDE_PT, yOf(frame, startUnder === 'basement' ? -1.2 : HEIGHT_FT.surface + 2)];
}

/** The route itself, leg by leg, with what rises and falls between them. */
function routeMarks(profile: Profile, frame: Frame): Mark[] {
  const { stretches } = profile;
  const [panelX, panelY] = panelCorner(profile, frame);
  const first = stretches[0];
  if (!first) return [];
  const start: Mark = line({
    points: [
      [panelX + 5, yOf(frame, first.routeFt) < panelY ? panelY : panelY + 17],
      at(frame, panelX + 5, first.routeFt),
      at(frame, first.x0, first.routeFt),
    ],
    tone: 'route',
    weightPt: 1.8,
    legs: [0],
  });
  return [start, ...stretches.map((stretch, nth) => legMark(stretch, { next: stretches[nth + 1], frame }))];
}

function legMark(stretch: Stretch, { next, frame }: { next: Stretch | undefined; frame: Frame }): Mark {
  const { x0, x1, routeFt, index, leg } = stretch;
  const sag =
    leg.kind === 'overhead-span'
      ? [
          at(frame, x0 + (x1 - x0) * 0.25, routeFt - 0.8),
          at(frame, (x0 + x1) / 2, routeFt - 1.1),
          at(frame, x0 + (x1 - x0) * 0.75, routeFt - 0.8),
        ]
      : [];
  const points = [
    at(frame, x0, routeFt),
    ...sag,
    at(frame, x1, routeFt),
    ...(next ? [at(frame, x1, next.routeFt)] : []),
  ];
  return line({ points, tone: 'route', weightPt: 1.8, legs: [index] });
}

/** Where legs begin and end. */
function endsOf({ stretches }: Profile): number[] {
  return stretches.flatMap(({ x0, x1 }, nth) => (nth === 0 ? [x0, x1] : [x1]));
}

/** In place of the skyline: a line with a stroke across it where legs meet. */
function dimensionLine(profile: Profile, y: number): Mark[] {
  const ends = endsOf(profile);
  if (ends.length === 0) return [];
  return [
    line({
      points: [
        [profile.x0, y],
        [profile.x1, y],
      ],
    }),
    ...ends.map((x) =>
      line({
        points: [
          [x - 2.5, y + 2.5],
          [x + 2.5, y - 2.5],
        ],
        weightPt: 0.9,
      }),
    ),
  ];
}

/** Thin lines that carry the ends of the legs from the skyline down to the section. */
function projection(profile: Profile, { fromY, frame }: { fromY: number; frame: Frame }): Mark[] {
  return endsOf(profile).map((x) =>
    line({
      points: [
        [x, fromY],
        [x, cutY(frame) - 3],
      ],
      tone: 'faint',
      weightPt: 0.4,
    }),
  );
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
