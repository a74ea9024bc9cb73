import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { prerenderToNodeStream } from 'react-dom/static';
import { describe, expect, it } from 'vitest';
import { descriptionJsonSchema, readDescription } from '../../server/estimate/description.ts';
import { type JsonObject, listAt, valueAt } from '../../web/json.ts';
import type { Form } from '../../web/parts/field.ts';
import { ProjectHead } from '../../web/project/project-head.tsx';
import { routeShown } from '../../web/project/route-editor.tsx';
import { Statement } from '../../web/project/statement.tsx';
import type { Answer } from '../../web/project/use-estimate.ts';
import { everyFieldStated } from './every-field-stated.ts';

interface Schema {
  properties?: Record<string, Schema>;
  items?: Schema;
  additionalProperties?: Schema | boolean;
  anyOf?: Schema[];
  oneOf?: Schema[];
  type?: string;
}

/** The paths of all that can be stated, things of a list as `*`. A list of words is stated as one field. */
function pathsOf(schema: Schema, path = ''): string[] {
  const below = (name: string) => (path === '' ? name : `${path}.${name}`);
  const { properties = {}, items, additionalProperties, anyOf = [], oneOf = [] } = schema;
  const inner = [
    ...Object.entries(properties).flatMap(([name, field]) => pathsOf(field, below(name))),
    ...(items ? pathsOf(items, below('*')) : []),
    ...(typeof additionalProperties === 'object' ? pathsOf(additionalProperties, below('*')) : []),
    ...[...anyOf, ...oneOf].flatMap((form) => pathsOf(form, path)),
  ];
  return inner.length > 0 ? inner : [path];
}

const nothing = () => undefined;
const ANSWER: Answer = {
  estimate: undefined,
  ranged: undefined,
  problems: new Map(),
  failure: undefined,
  verdict: 'open',
};

function formOf(draft: JsonObject): Form {
  return {
    set: nothing,
    value: (path) => valueAt(draft, path),
    field: (path) => ({ path, value: valueAt(draft, path), filled: undefined, problem: undefined, onChange: nothing }),
  };
}

async function htmlOf(page: ReactNode): Promise<string> {
  const { prelude } = await prerenderToNodeStream(
    <QueryClientProvider client={new QueryClient()}>{page}</QueryClientProvider>,
  );
  let html = '';
  for await (const chunk of prelude) html += chunk;
  return html;
}

/** The paths of the fields that the page shows while one option, leg and route are open. */
async function shownPaths(draft: JsonObject, { option, leg }: { option: number; leg: number }) {
  const form = formOf(draft);
  const html = await htmlOf(
    <>
      <ProjectHead
        form={form}
        draft={draft}
        answer={ANSWER}
        option={undefined}
        saving={{ state: { is: 'saved' }, keepMine: nothing }}
        onTakeTheirs={nothing}
      />
      <Statement
        form={form}
        draft={draft}
        answer={ANSWER}
        route={routeShown({ draft, option, whose: 'own', onShow: nothing })}
        leg={leg}
        onSelectLeg={nothing}
        option={option}
        onOpenOption={nothing}
      />
    </>,
  );
  return [...html.matchAll(/data-path="([^"]*)"/g)].map(([, path = '']) => path);
}

/** A path with the things of its lists as `*`. The name of a chance is one of many, too. */
const anyOfList = (path: string) => path.replace(/\.\d+(?=\.|$)/g, '.*').replace(/^chances\.[^.]+$/, 'chances.*');

async function allShownPaths(): Promise<Set<string>> {
  const shown = new Set<string>();
  for (const draft of everyFieldStated()) {
    for (const option of listAt(draft, 'options').keys()) {
      const { hasOwn, ownPath } = routeShown({ draft, option, whose: 'own', onShow: nothing });
      for (const leg of listAt(draft, hasOwn ? ownPath : 'route').keys()) {
        for (const path of await shownPaths(draft, { option, leg })) shown.add(anyOfList(path));
      }
    }
  }
  return shown;
}

describe('the page', () => {
  it('is asked with descriptions that the server accepts', () => {
    for (const draft of everyFieldStated()) expect(() => readDescription(draft)).not.toThrow();
  });

  it('has a place for every field of the description', async () => {
    const shown = await allShownPaths();
    const isShown = (path: string) => shown.has(path) || (path.endsWith('.*') && shown.has(path.slice(0, -2)));
    const paths = [...new Set(pathsOf(descriptionJsonSchema() as Schema))];
    expect(paths.length).toBeGreaterThan(200); // the schema was read: 233 paths in November 2026
    expect(paths.filter((path) => !isShown(path))).toEqual([]);
  });

  it('notices a field that it has no place for', () => {
    const schema = {
      properties: { site: { properties: { roof: { type: 'string' } } }, bids: { items: { type: 'string' } } },
    };
    expect(pathsOf(schema)).toEqual(['site.roof', 'bids.*']);
  });
});
