import { useQuery } from '@tanstack/react-query';
import { listRates } from '../api.ts';
import type { Choice } from '../parts/words.ts';

/** The labor rates of the price book, to pick from; none while they are fetched. What is stated stays shown. */
export function useRates(): Choice[] {
  const rates = useQuery({ queryKey: ['rates'], queryFn: ({ signal }) => listRates(signal), staleTime: 60_000 });
  return (rates.data ?? []).map(({ key, description }) => ({ value: key, label: description }));
}
