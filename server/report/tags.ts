/** A tagged element of a document's structure, with the dictionary that the typings leave out. */
export interface Element extends PDFKit.PDFStructureElement {
  dictionary: { data: Record<string, unknown> };
}

interface Attributes {
  alt?: string;
  /** Left, upper, right and lower edge in points, y down. */
  bbox?: number[];
  /** Of a table's head cell: what it is the head of. */
  scope?: 'Column' | 'Row';
  colSpan?: number;
}

/**
 * A tagged element, not yet put anywhere. ISO 32000-1, 14.8.5.7: a head cell says by `Scope` what it heads.
 * @param draw  draws its content when the element is put into the structure
 */
export function elementOf(
  doc: PDFKit.PDFDocument,
  type: string,
  attributes: Attributes = {},
  draw?: () => void,
): Element {
  const { colSpan, ...rest } = attributes;
  const element = doc.struct(type, rest as object) as Element;
  if (colSpan !== undefined && colSpan > 1) {
    const table = (element.dictionary.data.A ?? { O: 'Table' }) as Record<string, unknown>;
    element.dictionary.data.A = { ...table, ColSpan: colSpan };
  }
  if (draw) element.add(draw);
  return element;
}
