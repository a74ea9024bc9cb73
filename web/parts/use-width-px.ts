import { useLayoutEffect, useState } from 'react';

/** The width of an element as it is laid out, in whole px; 0 before it is. */
export function useWidthPx(element: React.RefObject<HTMLElement | null>): number {
  const [widthPx, setWidthPx] = useState(0);
  useLayoutEffect(() => {
    const { current } = element;
    if (!current) return;
    const observer = new ResizeObserver(([entry]) => entry && setWidthPx(Math.round(entry.contentRect.width)));
    observer.observe(current);
    return () => observer.disconnect();
  }, [element]);
  return widthPx;
}
