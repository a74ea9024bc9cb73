import { z } from 'zod';
import type { ZodOpenApiOperationObject } from 'zod-openapi';
import { ProblemDetails } from './problems.ts';

/** The header of a change of what was read. */
export const IfMatch = z.object({
  'If-Match': z.string().meta({ description: 'The ETag that was read, such as "3".' }),
});
const ETag = z.object({ ETag: z.string().meta({ description: 'The revision, for If-Match.' }) });

/** A page of a list. */
export const listOfItems = (item: z.ZodType) =>
  z.object({ items: z.array(item), page: z.int(), pageSize: z.int(), total: z.int() });

const jsonOf = (schema: z.ZodType) => ({ 'application/json': { schema } });
/** A body of JSON. */
export const bodyOf = (schema: z.ZodType) => ({ requestBody: { required: true, content: jsonOf(schema) } });
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
/** What may be wrong with any body. */
export const BODY_REFUSALS = ['400', '413', '415', '422'];

interface Answered {
  summary: string;
  answer: z.ZodType;
  status?: '200' | '201';
  tagged?: boolean;
  refused: string[];
}

/** An operation that answers JSON. */
export function operation({
  summary,
  answer,
  status = '200',
  tagged = false,
  refused,
}: Answered): ZodOpenApiOperationObject {
  const done = { description: summary, content: jsonOf(answer), ...(tagged && { headers: ETag }) };
  return { summary, responses: { [status]: done, ...refusals(...refused) } };
}

/** An answer that is a file. */
export function fileOperation({ summary, type, refused }: { summary: string; type: string; refused: string[] }) {
  const content = { [type]: { schema: z.string() } };
  return { summary, responses: { '200': { description: summary, content }, ...refusals(...refused) } };
}

/** An operation that takes something away. */
export const removal = (summary: string) => ({
  summary,
  responses: { '204': { description: 'Removed.' }, ...refusals('404', '412', '428') },
});
