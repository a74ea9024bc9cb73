import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { Drawing } from '../../server/drawing/drawing.ts';
import { LEG_WORDS } from '../../server/drawing/wording.ts';
import type { LegKind } from '../../server/estimate/vocabulary.ts';
import { PX_PER_PT, useDrawing } from '../parts/use-drawing.ts';
import { useWidthPx } from '../parts/use-width-px.ts';

/** On a narrow page the section is so much wider than the window, for each leg, and scrolls. */
const NARROW_LEG_PX = 110;
const WIDE_PX = 1080;
/** Once the sheet was scrolled by so much, the foot of the section makes room for the schedules. */
const LEAST_SCROLL_PX = -60;

interface SectionProps {
  /** Draws the section for a sheet of some width, in points. */
  draw: (widthPt: number) => Drawing;
  kinds: readonly LegKind[];
  selected: number;
  onSelect: (leg: number) => void;
}

interface Span {
  leg: number;
  from: number;
  to: number;
}

/** Has the page been scrolled so far that the element would have left the window, were it not held there? */
function useScrolledPast(element: React.RefObject<HTMLElement | null>): boolean {
  const [isPast, setPast] = useState(false);
  useEffect(() => {
    const look = () => setPast((element.current?.parentElement?.getBoundingClientRect().top ?? 0) < LEAST_SCROLL_PX);
    window.addEventListener('scroll', look, { passive: true });
    return () => window.removeEventListener('scroll', look);
  }, [element]);
  return isPast;
}

/** Where each leg lies along the sheet, as shares of its width: its marks in the color of the route tell. */
function spansOf({ marks, widthPt }: Drawing, legs: number): Span[] {
  return Array.from({ length: legs }, (_, leg) => {
    const xs = marks.flatMap((mark) =>
      mark.tone === 'route' && mark.kind === 'line' && mark.legs.length === 1 && mark.legs[0] === leg
        ? mark.points.map(([x]) => x)
        : [],
    );
    if (xs.length === 0) return { leg, from: 0, to: 0 };
    return { leg, from: Math.min(...xs) / widthPt, to: Math.max(...xs) / widthPt };
  });
}

/**
 * The section through house, ground and slab. A leg is chosen by a click, by the arrow keys, or on a narrow page by
 * scrolling it to the middle.
 */
export function Section({ draw, kinds, selected, onSelect }: SectionProps) {
  const frame = useRef<HTMLElement>(null);
  const isScrolled = useScrolledPast(frame);
  const frameWidthPx = useWidthPx(frame);
  const isNarrow = frameWidthPx < WIDE_PX;
  const widthPx = isNarrow ? Math.max(frameWidthPx, kinds.length * NARROW_LEG_PX) : frameWidthPx;
  const drawing = useMemo(() => (widthPx > 0 ? draw(widthPx / PX_PER_PT) : undefined), [draw, widthPx]);
  const spans = drawing ? spansOf(drawing, kinds.length) : [];
  useLegInTheMiddle({ frame, spans, widthPx, selected, onSelect, isOn: widthPx > frameWidthPx });
  return (
    <section
      className={isScrolled ? 'section-frame scrolled' : 'section-frame'}
      ref={frame}
      aria-label="Section of the route"
    >
      {drawing && (
        <div className="section-sheet" style={{ width: `${widthPx}px` }}>
          <Sheet drawing={drawing} selected={selected} />
          <fieldset className="section-legs" aria-label="Legs of the route">
            {spans.map(({ from, to, leg }) => (
              <button
                key={leg}
                type="button"
                className="section-leg"
                style={{ left: `${100 * from}%`, width: `${100 * (to - from)}%` }}
                aria-pressed={leg === selected}
                aria-label={`Leg ${leg + 1}, ${kinds[leg] ? LEG_WORDS[kinds[leg]] : 'not stated'}`}
                onClick={() => onSelect(leg)}
              />
            ))}
          </fieldset>
        </div>
      )}
    </section>
  );
}

/** The drawing itself, read as XML and put in whole. */
function Sheet({ drawing, selected }: { drawing: Drawing; selected: number }) {
  const holder = useDrawing(drawing, 'section');
  useLayoutEffect(() => {
    if (drawing.marks.length === 0) return;
    for (const mark of holder.current?.querySelectorAll('[data-legs]') ?? []) {
      const legs = (mark.getAttribute('data-legs') ?? '').split(' ').map(Number);
      mark.classList.toggle('of-selected-leg', legs.length === 1 && legs[0] === selected);
    }
  }, [drawing, holder, selected]);
  return <div className="section-drawing" ref={holder} />;
}

interface MiddleLeg {
  frame: React.RefObject<HTMLElement | null>;
  spans: readonly Span[];
  widthPx: number;
  selected: number;
  onSelect: (leg: number) => void;
  isOn: boolean;
}

/** On a narrow page: the leg that was scrolled to the middle is the open one, and the open one comes to the middle. */
function useLegInTheMiddle({ frame, spans, widthPx, selected, onSelect, isOn }: MiddleLeg): void {
  const latest = useRef({ spans, widthPx, selected, onSelect });
  latest.current = { spans, widthPx, selected, onSelect };
  useEffect(() => {
    const { current } = frame;
    if (!current || !isOn) return;
    const settle = () => {
      const { spans, widthPx, selected, onSelect } = latest.current;
      const middle = (current.scrollLeft + current.clientWidth / 2) / widthPx;
      const nearest = spans.reduce((best, span, leg) => (off(span, middle) < off(spans[best], middle) ? leg : best), 0);
      if (nearest !== selected && spans.length > 0) onSelect(nearest);
    };
    current.addEventListener('scrollend', settle);
    return () => current.removeEventListener('scrollend', settle);
  }, [frame, isOn]);
  useEffect(() => {
    const { current } = frame;
    const span = latest.current.spans[selected];
    if (!current || !isOn || !span) return;
    const middlePx = ((span.from + span.to) / 2) * widthPx;
    current.scrollTo({ left: middlePx - current.clientWidth / 2, behavior: 'smooth' });
  }, [frame, isOn, selected, widthPx]);
}

/** How far a place is from a span's middle. */
function off(span: Span | undefined, place: number): number {
  return span ? Math.abs((span.from + span.to) / 2 - place) : Number.POSITIVE_INFINITY;
}
