/** What stands between two cells of a row. */
export type Delimiter = ',' | ';';

/** The rows of a file, each as its cells; or the row that cannot be read, the first being 1, and why. */
export type CsvRecords = { records: string[][] } | { row: number; problem: string };

const QUOTE = 0x22;
const LINE_FEED = 0x0a;
const CARRIAGE_RETURN = 0x0d;
const BYTE_ORDER_MARK = 0xfeff;

/** How far the text was read. */
interface Place {
  text: string;
  at: number;
  separator: number;
}

class UnreadableCell extends Error {}

/**
 * Reads the cells of CSV as RFC 4180 writes them, its line ends CRLF, LF or CR, with or without a byte order mark; the
 * last row may lack its line end. A cell with a quote in it stands in quotes and doubles it; what is written otherwise
 * could be read in two ways and is refused. Written out, for a list has millions of cells: it passes each sign once.
 */
export function readRecords(text: string, delimiter: Delimiter): CsvRecords {
  const place = { text, at: text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0, separator: delimiter.charCodeAt(0) };
  const records: string[][] = [];
  try {
    while (place.at < text.length) records.push(nextRecord(place));
  } catch (error) {
    if (error instanceof UnreadableCell) return { row: records.length + 1, problem: error.message };
    throw error;
  }
  return { records };
}

function nextRecord(place: Place): string[] {
  const { text, separator } = place;
  const cells = [nextCell(place)];
  while (text.charCodeAt(place.at) === separator) {
    place.at += 1;
    cells.push(nextCell(place));
  }
  const ending = text.charCodeAt(place.at);
  if (ending === CARRIAGE_RETURN || ending === LINE_FEED) place.at += 1;
  if (ending === CARRIAGE_RETURN && text.charCodeAt(place.at) === LINE_FEED) place.at += 1;
  return cells;
}

/** The cell that begins here, up to the separator, the line end or the end of the text. */
function nextCell(place: Place): string {
  const { text, separator, at: start } = place;
  if (text.charCodeAt(start) === QUOTE) return quotedCell(place);
  let at = start;
  for (; at < text.length; at += 1) {
    const sign = text.charCodeAt(at);
    if (sign === separator || sign === LINE_FEED || sign === CARRIAGE_RETURN) break;
    if (sign === QUOTE) throw new UnreadableCell('a quote stands within a cell that does not begin with one');
  }
  place.at = at;
  return text.slice(start, at);
}

function quotedCell(place: Place): string {
  const { text, separator } = place;
  const start = place.at + 1;
  let at = text.indexOf('"', start);
  let isDoubled = false;
  while (at >= 0 && text.charCodeAt(at + 1) === QUOTE) {
    isDoubled = true;
    at = text.indexOf('"', at + 2);
  }
  if (at < 0) throw new UnreadableCell('a quote is opened and never closed');
  place.at = at + 1;
  const after = text.charCodeAt(place.at);
  if (place.at < text.length && after !== separator && after !== LINE_FEED && after !== CARRIAGE_RETURN) {
    throw new UnreadableCell('something stands between the closing quote of a cell and what ends the cell');
  }
  const inside = text.slice(start, at);
  return isDoubled ? inside.replaceAll('""', '"') : inside;
}
