import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { unpackWoff } from './woff.ts';

const require = createRequire(import.meta.url);

/** The faces of a sheet: Barlow for sentences, its semi-condensed cut for schedules and drawings. */
export type Face = 'text' | 'text-heavy' | 'narrow' | 'narrow-heavy';

const FILES: Record<Face, { family: string; weight: 400 | 600 }> = {
  text: { family: 'barlow', weight: 400 },
  'text-heavy': { family: 'barlow', weight: 600 },
  narrow: { family: 'barlow-semi-condensed', weight: 400 },
  'narrow-heavy': { family: 'barlow-semi-condensed', weight: 600 },
};

/** The cuts by script that the registry has; the first that has a character sets it. */
const SCRIPTS = ['latin', 'latin-ext'] as const;

/** Fonts stay unpacked once they were needed: every paper uses the same ones. */
const unpacked = new Map<string, Buffer>();

function readFont(face: Face, script: (typeof SCRIPTS)[number]): Buffer {
  const { family, weight } = FILES[face];
  const name = `@fontsource/${family}/files/${family}-${script}-${weight}-normal.woff`;
  const font = unpacked.get(name) ?? unpackWoff(readFileSync(require.resolve(name)));
  unpacked.set(name, font);
  return font;
}

interface Glyphs {
  hasGlyphForCodePoint(codePoint: number): boolean;
}

/** Characters of one font that follow each other. */
export interface FontRun {
  font: string;
  text: string;
}

/** What stands for a character that no font has; how many there were is counted and said. */
const MISSING = '?';

/** Registers the faces with a document, finds for each character the font that has it, and counts those that none has. */
export class Typefaces {
  readonly #doc: PDFKit.PDFDocument;
  readonly #glyphs = new Map<string, Glyphs>();
  #missing = 0;

  constructor(doc: PDFKit.PDFDocument) {
    this.#doc = doc;
    for (const face of Object.keys(FILES) as Face[]) {
      for (const script of SCRIPTS) doc.registerFont(`${face} ${script}`, readFont(face, script));
    }
  }

  /** How many characters were replaced because no font has them. */
  get missing(): number {
    return this.#missing;
  }

  /** A text in runs, each of one font. */
  runsOf(text: string, face: Face, { count = false } = {}): FontRun[] {
    const runs: FontRun[] = [];
    for (const character of text.normalize('NFC')) {
      const found = SCRIPTS.map((script) => `${face} ${script}`).find((font) => this.#has(font, character));
      if (!found && count) this.#missing += 1;
      const font = found ?? `${face} ${SCRIPTS[0]}`;
      const shown = found ? character : MISSING;
      const last = runs.at(-1);
      if (last?.font === font) last.text += shown;
      else runs.push({ font, text: shown });
    }
    return runs;
  }

  #has(font: string, character: string): boolean {
    let glyphs = this.#glyphs.get(font);
    if (!glyphs) {
      this.#doc.font(font);
      // The embedded font lies below the document's own wrapper, which the typings leave out.
      glyphs = (this.#doc as unknown as { _font: { font: Glyphs } })._font.font;
      this.#glyphs.set(font, glyphs);
    }
    return glyphs.hasGlyphForCodePoint(character.codePointAt(0) ?? 0);
  }
}
