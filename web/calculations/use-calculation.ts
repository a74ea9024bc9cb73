import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import type { CalculationAnswer } from '../../server/calculations.ts';
import { ApiProblem, type FieldProblem, postCalculation } from '../api.ts';
import type { JsonObject } from '../json.ts';

/** Waits this long after the last key before the server is asked. */
const TYPING_MS = 250;

/** What the server makes of a draft: an answer, what it refuses, or why there is neither. */
export interface Calculated {
  answer: CalculationAnswer | undefined;
  problems: readonly FieldProblem[];
  failure: string | undefined;
  /** Asks at once, without waiting for the keys to rest. */
  askNow: () => void;
}

/** Asks a calculation as one types. What is not stated fully is not asked. */
export function useCalculation(name: string, draft: JsonObject, isComplete: boolean): Calculated {
  const text = JSON.stringify(draft);
  const [asked, setAsked] = useState({ text, isComplete });
  useEffect(() => {
    const timer = setTimeout(() => setAsked({ text, isComplete }), TYPING_MS);
    return () => clearTimeout(timer);
  }, [text, isComplete]);
  const query = useQuery({
    queryKey: ['calculation', name, asked.text],
    queryFn: ({ signal }) => postCalculation(name, JSON.parse(asked.text) as JsonObject, signal),
    enabled: asked.isComplete,
    placeholderData: keepPreviousData,
    structuralSharing: false,
  });
  const refused = query.error instanceof ApiProblem ? query.error.errors : [];
  return {
    answer: isComplete && !query.error ? query.data : undefined,
    problems: refused,
    failure: query.error && refused.length === 0 ? query.error.message : undefined,
    askNow: () => setAsked({ text, isComplete }),
  };
}
