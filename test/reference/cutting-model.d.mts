/** Pieces to cut, in feet, and what they can be cut of; `null`: by the foot. */
export interface CuttingJob {
  pieces: number[];
  offers: { lengthFt: number | null; priceCents: number }[];
}
export const CUTTING_JOBS: readonly CuttingJob[];
export function cuttingSolver(): Promise<(job: CuttingJob) => number>;
