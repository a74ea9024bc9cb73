/** Breaks a text into lines of at most `width` characters, between words where it can. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).flatMap((whole) => pieces(whole, width))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (longer.length <= width) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

/** A word that is longer than a line is cut. */
function pieces(word: string, width: number): string[] {
  const cut: string[] = [];
  for (let from = 0; from < word.length; from += width) cut.push(word.slice(from, from + width));
  return cut;
}

const GAP = '  ';

/**
 * Sets cells side by side, each wrapped within its width, in as many lines as the longest takes. Columns are counted
 * from 0; the `right` ones are set flush right. A cell keeps the blanks it begins with, on every line.
 */
export function columns(
  cells: readonly string[],
  widths: readonly number[],
  { right = [] as readonly number[] } = {},
): string[] {
  const set = cells.map((cell, at) => {
    const width = widths[at] ?? 0;
    const indent = /^ */.exec(cell)?.[0] ?? '';
    const lines = wrapped(cell.trim(), width - indent.length).map((line) => indent + line);
    return lines.map((line) => (right.includes(at) ? line.padStart(width) : line.padEnd(width)));
  });
  const height = Math.max(...set.map((lines) => lines.length));
  const blank = widths.map((width) => ' '.repeat(width));
  return Array.from({ length: height }, (_, at) =>
    set
      .map((lines, column) => lines[at] ?? blank[column] ?? '')
      .join(GAP)
      .trimEnd(),
  );
}
