import type { Mark } from './drawing.ts';
import { breakLine, cutY, outerWall } from './house.ts';
import { EAVE_FT, type Parking } from './parking.ts';
import type { Profile, Stretch } from './profile.ts';
import { type Frame, yOf } from './sheet-frame.ts';

/** Walls wherever inside meets outside, and the cut around the house. `roomPt`: how broad the panel's room is drawn. */
export function walls(
  profile: Profile,
  { frame, building, roomPt }: { frame: Frame; building: Parking['building']; roomPt: number },
): Mark[] {
  const { stretches, x0, startUnder } = profile;
  const marks: Mark[] = [];
  const places: Meeting[] = [{ x1: x0, place: 'house', under: startUnder }, ...stretches];
  let houseFromX = x0 - roomPt;
  places.forEach((here, nth) => {
    const next = places[nth + 1];
    const wall = wallBetween({ here, next, building });
    if (!wall) return;
    const topFt = wall.of === 'house' ? frame.houseTopFt : EAVE_FT;
    const legs = here.index === undefined ? [] : [here.index];
    marks.push(...outerWall({ x: here.x1, under: wall.under, through: here.leg?.through, topFt, legs }, frame));
    if (here.place === 'house' && !hasAttic(stretches)) {
      marks.push(breakLine([houseFromX, cutY(frame)], [here.x1 + 2.5, cutY(frame)]));
    }
    if (here.place === 'outdoors') houseFromX = here.x1;
  });
  const bottomFt = { basement: -8, crawl: -3.6, slab: -2 }[startUnder];
  return [...marks, breakLine([x0 - roomPt, cutY(frame)], [x0 - roomPt, yOf(frame, bottomFt)])];
}

/** A stretch, or the room of the panel, as far as its end matters. */
type Meeting = Pick<Stretch, 'x1' | 'place' | 'under'> & Partial<Pick<Stretch, 'index' | 'leg'>>;

/** Whose wall stands at the end of a stretch, if any does. */
function wallBetween(meeting: { here: Meeting; next: Meeting | undefined; building: Parking['building'] }) {
  const { here, next, building } = meeting;
  if (next === undefined) {
    if (here.place === 'house') return { of: 'house', under: here.under } as const;
    return here.place === 'outdoors' && building !== 'outdoor' ? ({ of: 'garage', under: 'slab' } as const) : undefined;
  }
  if (here.place === next.place || (here.place !== 'outdoors' && next.place !== 'outdoors')) return undefined;
  const inside = here.place === 'outdoors' ? next : here;
  return inside.place === 'house'
    ? ({ of: 'house', under: inside.under } as const)
    : ({ of: 'garage', under: 'slab' } as const);
}

/** Does the route pass an attic? Then the house is drawn up to its roof. */
export function hasAttic(stretches: readonly Stretch[]): boolean {
  return stretches.some(({ leg }) => leg.kind === 'attic');
}
