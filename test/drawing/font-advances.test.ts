import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { ADVANCES, textWidthPt } from '../../server/drawing/font-advances.ts';

const require = createRequire(import.meta.url);
const doc = new PDFDocument();

/** The breadth that the font file itself gives a text, in thousandths of its size. */
function fontWidth(text: string, weight: 400 | 600, features: PDFKit.Mixins.OpenTypeFeatures[] = []): number {
  const file = `@fontsource/barlow-semi-condensed/files/barlow-semi-condensed-latin-${weight}-normal.woff`;
  return doc.font(require.resolve(file)).fontSize(1000).widthOfString(text, { features });
}

describe('breadths of texts', () => {
  for (const weight of [400, 600] as const) {
    it(`are those of the font, weight ${weight}, the wider figure counting`, () => {
      const printed = ADVANCES[weight].flatMap(([advance, characters]) => [...characters].map((one) => [one, advance]));
      const read = printed.map(([one]) => [
        one,
        Math.max(fontWidth(String(one), weight), fontWidth(String(one), weight, ['tnum'])),
      ]);
      expect(printed).toEqual(read.map(([one, advance]) => [one, Math.round(Number(advance))]));
      expect(printed.length).toBeGreaterThan(190);
    });

    it(`are never less than what is set, weight ${weight}`, () => {
      for (const text of ['1-1/4 in PVC Sch. 80', 'AVATAR To. $1,747', 'over $12,345', '2 × irrigation', 'café “x”']) {
        const widthPt = textWidthPt(text, { sizePt: 1000, weight });
        // Kerning may only draw together; a thousandth of the size for a pair that it pushes apart.
        expect(widthPt + text.length).toBeGreaterThanOrEqual(fontWidth(text, weight, ['tnum', 'kern']));
      }
    });
  }

  it('take a character that the font lacks for as broad as it is high', () => {
    expect(textWidthPt('車', { sizePt: 9, weight: 400 })).toBe(9);
  });
});
