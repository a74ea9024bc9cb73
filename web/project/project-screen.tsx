import { useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { ApiProblem, type Project, readProject, type Tagged } from '../api.ts';
import { isObject, type JsonObject } from '../json.ts';
import { rememberProject } from '../parts/last-project.ts';
import { Waiting } from '../parts/waiting.tsx';
import { blankDescription } from './draft.ts';
import { ProjectSheet } from './project-sheet.tsx';
import { savedByNow } from './use-saving.ts';

/** Opens a project, and gives its sheet what was read. */
export function ProjectScreen({ id }: { id: string }) {
  const [opening, setOpening] = useState(0);
  const project = useQuery({
    queryKey: ['project', id, opening],
    queryFn: async () => {
      await savedByNow(id);
      return readProject(id);
    },
    gcTime: 0,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const isThere = project.data !== undefined;
  useEffect(() => {
    if (isThere) rememberProject(id);
  }, [id, isThere]);
  if (project.error) return <p className="screen-note">{missing(project.error)}</p>;
  if (!project.data) return <Waiting what="the project" />;
  return (
    <ProjectSheet
      key={`${id} ${opening}`}
      opened={project.data}
      draft={draftOf(project.data)}
      onTakeTheirs={() => setOpening(opening + 1)}
    />
  );
}

/** What the page goes on with: the half-typed state, else the description, else a blank one. */
function draftOf({ resource }: Tagged<Project>): JsonObject {
  if (isObject(resource.draft)) return resource.draft;
  return isObject(resource.description) ? resource.description : blankDescription(resource.title);
}

function missing(error: Error): string {
  const isGone = error instanceof ApiProblem && error.status === 404;
  return isGone
    ? 'This project is not there, or was deleted. Deleted projects can be restored for 30 days.'
    : error.message;
}
