import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Input, Label, SearchField } from 'react-aria-components';
import {
  createProject,
  deleteProject,
  type ListedProject,
  listProjects,
  readSettings,
  restoreProject,
} from '../api.ts';
import { type JsonObject, listAt, valueAt } from '../json.ts';
import { go, PageLink } from '../navigation.tsx';
import { dayOf } from '../parts/dates.ts';
import { Waiting } from '../parts/waiting.tsx';
import { TextButton } from '../parts/word-fields.tsx';
import { blankDescription } from '../project/draft.ts';

/** All projects: open one, begin one, delete one and take that back. */
export default function ProjectsScreen() {
  const queries = useQueryClient();
  const [search, setSearch] = useState('');
  const [deleted, setDeleted] = useState<ListedProject>();
  const projects = useQuery({
    queryKey: ['projects', search],
    queryFn: () => listProjects(search),
    placeholderData: keepPreviousData,
  });
  const refresh = () => queries.invalidateQueries({ queryKey: ['projects'] });
  const begin = useMutation({ mutationFn: beginProject, onSuccess: (id) => go(`/projects/${id}`) });
  const remove = useMutation({
    mutationFn: (project: ListedProject) => deleteProject(project.id),
    onSuccess: (_, project) => {
      setDeleted(project);
      return refresh();
    },
  });
  const restore = useMutation({
    mutationFn: (project: ListedProject) => restoreProject(project.id),
    onSuccess: () => {
      setDeleted(undefined);
      return refresh();
    },
  });
  const failure = projects.error ?? begin.error ?? remove.error ?? restore.error;
  return (
    <main className="plain-screen">
      <header className="screen-head">
        <h1>Projects</h1>
        <button type="button" className="paper-button" onClick={() => begin.mutate()}>
          New project
        </button>
      </header>
      <SearchField className="search" value={search} onChange={setSearch}>
        <Label>Search titles</Label>
        <Input />
      </SearchField>
      <p role="status" className="screen-status">
        {failure?.message}
        {deleted && (
          <>
            “{deleted.title}” was deleted. It can be restored for 30 days.{' '}
            <TextButton onPress={() => restore.mutate(deleted)}>restore it</TextButton>
          </>
        )}
      </p>
      {projects.data ? (
        <ProjectTable projects={projects.data.items} onDelete={remove.mutate} />
      ) : (
        !projects.error && <Waiting what="the projects" />
      )}
    </main>
  );
}

/** Makes a project that the page can go on with: blank, with the settings' terms. Answers its id. */
async function beginProject(): Promise<string> {
  const title = 'New project';
  const { defaultTerms } = (await readSettings()).resource;
  const draft: JsonObject = { ...blankDescription(title), ...(defaultTerms && { terms: defaultTerms as JsonObject }) };
  return (await createProject({ title, description: null, draft })).resource.id;
}

/** The names of the options that are compared. */
function optionNames({ description }: ListedProject): string {
  const names = listAt(description, 'options').flatMap((option) => {
    const label = valueAt(option, 'label');
    return typeof label === 'string' ? [label] : [];
  });
  return names.length > 0 ? names.join(' · ') : 'not complete yet';
}

function ProjectTable({
  projects,
  onDelete,
}: {
  projects: readonly ListedProject[];
  onDelete: (project: ListedProject) => void;
}) {
  if (projects.length === 0)
    return <p>Nothing here yet. Begin a project, and state the route from the panel to the car.</p>;
  return (
    <table className="projects">
      <thead>
        <tr>
          <th scope="col">Title</th>
          <th scope="col">Options</th>
          <th scope="col" className="figure">
            Last change
          </th>
          <td />
        </tr>
      </thead>
      <tbody>
        {projects.map((project) => (
          <tr key={project.id}>
            <th scope="row">
              <PageLink href={`/projects/${project.id}`}>{project.title}</PageLink>
            </th>
            <td>{optionNames(project)}</td>
            <td className="figure">{dayOf(project.updatedAt)}</td>
            <td className="figure">
              <TextButton label={`Delete ${project.title}`} onPress={() => onDelete(project)}>
                delete
              </TextButton>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
