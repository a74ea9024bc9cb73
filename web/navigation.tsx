import { type AnchorHTMLAttributes, type MouseEvent, useSyncExternalStore } from 'react';

/** Where the page is: one of its screens. */
export type Place =
  | { screen: 'projects' }
  | { screen: 'project'; id: string }
  | { screen: 'prices' }
  | { screen: 'quotes'; id: string | undefined }
  | { screen: 'settings' }
  | { screen: 'calculations'; name: string | undefined }
  | { screen: 'nowhere' };

/** Reads an address of the page. */
export function placeOf(pathname: string): Place {
  const [first, second, ...rest] = pathname.split('/').filter(Boolean);
  if (first === undefined) return { screen: 'projects' };
  if (first === 'projects' && second !== undefined && rest.length === 0) {
    return { screen: 'project', id: decodeURIComponent(second) };
  }
  if (first === 'quotes' && rest.length === 0) return { screen: 'quotes', id: second && decodeURIComponent(second) };
  if (first === 'calculations' && rest.length === 0) return { screen: 'calculations', name: second };
  if (second === undefined && first === 'projects') return { screen: 'projects' };
  if (second === undefined && (first === 'prices' || first === 'settings')) return { screen: first };
  return { screen: 'nowhere' };
}

const MOVED = 'feedrun-moved';

function listen(onMove: () => void): () => void {
  window.addEventListener('popstate', onMove);
  window.addEventListener(MOVED, onMove);
  return () => {
    window.removeEventListener('popstate', onMove);
    window.removeEventListener(MOVED, onMove);
  };
}

/** The current address, kept up with the back button and with `go`. */
export function usePathname(): string {
  return useSyncExternalStore(listen, () => window.location.pathname);
}

/** Goes to another screen without loading the page anew. */
export function go(pathname: string): void {
  window.history.pushState(null, '', pathname);
  window.dispatchEvent(new Event(MOVED));
  window.scrollTo(0, 0);
}

/** A link within the page; with a modifier key it opens a tab as every link does. */
export function PageLink({ href, ...rest }: AnchorHTMLAttributes<HTMLAnchorElement> & { href: string }) {
  const follow = (event: MouseEvent) => {
    if (event.metaKey || event.ctrlKey || event.shiftKey || event.button !== 0) return;
    event.preventDefault();
    go(href);
  };
  return <a href={href} onClick={follow} {...rest} />;
}
