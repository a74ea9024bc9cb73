/** The three points of a price, a labor unit or a factor. */
export type Point = 'low' | 'likely' | 'high';
export const POINTS: readonly Point[] = ['low', 'likely', 'high'];

/** Where a package holds its points. */
export const OFFER_FIELD = { low: 'lowCents', likely: 'likelyCents', high: 'highCents' } as const;
