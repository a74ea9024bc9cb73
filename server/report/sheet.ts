import PDFDocument from 'pdfkit';
import type { Drawing } from '../drawing/drawing.ts';
import { TONE_COLORS } from '../drawing/tones.ts';
import { drawMarks } from './marks.ts';
import { type Element, elementOf } from './tags.ts';
import { type Face, type FontRun, Typefaces } from './typefaces.ts';
import { withPowers } from './wording.ts';

/** Letter is 8-1/2 × 11 in, A4 210 × 297 mm, in points. */
export const PAGE_SIZES = { letter: [612, 792], a4: [595.28, 841.89] } as const;
export type PageSize = keyof typeof PAGE_SIZES;

/** Three sizes for text and a large one, in points. */
export const SIZE_PT = { small: 8, text: 9.5, head: 12.5, large: 23 } as const;

export const INK = TONE_COLORS.ink.light;
export const GREY = '#565b61';
/** Of the rules between rows, which lead the eye and carry no meaning. */
export const FAINT = '#c3c6c9';
const RULE_PT = 0.5;
/** The left margin leaves room for a binder's holes. */
/** Tabular figures and kerning. */
const FEATURES: PDFKit.Mixins.OpenTypeFeatures[] = ['tnum', 'kern'];
/** The size at which breadths are measured. */
const MEASURED_PT = 100;
const MARGIN_PT = { left: 61, right: 38, top: 40, bottom: 66 } as const;
const LEADING = 1.3;
/** Lines of the large size stand closer. */
const LARGE_LEADING = 1.06;

/** A number and its unit stay together. */
const UNIT_AFTER_NUMBER = /(\d) (?=(?:ft|in|A|AWG|kcmil|V|kW|h|%|days?)(?![\w-]))/g;

/** How a text is set. */
export interface Style {
  face: Face;
  sizePt: number;
  color?: string;
}

export const STYLES = {
  text: { face: 'text', sizePt: SIZE_PT.text },
  'text-heavy': { face: 'text-heavy', sizePt: SIZE_PT.text },
  cell: { face: 'narrow', sizePt: SIZE_PT.text },
  'cell-heavy': { face: 'narrow-heavy', sizePt: SIZE_PT.text },
  small: { face: 'narrow', sizePt: SIZE_PT.small, color: GREY },
  head: { face: 'narrow-heavy', sizePt: SIZE_PT.head },
  large: { face: 'narrow-heavy', sizePt: SIZE_PT.large },
} as const satisfies Record<string, Style>;

/** What stands at the foot of every page. */
export interface TitleBlock {
  title: string;
  /** What the sheet is, such as the option that it describes. */
  subject: string;
  /** In words, such as April 14, 2026. */
  date: string;
  bookRevision: number;
  /** One sentence that stands on every page. */
  notice: string;
}

interface SheetChoice {
  pageSize: PageSize;
  landscape?: boolean;
  titleBlock: TitleBlock;
  /** YYYY-MM-DD: the document's date of creation, so that the same input gives the same bytes. */
  asOf: string;
}

/** A document of tagged pages that fills from top to bottom. Ordinates in points, y down. */
export class Sheet {
  readonly doc: PDFKit.PDFDocument;
  readonly faces: Typefaces;
  /** The element that holds all others. */
  readonly root: Element;
  readonly leftX: number = MARGIN_PT.left;
  readonly rightX: number;
  readonly #titleBlock: TitleBlock;
  readonly #widths = new Map<string, number>();
  readonly #chunks: Buffer[] = [];
  readonly #done: Promise<Buffer>;
  y: number;

