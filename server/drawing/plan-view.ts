import { isDitch, type LegKind } from '../estimate/vocabulary.ts';
import { CROSSING, crossingXs, namesBelow } from './buried-lines.ts';
import { area, box, circle, type Drawing, dashed, LETTER_PT, line, type Mark, type Point, text } from './drawing.ts';
import { textWidthPt } from './font-advances.ts';
import type { HatchName } from './hatches.ts';
import { PARKING_PT } from './parking.ts';
import { type Profile, profileOf, type Stretch } from './profile.ts';
import { EDGE_PT, LEAST_WIDTH_PT } from './section.ts';
import type { SectionInput } from './section-input.ts';
import { HOUSE_PT } from './section-scenery.ts';
import { LEG_WORDS } from './wording.ts';

/** What a plan view is drawn of: of a section's input what is seen from above. */
export type PlanViewInput = Pick<SectionInput, 'title' | 'route' | 'building' | 'widthPt'>;

const TOP_PT = 13;
const STRIP_PT = 54;
const MIDDLE_Y = TOP_PT + STRIP_PT / 2;
/** Half of what a ditch or a bore takes across; not to scale, for a foot could not be seen. */
const HALF_DITCH_PT = 6;
const CAR_PT = { length: 72, breadth: 30, round: 8 } as const;
const NOTE = 'From above, laid out straight: turns and breadths are not shown as they are.';

/** What lies on the ground, as it looks from above; lawns and beds stay blank. */
const SURFACE: Partial<Record<LegKind, HatchName>> = {
  'under-deck': 'wood',
  'gravel-trench': 'gravel',
  'concrete-cut': 'concrete',
  'asphalt-cut': 'asphalt',
  'pavers-lift': 'masonry',
};

/**
 * The route from above: house, what lies on the ground, what is opened, what crosses, and the car. It has the abscissas of
 * the section of the same breadth, so that it may stand below it leg by leg.
 */
export function planViewDrawing(input: PlanViewInput): Drawing {
  const widthPt = Math.max(LEAST_WIDTH_PT, input.widthPt);
  const profile = profileOf({
    route: input.route,
    coverIn: new Map(),
    leftX: EDGE_PT + HOUSE_PT,
    rightX: widthPt - EDGE_PT - PARKING_PT,
  });
  const crossings = profile.stretches.flatMap(crossingMarks);
  const below = namesBelow(
    crossings.map(({ named }) => named),
    { leftX: EDGE_PT, rightX: widthPt - EDGE_PT, topY: TOP_PT + STRIP_PT + 2 },
  );
  const noteY = TOP_PT + STRIP_PT + 4 + (crossings.length > 0 ? below.heightPt : 0) + LETTER_PT;
  return {
    title: input.title,
    altText: inWords(input),
    widthPt,
    heightPt: Math.ceil(noteY + 4),
    marks: [
      ...profile.stretches.flatMap(groundFromAbove),
      ...buildings(profile, input.building),
      ...profile.stretches.flatMap(opened),
      ...crossings.flatMap(({ marks }) => marks),
      ...(crossings.length > 0 ? below.marks : []),
      ...ends(profile),
      ...profile.stretches.flatMap(nameAbove),
      text({ at: [EDGE_PT, noteY], text: NOTE, tone: 'grey' }),
    ],
  };
}

const strip = (x0: number, x1: number): Point[] => box([x0, TOP_PT], [x1, TOP_PT + STRIP_PT]);

function groundFromAbove({ place, x0, x1, leg, index }: Stretch): Mark[] {
  if (place !== 'outdoors') return [];
  const hatch = SURFACE[leg.kind];
  return [
    ...(hatch ? [area({ points: strip(x0, x1), hatch, tone: 'grey', legs: [index] })] : []),
    ...[x0, x1].map((x) =>
      line({
        points: [
          [x, TOP_PT],
          [x, TOP_PT + STRIP_PT],
        ],
        tone: 'faint',
        weightPt: 0.5,
        legs: [index],
      }),
    ),
  ];
}

/** The house, as far as the route runs in it, and the garage where the car stands in one. */
function buildings({ stretches, x0, x1 }: Profile, building: PlanViewInput['building']): Mark[] {
  const firstOut = stretches.find(({ place }) => place === 'outdoors');
  const endBuilding = stretches.find(({ place }) => place === 'end-building');
  const houseX = firstOut?.x0 ?? x1;
  const house = outline(EDGE_PT, houseX > x0 ? houseX : x0);
  const roofed = building !== 'outdoor';
  if (!roofed) return house;
  return [...house, ...outline(endBuilding?.x0 ?? x1, x1 + PARKING_PT)];
}

function outline(x0: number, x1: number): Mark[] {
  return [area({ points: strip(x0, x1), tone: 'paper', weightPt: 1.2 })];
}

