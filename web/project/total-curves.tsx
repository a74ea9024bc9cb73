import { useMemo, useRef } from 'react';
import { crossingsNote } from '../../server/drawing/comparison-words.ts';
import { curvesDrawing } from '../../server/drawing/curves.ts';
import type { PriceCurves } from '../../server/drawing/price-curves.ts';
import { number, wholeDollars } from '../../server/drawing/wording.ts';
import { PX_PER_PT, useDrawing } from '../parts/use-drawing.ts';
import { useWidthPx } from '../parts/use-width-px.ts';

/** Totals over one thing that grows, drawn as on paper, and the same figures as a table. */
export function TotalCurves({ curves }: { curves: PriceCurves }) {
  const figure = useRef<HTMLElement>(null);
  const widthPx = useWidthPx(figure);
  const drawing = useMemo(
    () => (widthPx > 0 ? curvesDrawing({ ...curves, widthPt: widthPx / PX_PER_PT }) : undefined),
    [curves, widthPx],
  );
  const holder = useDrawing(drawing, `curves-${curves.unit}`);
  return (
    <figure className="curve" ref={figure}>
      <figcaption>{curves.title}</figcaption>
      <div ref={holder} />
      <CurveCrossings curves={curves} />
      <details className="more">
        <summary>The figures</summary>
        <CurveTable curves={curves} />
      </details>
    </figure>
  );
}

function CurveCrossings({ curves: { crossings, options } }: { curves: PriceCurves }) {
  if (!crossings || options.length < 2) return null;
  return (
    <div className="crossings">
      {crossings.length > 0 && (
        <ul className="plain-list">
          {crossings.map(({ sentence }) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      <p className="aside">{crossingsNote(crossings)}</p>
    </div>
  );
}

function CurveTable({ curves: { title, points, unit, options } }: { curves: PriceCurves }) {
  return (
    <div className="scrolls-sideways">
      <table aria-label={title}>
        <thead>
          <tr>
            <th scope="col" className="figure">
              {unit}
            </th>
            {options.map(({ id, label }) => (
              <th key={id} scope="col" className="figure">
                {label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {points.map(({ at, totals }) => (
            <tr key={at}>
              <th scope="row" className="figure">
                {number(at, 1)}
              </th>
              {options.map(({ id }) => {
                const cents = totals[id];
                return (
                  <td key={id} className="figure">
                    {cents === undefined ? 'cannot be had' : wholeDollars(cents)}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
