/** The entity tag of a revision: strong, for a revision names one state and no other. */
export function etagOf(revision: number): string {
  return `"${revision}"`;
}
