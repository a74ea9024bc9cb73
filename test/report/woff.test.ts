import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { NotWoffError, unpackWoff } from '../../server/report/woff.ts';

const require = createRequire(import.meta.url);
const woff = readFileSync(require.resolve('@fontsource/barlow/files/barlow-latin-400-normal.woff'));

describe('a font unpacked', () => {
  const font = unpackWoff(woff);

  it('is as long as its packed form says that it was', () => {
    // W3C WOFF 1.0, section 3: totalSfntSize stands at byte 16.
    expect(font.length).toBe(woff.readUInt32BE(16));
  });

  it('has tables with the checksums of the OpenType specification', () => {
    const count = font.readUInt16BE(4);
    for (let nth = 0; nth < count; nth += 1) {
      const entry = 12 + nth * 16;
      const tag = font.toString('latin1', entry, entry + 4);
      const [offset, bytes] = [font.readUInt32BE(entry + 8), font.readUInt32BE(entry + 12)];
      let sum = 0;
      for (let at = 0; at < bytes; at += 4) {
        // The table `head` is summed with its own adjustment, at byte 8, taken as 0.
        if (tag !== 'head' || at !== 8) sum = (sum + font.readUInt32BE(offset + at)) >>> 0;
      }
      expect([tag, sum]).toEqual([tag, font.readUInt32BE(entry + 4)]);
    }
  });

  it('sets words exactly as broad as the packed one', () => {
    const doc = new PDFDocument();
    const width = (source: Buffer) => doc.font(source).fontSize(1000).widthOfString('AVATAR 1,747 ft');
    expect(width(font)).toBe(width(woff));
  });

  it('is refused when it is something else', () => {
    expect(() => unpackWoff(Buffer.from('wOF2, and not what was asked for, of some length'))).toThrow(NotWoffError);
    expect(() => unpackWoff(Buffer.from(''))).toThrow('A font must begin with the signature wOFF.');
  });
});
