import { useEffect, useState } from 'react';

/** Does an element that scrolls sideways hold more, right of what is seen? */
export function useGoesOn(element: React.RefObject<HTMLElement | null>): boolean {
  const [goesOn, setGoesOn] = useState(false);
  useEffect(() => {
    const { current } = element;
    if (!current) return;
    const look = () => setGoesOn(current.scrollWidth - current.clientWidth - current.scrollLeft > 1);
    const observer = new ResizeObserver(look);
    for (const each of [current, ...current.children]) observer.observe(each);
    current.addEventListener('scroll', look, { passive: true });
    return () => {
      observer.disconnect();
      current.removeEventListener('scroll', look);
    };
  }, [element]);
  return goesOn;
}
