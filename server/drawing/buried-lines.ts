import { isDitch } from '../estimate/vocabulary.ts';
import { area, circle, LETTER_PT, line, type Mark, type Point, type Tone, text } from './drawing.ts';
import { textWidthPt } from './font-advances.ts';
import { placeLabels } from './label-rows.ts';
import type { Stretch } from './profile.ts';
import { at, type Frame } from './sheet-frame.ts';
import { number } from './wording.ts';

/** The color by which each kind of buried line is marked (APWA); a root zone has none and is drawn in ink. */
export const CROSSING: Readonly<Record<string, { tone: Tone; words: string }>> = {
  gas: { tone: 'gas', words: 'gas' },
  water: { tone: 'water', words: 'water' },
  sewer: { tone: 'sewer', words: 'sewer' },
  irrigation: { tone: 'irrigation', words: 'irrigation' },
  communications: { tone: 'communications', words: 'telecom' },
  'private-electric': { tone: 'route', words: 'own electric' },
  'tree-root-zone': { tone: 'paper', words: 'roots' },
};

/** Something in the ground that is named below it. */
interface Named {
  at: Point;
  words: string;
  legs: number[];
}

/** What lies in the ground along the route, how deep our run lies, and the names of both below. */
export interface Underground {
  marks: Mark[];
  named: Named[];
}

/** Lines that the route crosses, and the cover over the run where it changes. */
export function undergroundOf(stretches: readonly Stretch[], frame: Frame): Underground {
  const covers = coverGroups(stretches).map((group) => coverDimension(group, frame));
  const crossings = stretches.flatMap((stretch) => crossingsOf(stretch, frame));
  const all = [...covers, ...crossings];
  return {
    marks: all.flatMap(({ marks }) => marks),
    named: all.map(({ named }) => named).sort((a, b) => a.at[0] - b.at[0]),
  };
}

/** Neighbors in the ground under the same cover are dimensioned once. */
function coverGroups(stretches: readonly Stretch[]): Stretch[][] {
  const groups: Stretch[][] = [];
  for (const stretch of stretches) {
    if (stretch.coverIn === undefined) continue;
    const group = groups.at(-1);
    const last = group?.at(-1);
    if (group && last?.coverIn === stretch.coverIn && last.index === stretch.index - 1) group.push(stretch);
    else groups.push([stretch]);
  }
  return groups;
}

function coverDimension(group: readonly Stretch[], frame: Frame): { marks: Mark[]; named: Named } {
  const widest = group.reduce((best, stretch) => (stretch.x1 - stretch.x0 > best.x1 - best.x0 ? stretch : best));
  const x = widest.x0 + (widest.x1 - widest.x0) * 0.36;
  const legs = group.map(({ index }) => index);
  const [, top] = at(frame, x, 0);
  const [, pipe] = at(frame, x, widest.routeFt);
  const tick = (y: number): Mark =>
    line({
      points: [
        [x - 2.2, y + 2.2],
        [x + 2.2, y - 2.2],
      ],
      weightPt: 0.8,
      legs,
    });
  const marks = [
    line({
      points: [
        [x, top],
        [x, pipe],
      ],
      weightPt: 0.5,
      legs,
    }),
    tick(top),
    tick(pipe),
  ];
  const words = `${number(widest.coverIn ?? 0)} in ${isDitch(widest.leg.kind) ? 'cover' : 'deep'}`;
  return { marks, named: { at: [x, pipe], words, legs } };
}

/** Where the crossings of a leg are drawn, for nobody states it: apart from each other, in its second half. */
export function crossingXs({ leg, x0, x1 }: Stretch): number[] {
  const crossings = leg.crossings ?? [];
  return crossings.map((_, nth) => x0 + (x1 - x0) * (0.55 + (0.35 * (nth + 0.5)) / crossings.length));
}

function crossingsOf(stretch: Stretch, frame: Frame): { marks: Mark[]; named: Named }[] {
  const crossings = stretch.leg.crossings ?? [];
  const xs = crossingXs(stretch);
  return crossings.map(({ what, count }, nth) => {
    const { tone, words } = CROSSING[what] ?? { tone: 'grey' as const, words: what };
    const x = xs[nth] ?? stretch.x0;
    const centre = at(frame, x, stretch.routeFt - 0.45);
    const legs = [stretch.index];
    const marks = [
      area({ points: circle(centre, 3.2), tone, weightPt: 0.9, legs }),
      ...(what === 'tree-root-zone' ? roots(centre, legs) : []),
    ];
    return {
      marks,
      named: { at: [centre[0], centre[1] + 3.2], words: count > 1 ? `${count} × ${words}` : words, legs },
    };
  });
}

function roots([x, y]: Point, legs: readonly number[]): Mark[] {
  return [-2, 0, 2].map((lean) =>
    line({
      points: [
        [x, y - 3],
        [x + lean, y + 2.6],
      ],
      weightPt: 0.6,
      legs,
    }),
  );
}

const ROW_PT = 12;

/** The names in rows below the ground, each with a leader up to what it names. Their band's height depends on the rows. */
export function namesBelow(
  named: readonly Named[],
  room: { leftX: number; rightX: number; topY: number },
): { marks: Mark[]; heightPt: number } {
  const wanted = named.map(({ at: [x], words }) => ({
    middleX: x,
    widthPt: textWidthPt(words, { sizePt: LETTER_PT, weight: 400 }),
  }));
  const placed = placeLabels(wanted, { ...room, gapPt: 6, mostRows: 12 });
  if (!placed) return namesAsList(named, room);
  const rows = Math.max(0, ...placed.map(({ row }) => row)) + 1;
  // Row 0 of the placing is the farthest from the ground: the lowest here.
  const topOf = (row: number) => room.topY + 6 + (rows - 1 - row) * ROW_PT;
  const marks = named.flatMap(({ at: target, words, legs }, nth) => {
    const place = placed[nth];
    if (!place) return [];
    const points: Point[] = [[place.middleX, topOf(place.row)]];
    place.throughX.forEach((x, above) => {
      const y = topOf(place.row + 1 + above);
      points.push([x, y + ROW_PT - 1], [x, y]);
    });
    points.push([target[0], room.topY], target);
    return [
      line({ points, tone: 'grey', weightPt: 0.4, legs }),
      text({ at: [place.middleX, topOf(place.row) + LETTER_PT], text: words, anchor: 'middle', legs }),
    ];
  });
  return { marks, heightPt: named.length === 0 ? 0 : 6 + rows * ROW_PT + 2 };
}

/** Where even many rows are too narrow, the names follow each other in the order of the route, without leaders. */
function namesAsList(
  named: readonly Named[],
  { leftX, rightX, topY }: { leftX: number; rightX: number; topY: number },
): { marks: Mark[]; heightPt: number } {
  const marks: Mark[] = [];
  let x = leftX;
  let row = 0;
  for (const { words, legs } of named) {
    const widthPt = textWidthPt(words, { sizePt: LETTER_PT, weight: 400 });
    if (x > leftX && x + widthPt > rightX) {
      x = leftX;
      row += 1;
    }
    marks.push(text({ at: [x, topY + 6 + row * ROW_PT + LETTER_PT], text: words, legs }));
    x += widthPt + 8;
  }
  return { marks, heightPt: 8 + (row + 1) * ROW_PT };
}
