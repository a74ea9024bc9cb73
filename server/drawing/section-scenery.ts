import type { EstimateOption } from '../estimate/answer.ts';
import { type Mark, type Point, text } from './drawing.ts';
import { groundDepthFt, groundOf } from './ground.ts';
import { type Room, roomOf } from './house.ts';
import { type Place, panelBox, parkingGround, parkingThings } from './parking.ts';
import { HEIGHT_FT, type Profile } from './profile.ts';
import type { SectionInput } from './section-input.ts';
import { endWords, mainRun, startOf } from './section-words.ts';
import { type Frame, yOf } from './sheet-frame.ts';
import { walls } from './walls.ts';

/** The room of the panel, left of the route, in points; not to scale. */
export const HOUSE_PT = 68;
/** How far the panel hangs from the house's cut edge; its name stands between. */
const PANEL_ASIDE_PT = 54;

/** Everything that the route passes, from the panel to the car. */
export function scenery(input: SectionInput, { profile, frame }: { profile: Profile; frame: Frame }): Mark[] {
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
export function panelCorner({ x0, startUnder }: Profile, frame: Frame): Point {
  return [x0 - HOUSE_PT + PANEL_ASIDE_PT, yOf(frame, startUnder === 'basement' ? -1.2 : HEIGHT_FT.surface + 2)];
}
