import { area, type Mark } from './drawing.ts';
import type { Profile, Stretch } from './profile.ts';
import { at, type Frame } from './sheet-frame.ts';

const HALF_PT = 3.2;

/** A diamond on each leg that turns by stated bends: a section shows no turns to the side, so their degrees stand in the notes. */
export function bendMarks({ stretches }: Profile, frame: Frame): Mark[] {
  return turning(stretches).map(({ x0, x1, routeFt, index }) => {
    const [x, y] = at(frame, (x0 + x1) / 2, routeFt);
    return area({
      points: [
        [x, y - HALF_PT],
        [x + HALF_PT, y],
        [x, y + HALF_PT],
        [x - HALF_PT, y],
      ],
      tone: 'paper',
      weightPt: 0.8,
      legs: [index],
    });
  });
}

/** What the diamonds stand for: `Diamonds: bends of 90° in leg 2, 180° in leg 5.` */
export function bendsInWords(route: readonly { bendsDeg?: number | undefined }[]): string {
  const turns = route.flatMap(({ bendsDeg = 0 }, leg) => (bendsDeg > 0 ? [`${bendsDeg}° in leg ${leg + 1}`] : []));
  return turns.length === 0 ? '' : `Diamonds: bends of ${turns.join(', ')}.`;
}

function turning(stretches: readonly Stretch[]): Stretch[] {
  return stretches.filter(({ leg }) => (leg.bendsDeg ?? 0) > 0);
}