  constructor({ pageSize, landscape = false, titleBlock, asOf }: SheetChoice) {
    const [shortPt, longPt] = PAGE_SIZES[pageSize];
    const size: [number, number] = landscape ? [longPt, shortPt] : [shortPt, longPt];
    this.#titleBlock = titleBlock;
    this.doc = new PDFDocument({
      size,
      margins: { top: 0, bottom: 0, left: 0, right: 0 },
      autoFirstPage: false,
      bufferPages: true,
      tagged: true,
      displayTitle: true,
      pdfVersion: '1.7',
      lang: 'en-US',
      // The typings know the PDF/A subsets only.
      ...({ subset: 'PDF/UA' } as object),
      info: {
        Title: titleBlock.title,
        Subject: titleBlock.subject,
        Creator: 'Feedrun',
        Producer: 'Feedrun',
        CreationDate: new Date(`${asOf}T00:00:00Z`),
      },
    });
    this.#done = new Promise((resolve, reject) => {
      this.doc.on('data', (chunk: Buffer) => this.#chunks.push(chunk));
      this.doc.on('end', () => resolve(Buffer.concat(this.#chunks)));
      this.doc.on('error', reject);
    });
    this.root = elementOf(this.doc, 'Document');
    this.doc.addStructure(this.root);
    this.faces = new Typefaces(this.doc);
    this.rightX = size[0] - MARGIN_PT.right;
    this.y = MARGIN_PT.top;
    this.newPage();
  }

  get widthPt(): number {
    return this.rightX - this.leftX;
  }

  /** Where the title block begins. */
  get bottomY(): number {
    return this.doc.page.height - MARGIN_PT.bottom;
  }

  /** What a page has room for between its upper margin and the title block. */
  get bodyHeightPt(): number {
    return this.bottomY - MARGIN_PT.top;
  }

  newPage(): void {
    this.doc.addPage();
    this.y = MARGIN_PT.top;
  }

  /** Begins a page where less than this height is left. */
  ensure(heightPt: number): void {
    if (this.y + heightPt > this.bottomY) this.newPage();
  }

  lineHeightPt({ sizePt }: Style): number {
    return sizePt * (sizePt >= SIZE_PT.large ? LARGE_LEADING : LEADING);
  }

  widthOf(text: string, style: Style): number {
    return this.faces.runsOf(text, style.face).reduce((sum, run) => sum + this.#runWidth(run, style), 0);
  }

  /** Breadths grow with the size, so that one measure of a word serves all sizes. */
  #runWidth({ font, text }: FontRun, { sizePt }: Style): number {
    const key = `${font}|${text}`;
    let perPt = this.#widths.get(key);
    if (perPt === undefined) {
      perPt = this.doc.font(font).fontSize(MEASURED_PT).widthOfString(text, { features: FEATURES }) / MEASURED_PT;
      this.#widths.set(key, perPt);
    }
    return perPt * sizePt;
  }

  /** Breaks a text into lines of at most this breadth, no number from its unit; a broader word where it must be. */
  wrap(text: string, widthPt: number, style: Style): string[] {
    const spacePt = this.widthOf(' ', style);
    const lines: string[][] = [[]];
    let filledPt = 0;
    const words = withPowers(text)
      .replace(UNIT_AFTER_NUMBER, '$1\u00a0')
      .split(/[ \t\n]+/);
    for (const word of words.flatMap((one) => this.#broken(one, widthPt, style))) {
      const wordPt = this.widthOf(word, style);
      const line = lines.at(-1) ?? [];
      const addedPt = line.length === 0 ? wordPt : spacePt + wordPt;
      if (line.length > 0 && filledPt + addedPt > widthPt) {
        lines.push([word]);
        filledPt = wordPt;
      } else {
        line.push(word);
        filledPt += addedPt;
      }
    }
    return lines.map((line) => line.join(' ').replaceAll('\u00a0', ' '));
  }

  #broken(word: string, widthPt: number, style: Style): string[] {
    if (this.widthOf(word, style) <= widthPt) return [word];
    const parts: string[] = [];
    let part = '';
    for (const character of word) {
      if (part !== '' && this.widthOf(part + character, style) > widthPt) {
        parts.push(part);
        part = character;
      } else part += character;
    }
    return [...parts, part];
  }

  /** Sets one line of text on a base line. Inside a tag or an artifact of the caller's. */
  setLine(
    text: string,
    {
      x,
      baseY,
      style,
      align = 'left',
    }: { x: number; baseY: number; style: Style; align?: 'left' | 'right' | 'center' },
  ): void {
    const widthPt = align === 'left' ? 0 : this.widthOf(text, style);
    let at = align === 'left' ? x : align === 'right' ? x - widthPt : x - widthPt / 2;
    this.doc.fillColor(style.color ?? INK);
    for (const run of this.faces.runsOf(text, style.face, { count: true })) {
      this.doc.font(run.font).fontSize(style.sizePt);
      this.doc.text(run.text, at, baseY, { lineBreak: false, baseline: 'alphabetic', features: FEATURES });
      at += this.#runWidth(run, style);
    }
  }

  /** Sets wrapped lines from an upper edge; answers with their lower edge. */
  setLines(
    lines: readonly string[],
    { x, topY, style, align = 'left' }: { x: number; topY: number; style: Style; align?: 'left' | 'right' },
  ): number {
    const lineHeightPt = this.lineHeightPt(style);
    lines.forEach((line, nth) => {
      this.setLine(line, { x, baseY: topY + nth * lineHeightPt + style.sizePt * 0.95, style, align });
    });
    return topY + lines.length * lineHeightPt;
  }

  /** Adds a tagged element that is drawn at once, on the page that is open. */
  tagged(type: string, draw: () => void, { parent, alt }: { parent?: Element; alt?: string } = {}): void {
    const element = elementOf(this.doc, type, alt === undefined ? {} : { alt }, draw);
    (parent ?? this.root).add(element);
    element.end();
  }

  /** Draws what carries no meaning of its own: rules, hatches, repeated heads. */
  artifact(draw: () => void, type: 'Layout' | 'Pagination' = 'Layout'): void {
    this.doc.markContent('Artifact', { type });
    draw();
    this.doc.endMarkedContent();
  }

  /** A horizontal rule across the sheet, or between two abscissas. */
  rule(y: number, { fromX = this.leftX, toX = this.rightX, weightPt = RULE_PT, color = INK } = {}): void {
    this.artifact(() => this.doc.moveTo(fromX, y).lineTo(toX, y).lineWidth(weightPt).strokeColor(color).stroke());
  }

  /** A heading with a rule above it, kept together with what follows. */
  heading(text: string, { keepPt = 48, level = 2 }: { keepPt?: number; level?: 2 | 3 } = {}): void {
    const style = level === 2 ? STYLES.head : STYLES['cell-heavy'];
    this.y += level === 2 ? 12 : 6;
    this.ensure(this.lineHeightPt(style) + keepPt);
    if (level === 2) this.rule(this.y, { weightPt: 1 });
    const topY = this.y + (level === 2 ? 4 : 0);
    this.tagged(`H${level}`, () => {
      this.y = this.setLines([withPowers(text)], { x: this.leftX, topY, style }) + 2;
    });
  }

  /** A paragraph over the whole breadth, or a part of it. Lines stay on one page. */
  paragraph(
    text: string,
    {
      style = STYLES.text,
      x = this.leftX,
      widthPt = this.widthPt,
      parent,
    }: { style?: Style; x?: number; widthPt?: number; parent?: Element } = {},
  ): void {
    const lines = this.wrap(text, widthPt, style);
    this.ensure(lines.length * this.lineHeightPt(style));
    const topY = this.y;
    this.tagged('P', () => this.setLines(lines, { x, topY, style }), parent ? { parent } : {});
    this.y = topY + lines.length * this.lineHeightPt(style);
  }

  /** A list of sentences with a dash before each. */
  list(items: readonly string[], { style = STYLES.text }: { style?: Style } = {}): void {
    const list = elementOf(this.doc, 'L');
    this.root.add(list);
    for (const item of items) {
      const lines = this.wrap(item, this.widthPt - 12, style);
      this.ensure(lines.length * this.lineHeightPt(style));
      const topY = this.y;
      const entry = elementOf(this.doc, 'LI');
      list.add(entry);
      this.tagged('Lbl', () => this.setLines(['–'], { x: this.leftX, topY, style }), { parent: entry });
      this.tagged('LBody', () => this.setLines(lines, { x: this.leftX + 12, topY, style }), { parent: entry });
      entry.end();
      this.y = topY + lines.length * this.lineHeightPt(style) + 1.5;
    }
    list.end();
  }

  /** A drawing at its own scale, or smaller where the sheet is narrower; its words are its text alternative. */
  drawing(drawing: Drawing): void {
    const scale = Math.min(1, this.widthPt / drawing.widthPt);
    this.ensure(drawing.heightPt * scale);
    const origin: [number, number] = [this.leftX, this.y];
    const bbox = [this.leftX, this.y, this.leftX + drawing.widthPt * scale, this.y + drawing.heightPt * scale];
    const figure = elementOf(this.doc, 'Figure', { alt: drawing.altText, bbox }, () =>
      drawMarks(this, drawing, { origin, scale }),
    );
    this.root.add(figure);
    figure.end();
    this.y += drawing.heightPt * scale;
  }

  /** Writes the title blocks and closes the document. */
  async finish(): Promise<Buffer> {
    const { start, count } = this.doc.bufferedPageRange();
    for (let page = start; page < start + count; page += 1) {
      this.doc.switchToPage(page);
      this.artifact(() => this.#drawTitleBlock({ page: page - start + 1, pages: count }), 'Pagination');
    }
    this.root.end();
    this.doc.end();
    return this.#done;
  }

  #drawTitleBlock({ page, pages }: { page: number; pages: number }): void {
    const { title, subject, date, bookRevision, notice } = this.#titleBlock;
    const topY = this.bottomY + 14;
    const cells = [
      { name: 'Prices of', words: date, x: this.rightX - 236 },
      { name: 'Price book', words: `revision ${bookRevision}`, x: this.rightX - 138 },
      { name: 'Page', words: `${page} of ${pages}`, x: this.rightX - 62 },
    ];
    const cellsX = this.rightX - 236;
    const heavy = { ...STYLES['cell-heavy'] };
    const rule = (fromX: number, fromY: number, toX: number, toY: number, weightPt: number) =>
      this.doc.moveTo(fromX, fromY).lineTo(toX, toY).lineWidth(weightPt).strokeColor(INK).stroke();
    rule(this.leftX, topY, this.rightX, topY, 1);
    const [shown = ''] = this.wrap(title, cellsX - this.leftX - 10, heavy);
    this.setLine(shown === title ? shown : `${shown} …`, { x: this.leftX, baseY: topY + 11, style: heavy });
    const [about = ''] = this.wrap(subject, cellsX - this.leftX - 10, STYLES.small);
    this.setLine(about, { x: this.leftX, baseY: topY + 21.5, style: STYLES.small });
    for (const { name, words, x } of cells) {
      rule(x, topY, x, topY + 26, RULE_PT);
      this.setLine(name, { x: x + 6, baseY: topY + 10, style: STYLES.small });
      this.setLine(words, { x: x + 6, baseY: topY + 21.5, style: STYLES.cell });
    }
    rule(this.leftX, topY + 26, this.rightX, topY + 26, RULE_PT);
    this.setLine(notice, { x: this.leftX, baseY: topY + 36, style: STYLES.small });
  }
}
