import { useLayoutEffect, useRef } from 'react';
import type { Drawing } from '../../server/drawing/drawing.ts';
import { drawingSvg } from '../../server/drawing/svg.ts';

/** Pixels of the page for one point of a drawing: letters of 9 pt come out above 11 px. */
export const PX_PER_PT = 1.25;

/** Puts a drawing into an element whole, read as XML. `idPrefix` keeps its hatches apart from those of others. */
export function useDrawing(drawing: Drawing | undefined, idPrefix: string): React.RefObject<HTMLDivElement | null> {
  const holder = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (!drawing) return;
    const svg = drawingSvg(drawing, { colors: 'variables', idPrefix });
    const { documentElement } = new DOMParser().parseFromString(svg, 'image/svg+xml');
    holder.current?.replaceChildren(document.importNode(documentElement, true));
  }, [drawing, idPrefix]);
  return holder;
}
