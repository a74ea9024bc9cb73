/** A command line that cannot be followed; the message names the word and what would do. */
export class UsageError extends Error {
  override name = 'UsageError';
}
