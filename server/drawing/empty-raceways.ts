import { dashed, type Mark, type Point, type Tone } from './drawing.ts';
import type { Profile } from './profile.ts';
import { at, type Frame } from './sheet-frame.ts';

/** What an empty raceway is laid for. */
export type EmptyRaceway = 'spare' | 'data';

/** The empty raceways that a stated option asks for beside its runs. */
export function emptyRacewaysOf(stated: {
  spareConduit?: object | undefined;
  dataConduit?: object | undefined;
}): EmptyRaceway[] {
  return [...(stated.spareConduit ? ['spare' as const] : []), ...(stated.dataConduit ? ['data' as const] : [])];
}

/** A later feeder is electric, data is communications: the colors by which their marks are painted (APWA). */
const TONES: Readonly<Record<EmptyRaceway, Tone>> = { spare: 'route', data: 'communications' };
const WORDS: Readonly<Record<EmptyRaceway, string>> = { spare: 'spare conduit', data: 'data conduit' };
/** The first lies so far below the run, each further one below it. In points. */
const BELOW_PT = 3.2;

/** Empty raceways as broken lines below the run, leg by leg. */
export function emptyRacewayMarks(
  raceways: readonly EmptyRaceway[],
  { profile, frame }: { profile: Profile; frame: Frame },
): Mark[] {
  const { stretches } = profile;
  return raceways.flatMap((raceway, nth) => {
    const shiftPt = BELOW_PT * (nth + 1);
    const below = ([x, y]: Point): Point => [x, y + shiftPt];
    return stretches.flatMap((stretch, place): Mark[] => {
      const next = stretches[place + 1];
      const points: Point[] = [
        at(frame, stretch.x0, stretch.routeFt),
        at(frame, stretch.x1, stretch.routeFt),
        ...(next ? [at(frame, stretch.x1, next.routeFt)] : []),
      ].map(below);
      return dashed({ points, tone: TONES[raceway], weightPt: 1, dashPt: 4, gapPt: 2.5, legs: [stretch.index] });
    });
  });
}

/** What the broken lines are, for the notes below the drawing: `Broken red line: spare conduit, empty.` */
export function emptyRacewaysInWords(raceways: readonly EmptyRaceway[]): string {
  if (raceways.length === 0) return '';
  const named = raceways.map((raceway) => `${WORDS[raceway]} (${raceway === 'spare' ? 'red' : 'orange'})`);
  return `Broken lines below the run: ${named.join(', ')}, empty and capped.`;
}
