import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import createQpdf from '@neslinesli93/qpdf-wasm';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

const require = createRequire(import.meta.url);

/** A page as somebody reads it: its words in order, and its size in points. */
export interface ReadPage {
  text: string;
  widthPt: number;
  heightPt: number;
  /** Each piece of text with its base line's left end, in points from the lower left corner. */
  pieces: { text: string; xPt: number; yPt: number; widthPt: number }[];
}

/** An element of the structure: its role and what is below it. */
export interface ReadElement {
  role: string;
  alt?: string;
  children: ReadElement[];
}

/** A document read back with a reader that is not ours. */
export interface ReadPdf {
  pages: ReadPage[];
  elements: ReadElement[];
  info: Record<string, unknown>;
  lang: string | null;
  marked: boolean;
}

interface Node {
  role?: string;
  alt?: string;
  children?: Node[];
}

/** Reads a PDF with pdf.js. */
export async function readPdf(bytes: Buffer): Promise<ReadPdf> {
  const document = await getDocument({ data: new Uint8Array(bytes), useSystemFonts: false, verbosity: 0 }).promise;
  const pages: ReadPage[] = [];
  const elements: ReadElement[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const content = await page.getTextContent();
    const text = content.items.map((item) => ('str' in item ? `${item.str}${item.hasEOL ? '\n' : ' '}` : '')).join('');
    const { width, height } = page.getViewport({ scale: 1 });
    const pieces = content.items.flatMap((item) =>
      'str' in item && item.str.trim() !== ''
        ? [{ text: item.str, xPt: Number(item.transform[4]), yPt: Number(item.transform[5]), widthPt: item.width }]
        : [],
    );
    pages.push({ text: text.replace(/\s+/g, ' '), widthPt: width, heightPt: height, pieces });
    const tree = (await page.getStructTree()) as Node | null;
    elements.push(...(tree?.children ?? []).flatMap(elementOf));
  }
  const { info } = await document.getMetadata();
  const markInfo = await document.getMarkInfo();
  const lang = (info as { Language?: string }).Language ?? null;
  await document.loadingTask.destroy();
  return { pages, elements, info: info as Record<string, unknown>, lang, marked: markInfo?.Marked === true };
}

function elementOf({ role, alt, children = [] }: Node): ReadElement[] {
  return role === undefined ? [] : [{ role, ...(alt !== undefined && { alt }), children: children.flatMap(elementOf) }];
}

/** Every element of a role, at any depth. */
export function allOf(elements: readonly ReadElement[], role: string): ReadElement[] {
  return elements.flatMap((element) => [...(element.role === role ? [element] : []), ...allOf(element.children, role)]);
}

/** What `qpdf --check` says of a PDF: its exit code, 0 when nothing is wrong, 2 for errors, 3 for warnings. */
export async function qpdfCheck(bytes: Buffer): Promise<number> {
  const wasm = readFileSync(require.resolve('@neslinesli93/qpdf-wasm/dist/qpdf.wasm'));
  const qpdf = await createQpdf({
    wasmBinary: wasm,
    noInitialRun: true,
    print: () => {},
    printErr: () => {},
  } as unknown as Parameters<typeof createQpdf>[0]);
  // The typings leave out what the module's file system is fed with.
  const files = qpdf.FS as unknown as { writeFile(path: string, data: Uint8Array): void };
  files.writeFile('/paper.pdf', new Uint8Array(bytes));
  return qpdf.callMain(['--check', '/paper.pdf']);
}
