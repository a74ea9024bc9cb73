import { useState } from 'react';
import { PageLink, type Place } from '../navigation.tsx';
import { lastProjectId } from './last-project.ts';

const SHEETS = ['system', 'light', 'dark'] as const;
type SheetTone = (typeof SHEETS)[number];

const STORED = 'feedrun-sheet';

function chosenSheet(): SheetTone {
  const { sheet } = document.documentElement.dataset;
  return sheet === 'light' || sheet === 'dark' ? sheet : 'system';
}

/** Sets light or dark for this browser; `system` follows its settings. */
function choose(sheet: SheetTone): void {
  if (sheet === 'system') delete document.documentElement.dataset.sheet;
  else document.documentElement.dataset.sheet = sheet;
  try {
    if (sheet === 'system') localStorage.removeItem(STORED);
    else localStorage.setItem(STORED, sheet);
  } catch {
    // Storage is shut off: the choice holds for this page.
  }
}

/** The line above every screen: where one can go, and the switch between light and dark. */
export function Masthead({ place }: { place: Place }) {
  const [sheet, setSheet] = useState(chosenSheet);
  const isBeside = place.screen !== 'projects' && place.screen !== 'project' && place.screen !== 'nowhere';
  const project = isBeside ? lastProjectId() : undefined;
  const link = (href: string, words: string, isHere: boolean) => (
    <PageLink href={href} {...(isHere && { 'aria-current': 'page' as const })}>
      {words}
    </PageLink>
  );
  return (
    <nav className="masthead" aria-label="Screens">
      <span className="masthead-name">Feedrun</span>
      {link('/', 'Projects', place.screen === 'projects' || place.screen === 'project')}
      {project !== undefined && link(`/projects/${project}`, 'Open project', false)}
      {link('/quotes', 'Quotes', place.screen === 'quotes')}
      {link('/prices', 'Price book', place.screen === 'prices')}
      {link('/calculations', 'Calculations', place.screen === 'calculations')}
      {link('/settings', 'Settings', place.screen === 'settings')}
      <label className="sheet-choice">
        <span className="visually-hidden">Light or dark</span>
        <select
          value={sheet}
          onChange={(event) => {
            const next = SHEETS.find((each) => each === event.currentTarget.value) ?? 'system';
            choose(next);
            setSheet(next);
          }}
        >
          <option value="system">auto</option>
          <option value="light">light</option>
          <option value="dark">dark</option>
        </select>
      </label>
    </nav>
  );
}
