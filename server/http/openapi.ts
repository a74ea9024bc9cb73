import { z } from 'zod';
import { createDocument, type ZodOpenApiOperationObject, type ZodOpenApiPathsObject } from 'zod-openapi';
import { CALCULATIONS } from '../calculations.ts';
import { Citation, Estimate } from '../estimate/answer.ts';
import { addTextForm } from '../estimate/description/fields.ts';
import { PriceItem, PriceItemInput } from '../estimate/price-book.ts';
import { DescriptionBody, EstimateQuery, LinesQuery, PdfQuery } from './estimates.ts';
import { ImportAnswer, ImportQuery, ItemsQuery } from './price-book.ts';
import { ProblemDetails } from './problems.ts';
import { NewProject, Project, ProjectFile, ProjectFileAnswer, ProjectInput, ProjectsQuery } from './projects.ts';
import { Settings, SettingsInput } from './settings.ts';

const EstimateAnswer = Estimate.meta({ id: 'Estimate' });
const Item = PriceItem.meta({ id: 'PriceItem' });
const ItemBody = PriceItemInput.meta({ id: 'PriceItemInput' });

const IfMatch = z.object({ 'If-Match': z.string().meta({ description: 'The ETag that was read, such as "3".' }) });
const Id = z.object({ id: z.string() });
const Key = z.object({ key: z.string() });
const ETag = z.object({ ETag: z.string().meta({ description: 'The revision, for If-Match.' }) });

/** A page of a list. */
const listOfItems = (item: z.ZodType) =>
  z.object({ items: z.array(item), page: z.int(), pageSize: z.int(), total: z.int() });
const PricePage = listOfItems(Item).extend({ categories: z.array(z.string()) });

const jsonOf = (schema: z.ZodType) => ({ 'application/json': { schema } });
const bodyOf = (schema: z.ZodType) => ({ requestBody: { required: true, content: jsonOf(schema) } });
const refusals = (...statuses: string[]) =>
  Object.fromEntries(
    statuses.map((status) => [
      status,
      {
        description: REFUSALS[status] ?? 'Refused.',
        content: { 'application/problem+json': { schema: ProblemDetails } },
      },
    ]),
  );

const REFUSALS: Readonly<Record<string, string>> = {
  400: 'The body is not JSON, or not UTF-8.',
  404: 'There is no such thing.',
  409: 'What is there does not allow it.',
  412: 'Somebody saved meanwhile.',
  413: 'The body is too large.',
  415: 'The body is of another content type.',
  422: 'The schema or a rule refuses it; `errors` name the fields by path.',
  428: 'If-Match is missing.',
};
const BODY_REFUSALS = ['400', '413', '415', '422'];

interface Answered {
  summary: string;
  answer: z.ZodType;
  status?: '200' | '201';
  tagged?: boolean;
  refused: string[];
}

function operation({ summary, answer, status = '200', tagged = false, refused }: Answered): ZodOpenApiOperationObject {
  const done = { description: summary, content: jsonOf(answer), ...(tagged && { headers: ETag }) };
  return { summary, responses: { [status]: done, ...refusals(...refused) } };
}

/** An answer that is a file. */
function fileOperation({ summary, type, refused }: { summary: string; type: string; refused: string[] }) {
  const content = { [type]: { schema: z.string() } };
  return { summary, responses: { '200': { description: summary, content }, ...refusals(...refused) } };
}

const removal = (summary: string) => ({
  summary,
  responses: { '204': { description: 'Removed.' }, ...refusals('404', '412', '428') },
});

function estimatePaths(): ZodOpenApiPathsObject {
  return {
    '/api/estimates': {
      post: {
        ...operation({
          summary: 'Estimate a description; nothing is stored.',
          answer: EstimateAnswer,
          refused: BODY_REFUSALS,
        }),
        requestParams: { query: EstimateQuery },
        ...bodyOf(DescriptionBody),
      },
    },
    '/api/estimates/pdf': {
      post: {
        ...fileOperation({ summary: 'Print an estimate on paper.', type: 'application/pdf', refused: BODY_REFUSALS }),
        requestParams: { query: PdfQuery },
        ...bodyOf(DescriptionBody),
      },
    },
    '/api/estimates/lines.csv': {
      post: {
        ...fileOperation({ summary: 'The line items of an option as CSV.', type: 'text/csv', refused: BODY_REFUSALS }),
        requestParams: { query: LinesQuery },
        ...bodyOf(DescriptionBody),
      },
    },
  };
}

