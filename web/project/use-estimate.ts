import { keepPreviousData, skipToken, useQuery } from '@tanstack/react-query';
import { useEffect, useMemo, useState } from 'react';
import type { Estimate } from '../../server/estimate/answer.ts';
import { ApiProblem, type FieldProblem, postEstimate } from '../api.ts';
import type { JsonObject } from '../json.ts';

/** Waits this long after the last key before the server is asked. */
const TYPING_MS = 250;
/** Waits this long after the last key before the whole answer is asked for, which takes many plans and draws. */
const RESTING_MS = 1000;

/** What the server makes of a draft. */
export interface Answer {
  /** The last estimate that could be made, though the draft may have moved on. */
  estimate: Estimate | undefined;
  /** The same with its ranges, which come a moment later. */
  ranged: Estimate | undefined;
  /** What is refused, by the path of the field. */
  problems: ReadonlyMap<string, string>;
  /** Why there is no answer at all. */
  failure: string | undefined;
  /** Is this draft valid, refused, or not judged yet? */
  verdict: 'valid' | 'refused' | 'open';
}

/** The value as it was when it last rested for some time. */
function useRested<Value>(value: Value, restMs: number): Value {
  const [rested, setRested] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setRested(value), restMs);
    return () => clearTimeout(timer);
  }, [value, restMs]);
  return rested;
}

/** Holds on to the last value that was there. */
function useLast<Value>(value: Value | undefined): Value | undefined {
  const [last, setLast] = useState(value);
  if (value !== undefined && value !== last) setLast(value);
  return value ?? last;
}

function byPath(errors: readonly FieldProblem[]): Map<string, string> {
  const messages = new Map<string, string>();
  for (const { path, message } of errors) if (!messages.has(path)) messages.set(path, message);
  return messages;
}

/** Asks for the estimate of what is on the screen, saved or not, as one types. `text` is the draft as JSON. */
export function useEstimate(text: string): Answer {
  const typed = useRested(text, TYPING_MS);
  const rested = useRested(text, RESTING_MS);
  const core = useQuery({
    queryKey: ['estimate', 'core', typed],
    queryFn: ({ signal }) => postEstimate({ description: JSON.parse(typed) as JsonObject, parts: 'core', signal }),
    placeholderData: keepPreviousData,
    structuralSharing: false,
  });
  const isValid = core.isSuccess && !core.isPlaceholderData;
  // another key, or none, lets go of the question before: it is aborted, and the server stops making its answer
  const resting = isValid && typed === text && rested === text ? text : undefined;
  const full = useQuery({
    queryKey: ['estimate', 'all', resting],
    queryFn:
      resting === undefined
        ? skipToken
        : ({ signal }) => postEstimate({ description: JSON.parse(resting) as JsonObject, parts: 'all', signal }),
    placeholderData: keepPreviousData,
    structuralSharing: false,
  });
  const problem = core.error instanceof ApiProblem ? core.error : undefined;
  const problems = useMemo(() => byPath(problem?.errors ?? []), [problem]);
  const isRefused = problem !== undefined && problems.size > 0;
  const isSettled = typed === text && !core.isFetching;
  return {
    estimate: useLast(core.data),
    ranged: useLast(full.data),
    problems,
    failure: core.error && !isRefused ? core.error.message : undefined,
    verdict: !isSettled ? 'open' : isRefused ? 'refused' : isValid ? 'valid' : 'open',
  };
}
