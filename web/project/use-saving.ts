import { useCallback, useEffect, useRef, useState } from 'react';
import { ApiProblem, type Project, type ProjectBody, readProject, saveProject, type Tagged } from '../api.ts';
import type { Json, JsonObject } from '../json.ts';
import { textOf } from './draft.ts';

/** Waits this long after the verdict before the project is saved. */
const SAVING_MS = 400;

/** How far the project on the screen is kept by the server. */
export type SavingState =
  | { is: 'saved' }
  | { is: 'saving' }
  | { is: 'unsaved'; why?: string }
  | { is: 'conflict'; theirs: Tagged<Project> };

interface Saving {
  state: SavingState;
  /** Saves mine over what somebody else saved. */
  keepMine: () => void;
}

const underWay = new Map<string, Promise<void>>();

/** Waits for what a screen that was left is still saving, so that it is not read too early. */
export async function savedByNow(projectId: string): Promise<void> {
  await underWay.get(projectId);
}

/** What a draft is saved as: a valid one becomes the description, a refused one is kept beside the last valid one. */
function bodyOf(draft: JsonObject, { isValid, lastValid }: { isValid: boolean; lastValid: Json | null }): ProjectBody {
  const title = textOf(draft.title, 'Project without a title');
  return isValid ? { title, description: draft } : { title, description: lastValid, draft };
}

/**
 * Saves the project as one types, with the tag of what was read: what somebody else saved meanwhile is never
 * overwritten unseen. What is not judged yet when the page is left goes as a draft.
 */
export function useSaving(
  opened: Tagged<Project>,
  { draft, text, verdict }: { draft: JsonObject; text: string; verdict: 'valid' | 'refused' | 'open' },
): Saving {
  const [state, setState] = useState<SavingState>({ is: 'saved' });
  const kept = useRef({ etag: opened.etag, text, lastValid: opened.resource.description as Json | null, busy: false });
  const latest = useRef({ draft, text, verdict });
  latest.current = { draft, text, verdict };
  const { id } = opened.resource;

  const save = useCallback(
    async ({ keepalive = false } = {}) => {
      const { draft, text, verdict } = latest.current;
      const { current } = kept;
      if (current.busy || current.text === text) return;
      current.busy = true;
      if (!keepalive) setState({ is: 'saving' });
      try {
        const body = bodyOf(draft, { isValid: verdict === 'valid', lastValid: current.lastValid });
        const saved = await saveProject(id, { body, etag: current.etag, keepalive });
        Object.assign(current, { etag: saved.etag, text, lastValid: body.description });
        setState({ is: latest.current.text === text ? 'saved' : 'unsaved' });
      } catch (error) {
        setState(await stateAfter(error, id));
      } finally {
        current.busy = false;
      }
    },
    [id],
  );

  useEffect(() => {
    if (verdict === 'open' || kept.current.text === text || state.is === 'conflict' || state.is === 'saving') return;
    const timer = setTimeout(save, SAVING_MS);
    return () => clearTimeout(timer);
  }, [text, verdict, state.is, save]);
  useEffect(() => {
    const leave = () => void underWay.set(id, save({ keepalive: true }));
    window.addEventListener('pagehide', leave);
    return () => {
      window.removeEventListener('pagehide', leave);
      leave();
    };
  }, [id, save]);

  const keepMine = () => {
    if (state.is !== 'conflict') return;
    kept.current.etag = state.theirs.etag;
    setState({ is: 'unsaved' });
  };
  return { state: state.is === 'saved' && kept.current.text !== text ? { is: 'unsaved' } : state, keepMine };
}

async function stateAfter(error: unknown, id: string): Promise<SavingState> {
  if (error instanceof ApiProblem && error.status === 412) {
    try {
      return { is: 'conflict', theirs: await readProject(id) };
    } catch (reading) {
      return { is: 'unsaved', why: reading instanceof Error ? reading.message : String(reading) };
    }
  }
  return { is: 'unsaved', why: error instanceof Error ? error.message : String(error) };
}
