import { describe, expect, it } from 'vitest';
import { HATCH_NAMES, HATCHES } from '../../server/drawing/hatches.ts';
import { TONE_COLORS } from '../../server/drawing/tones.ts';

/** Relative luminance and contrast as WCAG 2.2 defines them. */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: string, b: string): number {
  const [high = 0, low = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

describe('tones', () => {
  for (const mode of ['light', 'dark'] as const) {
    const of = (tone: keyof typeof TONE_COLORS) => contrast(TONE_COLORS[tone][mode], TONE_COLORS.paper[mode]);

    it(`set letters at 4.5:1 or more, ${mode}`, () => {
      expect(of('ink')).toBeGreaterThanOrEqual(4.5);
    });

    it(`draw lines that carry meaning at 3:1 or more, ${mode}`, () => {
      for (const tone of ['grey', 'route', 'water', 'sewer', 'irrigation', 'excavation', 'stop'] as const) {
        expect([tone, of(tone) >= 3]).toEqual([tone, true]);
      }
    });
  }
});

describe('hatches', () => {
  it('stay within their tiles, so that page and paper repeat them alike', () => {
    for (const name of HATCH_NAMES) {
      const { widthPt, heightPt, strokes, dots } = HATCHES[name];
      expect(strokes.length + dots.length).toBeGreaterThan(0);
      for (const [x1, y1, x2, y2] of strokes) {
        for (const x of [x1, x2]) expect(x >= 0 && x <= widthPt).toBe(true);
        for (const y of [y1, y2]) expect(y >= 0 && y <= heightPt).toBe(true);
      }
      for (const [x, y] of dots) expect(x >= 0 && x <= widthPt && y >= 0 && y <= heightPt).toBe(true);
    }
  });

  it('differ from each other', () => {
    expect(new Set(HATCH_NAMES.map((name) => JSON.stringify(HATCHES[name]))).size).toBe(HATCH_NAMES.length);
  });
});
