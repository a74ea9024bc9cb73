/** A route line that cannot be read; the message names the words that were not understood. */
export class RouteLineError extends Error {
  override name = 'RouteLineError';
}

/** Reads a route line into legs as they would be stated in JSON. @throws {RouteLineError} */
export function parseRouteLine(_line: string): Record<string, unknown>[] {
  throw new RouteLineError('placeholder');
}
