import { z } from 'zod';
import { createDocument, type ZodOpenApiPathsObject } from 'zod-openapi';
import { CALCULATIONS } from '../calculations.ts';
import { Citation, Estimate } from '../estimate/answer.ts';
import { addTextForm } from '../estimate/description/fields.ts';
import { MeterAnswer } from '../estimate/meter/meter-answer.ts';
import { METER_TYPES } from './bodies.ts';
import { DescriptionBody, EstimateQuery, LinesQuery, PdfQuery } from './estimates.ts';
import { MeterQuery } from './meter-readings.ts';
import {
  BODY_REFUSALS,
  bodyOf,
  fileOperation,
  IfMatch,
  listOfItems,
  operation,
  removal,
} from './openapi-operations.ts';
import { pricePaths } from './openapi-prices.ts';
import { quotePaths } from './openapi-quotes.ts';
import { NewProject, Project, ProjectFile, ProjectFileAnswer, ProjectInput, ProjectsQuery } from './projects.ts';
import { Settings, SettingsInput } from './settings.ts';

const EstimateAnswer = Estimate.meta({ id: 'Estimate' });

const Id = z.object({ id: z.string() });

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

function meterPaths(): ZodOpenApiPathsObject {
  const content = Object.fromEntries(METER_TYPES.map((type) => [type, { schema: z.string() }]));
  return {
    '/api/meter-readings': {
      post: {
        ...operation({
          summary: "Find the peak of a utility's interval file; nothing is stored.",
          answer: MeterAnswer,
          refused: BODY_REFUSALS,
        }),
        requestParams: { query: MeterQuery },
        requestBody: { required: true, content },
      },
    },
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
        ...quotePaths(),
        ...settingsPaths(),
        ...calculationPaths(),
        ...meterPaths(),
        '/healthz': {
          get: operation({ summary: 'Is the server there?', answer: z.object({ status: z.string() }), refused: [] }),
        },
      },
    },
    { override: ({ jsonSchema }) => addTextForm(jsonSchema as Record<string, unknown>) },
  );
  return document as unknown as Record<string, unknown>;
}