/** The edges of what is dug or bored, broken as what is proposed. */
function opened({ leg, x0, x1, index }: Stretch): Mark[] {
  if (!isDitch(leg.kind) && leg.kind !== 'bore') return [];
  return [-HALF_DITCH_PT, HALF_DITCH_PT].flatMap((asidePt) =>
    dashed({
      points: [
        [x0, MIDDLE_Y + asidePt],
        [x1, MIDDLE_Y + asidePt],
      ],
      tone: 'excavation',
      weightPt: 0.75,
      dashPt: 4,
      gapPt: 2.5,
      legs: [index],
    }),
  );
}

/** Lines that the route crosses, from edge to edge, in the colors by which they are marked; roots as a circle. */
function crossingMarks(stretch: Stretch) {
  const xs = crossingXs(stretch);
  const legs = [stretch.index];
  return (stretch.leg.crossings ?? []).map(({ what, count }, nth) => {
    const { tone, words } = CROSSING[what] ?? { tone: 'grey' as const, words: what };
    const x = xs[nth] ?? stretch.x0;
    const across: Mark =
      what === 'tree-root-zone'
        ? line({ points: [...circle([x, MIDDLE_Y], 15), [x + 15, MIDDLE_Y]], weightPt: 0.6, legs })
        : line({
            points: [
              [x, TOP_PT],
              [x, TOP_PT + STRIP_PT],
            ],
            tone,
            weightPt: 1.6,
            legs,
          });
    const at: Point = [x, TOP_PT + STRIP_PT];
    return { marks: [across], named: { at, words: count > 1 ? `${count} × ${words}` : words, legs } };
  });
}

/** The route itself, with its panel and its car. */
function ends({ stretches, x0, x1 }: Profile): Mark[] {
  const panelX = x0 - 14;
  const carX = x1 + (PARKING_PT - CAR_PT.length) / 2 + 8;
  const route: Point[] = [
    [panelX, MIDDLE_Y],
    [x1 + 14, MIDDLE_Y],
  ];
  return [
    ...(stretches.length > 0 ? [line({ points: route, tone: 'route', weightPt: 2 })] : []),
    area({ points: box([panelX - 7, MIDDLE_Y - 9], [panelX, MIDDLE_Y + 9]), tone: 'paper', weightPt: 1 }),
    text({ at: [panelX - 10, MIDDLE_Y + 3], text: 'panel', anchor: 'end' }),
    area({ points: circle([x1 + 16, MIDDLE_Y], 3.4), tone: 'paper', weightPt: 1 }),
    ...carFromAbove(carX),
  ];
}

/** A car from above, of no make in particular. Not to scale. */
function carFromAbove(x: number): Mark[] {
  const { length, breadth, round } = CAR_PT;
  const [top, bottom] = [MIDDLE_Y - breadth / 2, MIDDLE_Y + breadth / 2];
  const body: Point[] = [
    [x + round, top],
    [x + length - round, top],
    [x + length, top + round],
    [x + length, bottom - round],
    [x + length - round, bottom],
    [x + round, bottom],
    [x, bottom - round],
    [x, top + round],
  ];
  const pane = (fromX: number, toX: number, inPt: number): Mark =>
    line({
      points: [
        [fromX, top + 4],
        [toX, top + inPt],
        [toX, bottom - inPt],
        [fromX, bottom - 4],
        [fromX, top + 4],
      ],
      weightPt: 0.6,
    });
  return [area({ points: body, tone: 'paper', weightPt: 1 }), pane(x + 20, x + 29, 7), pane(x + 62, x + 53, 7)];
}

/** What a leg goes through, over its strip, where it has the room; the section beside it numbers all of them. */
function nameAbove({ leg, index, x0, x1 }: Stretch): Mark[] {
  const number = String(index + 1);
  const whole = `${number}  ${LEG_WORDS[leg.kind]}`;
  const fits = (words: string) => textWidthPt(words, { sizePt: LETTER_PT, weight: 400 }) <= x1 - x0 - 2;
  const words = fits(whole) ? whole : fits(number) ? number : undefined;
  return words === undefined
    ? []
    : [text({ at: [(x0 + x1) / 2, TOP_PT - 4], text: words, anchor: 'middle', legs: [index] })];
}

function inWords({ title, route }: PlanViewInput): string {
  const legs = route.map(({ kind, crossings = [] }, at) => {
    const crossed = crossings.map(({ what, count }) => `${count} × ${CROSSING[what]?.words ?? what}`);
    return `${at + 1} ${LEG_WORDS[kind]}${crossed.length > 0 ? `, crossing ${crossed.join(', ')}` : ''}`;
  });
  return `${title}, from above, from the panel to the car: ${legs.join('; ') || 'no way is stated'}.`;
}