function projectPaths(): ZodOpenApiPathsObject {
  const one = { answer: Project, tagged: true };
  return {
    '/api/projects': {
      get: {
        ...operation({ summary: 'List projects.', answer: listOfItems(Project), refused: ['422'] }),
        requestParams: { query: ProjectsQuery },
      },
      post: {
        ...operation({ ...one, summary: 'Keep a new project.', status: '201', refused: BODY_REFUSALS }),
        ...bodyOf(NewProject),
      },
    },
    '/api/projects/import': {
      post: {
        ...operation({ ...one, summary: 'Keep a project from a file.', status: '201', refused: BODY_REFUSALS }),
        ...bodyOf(ProjectFile),
      },
    },
    '/api/projects/{id}': {
      get: { ...operation({ ...one, summary: 'Read a project.', refused: ['404'] }), requestParams: { path: Id } },
      put: {
        ...operation({ ...one, summary: 'Save a project.', refused: [...BODY_REFUSALS, '404', '412', '428'] }),
        requestParams: { path: Id, header: IfMatch },
        ...bodyOf(ProjectInput),
      },
      delete: {
        ...removal('Remove a project; it can be restored for 30 days.'),
        requestParams: { path: Id, header: IfMatch },
      },
    },
    '/api/projects/{id}/restore': {
      post: {
        ...operation({ ...one, summary: 'Bring a removed project back.', refused: ['404'] }),
        requestParams: { path: Id },
      },
    },
    '/api/projects/{id}/estimate': {
      get: {
        ...operation({ summary: 'Estimate a project.', answer: EstimateAnswer, refused: ['404', '409', '422'] }),
        requestParams: { path: Id, query: EstimateQuery },
      },
    },
    '/api/projects/{id}/export': {
      get: {
        ...operation({ summary: 'A project as a file.', answer: ProjectFileAnswer, refused: ['404'] }),
        requestParams: { path: Id },
      },
    },
  };
}

function pricePaths(): ZodOpenApiPathsObject {
  const one = { answer: Item, tagged: true };
  const past = z.object({ items: z.array(z.record(z.string(), z.unknown())) });
  return {
    '/api/price-book/items': {
      get: {
        ...operation({ summary: 'Search the price book.', answer: PricePage, refused: ['422'] }),
        requestParams: { query: ItemsQuery },
      },
      post: {
        ...operation({ ...one, summary: 'Add an item.', status: '201', refused: [...BODY_REFUSALS, '409'] }),
        ...bodyOf(ItemBody),
      },
    },
    '/api/price-book/items/{key}': {
      get: { ...operation({ ...one, summary: 'Read an item.', refused: ['404'] }), requestParams: { path: Key } },
      put: {
        ...operation({
          ...one,
          summary: 'Change an item; its history keeps what it was.',
          refused: [...BODY_REFUSALS, '404', '412', '428'],
        }),
        requestParams: { path: Key, header: IfMatch },
        ...bodyOf(ItemBody),
      },
      delete: { ...removal('Remove an item; its history stays.'), requestParams: { path: Key, header: IfMatch } },
    },
    '/api/price-book/items/{key}/history': {
      get: {
        ...operation({ summary: 'What an item was before.', answer: past, refused: ['404'] }),
        requestParams: { path: Key },
      },
    },
    '/api/price-book/export.csv': {
      get: fileOperation({ summary: 'The whole book as CSV.', type: 'text/csv', refused: [] }),
    },
    '/api/price-book/import': {
      post: {
        ...operation({
          summary: 'Take a book from CSV, all rows or none.',
          answer: ImportAnswer,
          refused: BODY_REFUSALS,
        }),
        requestParams: { query: ImportQuery },
        requestBody: { required: true, content: { 'text/csv': { schema: z.string() } } },
      },
    },
  };
}

function settingsPaths(): ZodOpenApiPathsObject {
  const one = { answer: Settings, tagged: true };
  return {
    '/api/settings': {
      get: operation({ ...one, summary: 'Read the settings.', refused: [] }),
      put: {
        ...operation({ ...one, summary: 'Change the settings.', refused: [...BODY_REFUSALS, '412', '428'] }),
        requestParams: { header: IfMatch },
        ...bodyOf(SettingsInput),
      },
    },
  };
}

/** A path for each calculation, with its own shapes of input and result, and an example. */
function calculationPaths(): ZodOpenApiPathsObject {
  const record = z.record(z.string(), z.unknown());
  const sheet = z.object({
    name: z.string(),
    title: z.string(),
    decides: z.string(),
    input: record,
    result: record,
    example: record,
  });
  const paths = CALCULATIONS.map(({ name, decides, input, result, example }) => {
    const because = z.array(z.string());
    const answer = z.object({ name: z.literal(name), input: record, result, because, citations: z.array(Citation) });
    const content = { 'application/json': { schema: input, example } };
    const post = {
      ...operation({ summary: decides, answer, refused: BODY_REFUSALS }),
      requestBody: { required: true, content },
    };
    return [`/api/calculations/${name}`, { post }] as const;
  });
  return {
    '/api/calculations': {
      get: operation({
        summary: 'What can be calculated alone.',
        answer: z.object({ items: z.array(sheet) }),
        refused: [],
      }),
    },
    ...Object.fromEntries(paths),
  };
}

/** The OpenAPI 3.1 document, made from the schemas that the routers themselves read by. */
export function openApiDocument(): Record<string, unknown> {
  const document = createDocument(
    {
      openapi: '3.1.0',
      info: {
        title: 'Feedrun',
        version: '1',
        description: 'What it takes and costs to charge a car where it parks at home.',
      },
      paths: {
        ...estimatePaths(),
        ...projectPaths(),
        ...pricePaths(),
        ...settingsPaths(),
        ...calculationPaths(),
        '/healthz': {
          get: operation({ summary: 'Is the server there?', answer: z.object({ status: z.string() }), refused: [] }),
        },
      },
    },
    { override: ({ jsonSchema }) => addTextForm(jsonSchema as Record<string, unknown>) },
  );
  return document as unknown as Record<string, unknown>;
}
