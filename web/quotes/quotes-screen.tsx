import { LearnedPart } from './learned-part.tsx';
import { QuoteList } from './quote-list.tsx';
import { QuoteSheet } from './quote-sheet.tsx';
import '../styles/quotes.css';

/** All quotes with what their jobs teach, or one of them. */
export default function QuotesScreen({ id }: { id: string | undefined }) {
  if (id !== undefined) return <QuoteSheet key={id} id={id} />;
  return (
    <main className="plain-screen quotes-screen">
      <QuoteList />
      <LearnedPart />
    </main>
  );
}
