import { useMutation, useQuery } from '@tanstack/react-query';
import { counted } from '../../server/drawing/wording.ts';
import { TextButton } from '../parts/word-fields.tsx';
import { addStartingPrices, lackingPrices, type StatedChange } from './book-api.ts';
import { ITEMS_KEY } from './use-book-lists.ts';

interface StartingNoteProps {
  stated: StatedChange;
  onAdded: () => unknown;
}

/** Says quietly that a newer program knows prices which this book lacks, and offers to add them; else it is not there. */
export function StartingNote({ stated, onAdded }: StartingNoteProps) {
  const lacking = useQuery({
    queryKey: [...ITEMS_KEY, 'starting'],
    queryFn: ({ signal }) => lackingPrices(signal),
  });
  const add = useMutation({ mutationFn: () => addStartingPrices(stated), onSuccess: () => onAdded() });
  const count = lacking.data?.lacking ?? 0;
  if (count === 0 && !add.data && !add.error) return null;
  return (
    <p className="stated" role="status">
      {add.error && <span className="word-problem">{add.error.message}</span>}
      {add.data && (
        <span>
          {counted(add.data.added, 'item')} added. The book is at revision {add.data.revision}.
        </span>
      )}
      {count > 0 && !add.isPending && (
        <span>
          The starting book has {counted(count, 'item')} that this one lacks, such as{' '}
          {lacking.data?.items[0]?.description}.{' '}
          <TextButton onPress={() => add.mutate()}>add {count === 1 ? 'it' : 'them'}</TextButton>; nothing that is there
          is changed.
        </span>
      )}
    </p>
  );
}
