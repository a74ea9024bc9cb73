import { line, type Mark } from './drawing.ts';
import { cutY } from './house.ts';
import type { Profile, Stretch } from './profile.ts';
import { panelCorner } from './section-scenery.ts';
import { at, type Frame, yOf } from './sheet-frame.ts';

/** The route itself, leg by leg, with what rises and falls between them. */
export function routeMarks(profile: Profile, frame: Frame): Mark[] {
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
export function dimensionLine(profile: Profile, y: number): Mark[] {
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
export function projection(profile: Profile, { fromY, frame }: { fromY: number; frame: Frame }): Mark[] {
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
