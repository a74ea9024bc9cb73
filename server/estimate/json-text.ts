/** JSON nested deeper than this is no description, and would overflow whoever walks it. Ours. */
const DEEPEST_NESTING = 64;

/** A text that is not JSON, or that is nested beyond reason; the message says where. */
export class NotJsonError extends Error {
  override name = 'NotJsonError';
}

/** Reads JSON from a file or a request. @throws {NotJsonError} */
export function readJson(text: string): unknown {
  const json = text.startsWith('\uFEFF') ? text.slice(1) : text; // editors put a byte order mark before it
  if (json.trim() === '') throw new NotJsonError('There is no JSON here: the text is empty.');
  if (nesting(json) > DEEPEST_NESTING) {
    throw new NotJsonError(`The JSON is nested more than ${DEEPEST_NESTING} deep.`);
  }
  try {
    return JSON.parse(json);
  } catch (error) {
    throw new NotJsonError(`This is not JSON: ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** How deep brackets and braces stand within each other, outside of texts. */
function nesting(json: string): number {
  let depth = 0;
  let deepest = 0;
  for (const [token] of json.matchAll(/"(?:[^"\\]|\\.)*"|[[\]{}]/gs)) {
    if (token === '[' || token === '{') depth += 1;
    else if (token === ']' || token === '}') depth -= 1;
    deepest = Math.max(deepest, depth);
  }
  return deepest;
}

/** The one text form of an answer, so that terminal and HTTP give the same bytes. */
export function jsonText(answer: unknown): string {
  return JSON.stringify(answer);
}
