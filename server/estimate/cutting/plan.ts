/** What one coil holds, or a piece by itself: how many of each length of the job, cut of which offer. */
export interface Cut {
  offer: number;
  counts: number[];
}
/** How all pieces are cut, and what that costs. */
export interface Cutting {
  cents: number;
  cuts: Cut[];
}
