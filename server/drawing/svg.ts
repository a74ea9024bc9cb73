import type { Drawing, Mark, Tone } from './drawing.ts';
import { HATCHES, type HatchName } from './hatches.ts';
import { TONE_COLORS } from './tones.ts';

interface SvgChoice {
  /** `variables`: each tone is a CSS variable `--tone-NAME`, the light color where it is not set; `fixed`: that color. */
  colors: 'variables' | 'fixed';
  /** Stands before the ids of the hatches, so that several drawings on one page keep apart. */
  idPrefix?: string;
}

/** The family that the breadths of the texts were reckoned with, and what stands in for it. */
const FAMILY = "'Barlow Semi Condensed', 'Arial Narrow', sans-serif";

/** The drawing as an SVG document: its marks in order, each with its legs as `data-legs`, title and text alternative. */
export function drawingSvg(drawing: Drawing, { colors, idPrefix = 'hatch' }: SvgChoice): string {
  const { widthPt, heightPt, title, altText, marks } = drawing;
  const paint = (tone: Tone) =>
    colors === 'fixed' ? TONE_COLORS[tone].light : `var(--tone-${tone}, ${TONE_COLORS[tone].light})`;
  const hatched = [...new Set(marks.flatMap(({ hatch, tone }) => (hatch ? [`${hatch} ${tone}`] : [])))];
  const patterns = hatched.map((pair) => {
    const [hatch, tone] = pair.split(' ') as [HatchName, Tone];
    return patternOf(hatch, { id: `${idPrefix}-${hatch}-${tone}`, paint: paint(tone) });
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${widthPt} ${heightPt}" width="${widthPt}pt" height="${heightPt}pt" role="img" aria-label="${escaped(altText)}" font-family="${FAMILY}" text-rendering="geometricPrecision">`,
    `<title>${escaped(title)}</title>`,
    `<defs>${patterns.join('')}</defs>`,
    ...marks.map((mark) => markSvg(mark, { paint, idPrefix })),
    '</svg>',
    '',
  ].join('\n');
}

interface Painting {
  paint: (tone: Tone) => string;
  idPrefix: string;
}

function markSvg(mark: Mark, { paint, idPrefix }: Painting): string {
  const legs = mark.legs.length > 0 ? ` data-legs="${mark.legs.join(' ')}"` : '';
  const points = mark.points.map(([x, y]) => `${x},${y}`).join(' ');
  if (mark.kind === 'line') {
    return `<polyline points="${points}" fill="none" stroke="${paint(mark.tone)}" stroke-width="${mark.weight}" stroke-linejoin="round"${legs}/>`;
  }
  if (mark.kind === 'area') {
    const outline =
      mark.weight > 0 ? ` stroke="${paint('ink')}" stroke-width="${mark.weight}" stroke-linejoin="round"` : '';
    const shape = (fill: string, edge: string) => `<polygon points="${points}" fill="${fill}"${edge}${legs}/>`;
    if (!mark.hatch) return shape(paint(mark.tone), outline);
    return shape(paint('paper'), '') + shape(`url(#${idPrefix}-${mark.hatch}-${mark.tone})`, outline);
  }
  const [x = 0, y = 0] = mark.points[0] ?? [];
  return `<text x="${x}" y="${y}" font-size="${mark.sizePt ?? 0}" font-weight="${mark.weight}" text-anchor="${mark.anchor ?? 'start'}" fill="${paint(mark.tone)}"${legs}>${escaped(mark.text ?? '')}</text>`;
}

function patternOf(name: HatchName, { id, paint }: { id: string; paint: string }): string {
  const { widthPt, heightPt, weightPt, strokes, dots } = HATCHES[name];
  const drawn = [
    ...strokes.map(
      ([x1, y1, x2, y2]) => `<path d="M${x1} ${y1}L${x2} ${y2}" stroke="${paint}" stroke-width="${weightPt}"/>`,
    ),
    ...dots.map(([x, y, radius]) => `<circle cx="${x}" cy="${y}" r="${radius}" fill="${paint}"/>`),
  ];
  return `<pattern id="${id}" width="${widthPt}" height="${heightPt}" patternUnits="userSpaceOnUse">${drawn.join('')}</pattern>`;
}

function escaped(words: string): string {
  return words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
