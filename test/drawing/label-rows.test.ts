import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeLabels } from '../../server/drawing/label-rows.ts';

const room = { leftX: 0, rightX: 400, gapPt: 4, mostRows: 3 };

describe('labels in rows', () => {
  it('stand over what they name where there is room', () => {
    const placed = placeLabels(
      [
        { middleX: 100, widthPt: 40 },
        { middleX: 300, widthPt: 40 },
      ],
      room,
    );
    expect(placed?.map(({ middleX }) => middleX)).toEqual([100, 300]);
  });

  // Ours, by hand: two of 40 pt that both want 100 share the move: 100 ∓ (40 + 4) / 2.
  it('share the move where two want the same place', () => {
    const placed = placeLabels(
      [
        { middleX: 100, widthPt: 40 },
        { middleX: 100, widthPt: 40 },
      ],
      room,
    );
    expect(placed?.map(({ middleX }) => middleX)).toEqual([78, 122]);
  });

  it('stay in the room', () => {
    const placed = placeLabels(
      [
        { middleX: 5, widthPt: 60 },
        { middleX: 399, widthPt: 60 },
      ],
      room,
    );
    expect(placed?.map(({ middleX }) => middleX)).toEqual([30, 370]);
  });

  it('take a second row before they overlap, and give up beyond the last', () => {
    const wide = Array.from({ length: 4 }, (_, nth) => ({ middleX: 50 + nth * 100, widthPt: 150 }));
    expect(placeLabels(wide, room)?.map(({ row }) => row)).toEqual([0, 1, 0, 1]);
    expect(placeLabels(wide, { ...room, mostRows: 1 })).toBeNull();
  });

  const labels = fc
    .array(
      fc.record({
        middleX: fc.double({ min: 0, max: 400, noNaN: true }),
        widthPt: fc.double({ min: 5, max: 90, noNaN: true }),
      }),
      {
        maxLength: 14,
      },
    )
    .map((list) => list.sort((a, b) => a.middleX - b.middleX));

  it('never overlap, keep their order, and let leaders pass between them', () => {
    fc.assert(
      fc.property(labels, (wanted) => {
        const placed = placeLabels(wanted, { ...room, mostRows: 4 });
        if (!placed) return;
        const rows = Math.max(0, ...placed.map(({ row }) => row)) + 1;
        for (let row = 0; row < rows; row += 1) {
          const items = placed.flatMap((place, nth) => {
            if (place.row === row) return [{ x: place.middleX, half: (wanted[nth]?.widthPt ?? 0) / 2 }];
            const x = place.throughX[row - place.row - 1];
            return x === undefined ? [] : [{ x, half: 0 }];
          });
          items.slice(1).forEach((item, nth) => {
            const before = items[nth] ?? item;
            // A billionth of a point for sums of binary fractions.
            expect(item.x - item.half - (before.x + before.half)).toBeGreaterThanOrEqual(room.gapPt - 1e-9);
          });
          for (const { x, half } of items) {
            expect(x - half).toBeGreaterThanOrEqual(room.leftX - 1e-9);
            expect(x + half).toBeLessThanOrEqual(room.rightX + 1e-9);
          }
        }
      }),
    );
  });
});
