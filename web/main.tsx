import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { lazy, StrictMode, Suspense } from 'react';
import { createRoot } from 'react-dom/client';
import { ApiProblem } from './api.ts';
import { type Place, placeOf, usePathname } from './navigation.tsx';
import { Masthead } from './parts/masthead.tsx';
import { Waiting } from './parts/waiting.tsx';
import { ProjectScreen } from './project/project-screen.tsx';
import './styles/ink.css';
import './styles/sheet.css';
import './styles/words.css';
import './styles/project.css';
import './styles/schedules.css';
import './styles/marks.css';
import './styles/lines.css';
import './styles/prices.css';

const ProjectsScreen = lazy(() => import('./projects/projects-screen.tsx'));
const PricesScreen = lazy(() => import('./prices/prices-screen.tsx'));
const QuotesScreen = lazy(() => import('./quotes/quotes-screen.tsx'));
const CalculationsScreen = lazy(() => import('./calculations/calculations-screen.tsx'));
const SettingsScreen = lazy(() => import('./settings/settings-screen.tsx'));

/** What the server refuses is not asked again; what did not reach it, is. */
const queries = new QueryClient({
  defaultOptions: {
    queries: {
      retry: (failures, error) => failures < 2 && !(error instanceof ApiProblem && error.status >= 400),
      refetchOnWindowFocus: false,
      gcTime: 120_000,
    },
  },
});

function Screen({ place }: { place: Place }) {
  switch (place.screen) {
    case 'projects':
      return <ProjectsScreen />;
    case 'project':
      return <ProjectScreen key={place.id} id={place.id} />;
    case 'prices':
      return <PricesScreen />;
    case 'quotes':
      return <QuotesScreen id={place.id} />;
    case 'calculations':
      return <CalculationsScreen name={place.name} />;
    case 'settings':
      return <SettingsScreen />;
    case 'nowhere':
      return <p className="screen-note">There is nothing at this address.</p>;
  }
}

function Page() {
  const place = placeOf(usePathname());
  return (
    <>
      <Masthead place={place} />
      <Suspense fallback={<Waiting what="the screen" />}>
        <Screen place={place} />
      </Suspense>
    </>
  );
}

const holder = document.getElementById('page');
if (!holder) throw new Error('The document has no element "page".');
createRoot(holder).render(
  <StrictMode>
    <QueryClientProvider client={queries}>
      <Page />
    </QueryClientProvider>
  </StrictMode>,
);
