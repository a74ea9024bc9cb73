import type { Drawing, Mark, Point } from '../drawing/drawing.ts';
import { HATCHES } from '../drawing/hatches.ts';
import { TONE_COLORS } from '../drawing/tones.ts';
import type { Sheet } from './sheet.ts';

interface Place {
  origin: Point;
  scale: number;
}

/** Draws a drawing's marks in their order onto a sheet. */
export function drawMarks(sheet: Sheet, { marks }: Drawing, { origin, scale }: Place): void {
  const place = ([x, y]: Point): Point => [origin[0] + x * scale, origin[1] + y * scale];
  for (const mark of marks) {
    const placed = { ...mark, points: mark.points.map(place) };
    if (mark.kind === 'text') drawText(sheet, placed, scale);
    else if (mark.kind === 'line') drawLine(sheet.doc, placed, scale);
    else drawArea(sheet.doc, placed, { origin, scale });
  }
}

function trace(doc: PDFKit.PDFDocument, points: readonly Point[]): void {
  points.forEach(([x, y], nth) => {
    if (nth === 0) doc.moveTo(x, y);
    else doc.lineTo(x, y);
  });
}

function drawLine(doc: PDFKit.PDFDocument, { points, tone, weight }: Mark, scale: number): void {
  trace(doc, points);
  doc
    .lineWidth(weight * scale)
    .lineJoin('round')
    .strokeColor(TONE_COLORS[tone].light)
    .stroke();
}

function drawArea(doc: PDFKit.PDFDocument, mark: Mark, { origin, scale }: Place): void {
  const { points, tone, weight, hatch } = mark;
  trace(doc, points);
  doc
    .closePath()
    .fillColor(hatch ? TONE_COLORS.paper.light : TONE_COLORS[tone].light)
    .fill();
  if (hatch) drawHatch(doc, mark, { origin, scale });
  if (weight === 0) return;
  trace(doc, points);
  doc
    .closePath()
    .lineWidth(weight * scale)
    .lineJoin('round')
    .strokeColor(TONE_COLORS.ink.light)
    .stroke();
}

/** Lays the tiles of a hatch from the drawing's origin on, so that neighbors of one hatch meet without a seam. */
function drawHatch(doc: PDFKit.PDFDocument, { points, tone, hatch }: Mark, { origin, scale }: Place): void {
  if (!hatch) return;
  const { widthPt, heightPt, weightPt, strokes, dots } = HATCHES[hatch];
  const xs = points.map(([x]) => (x - origin[0]) / scale);
  const ys = points.map(([, y]) => (y - origin[1]) / scale);
  const color = TONE_COLORS[tone].light;
  doc.save();
  trace(doc, points);
  doc
    .closePath()
    .clip()
    .lineWidth(weightPt * scale)
    .strokeColor(color)
    .fillColor(color);
  const toX = (x: number) => origin[0] + x * scale;
  const toY = (y: number) => origin[1] + y * scale;
  for (let row = Math.floor(Math.min(...ys) / heightPt); row * heightPt < Math.max(...ys); row += 1) {
    for (let column = Math.floor(Math.min(...xs) / widthPt); column * widthPt < Math.max(...xs); column += 1) {
      const [x0, y0] = [column * widthPt, row * heightPt];
      for (const [xA, yA, xB, yB] of strokes) doc.moveTo(toX(x0 + xA), toY(y0 + yA)).lineTo(toX(x0 + xB), toY(y0 + yB));
      if (strokes.length > 0) doc.stroke();
      for (const [x, y, radius] of dots) doc.circle(toX(x0 + x), toY(y0 + y), radius * scale);
      if (dots.length > 0) doc.fill();
    }
  }
  doc.restore();
}

function drawText(
  sheet: Sheet,
  { points, text = '', sizePt = 0, anchor = 'start', weight, tone }: Mark,
  scale: number,
): void {
  const [x, baseY] = points[0] ?? [0, 0];
  sheet.setLine(text, {
    x,
    baseY,
    style: { face: weight === 600 ? 'narrow-heavy' : 'narrow', sizePt: sizePt * scale, color: TONE_COLORS[tone].light },
    align: anchor === 'start' ? 'left' : anchor === 'end' ? 'right' : 'center',
  });
}
