/**
 * The value below which a share of some values lies, between two of them, as in a sorted list. Partly sorts the values
 * in place: a full sort would take most of the time of a range. Hoare's selection.
 * @param share  0 to 1
 */
export function quantile(values: Float64Array, share: number): number {
  return quantileFrom(values, share, 0);
}

/** Several at once, of rising shares: each is sought behind the one before, where the larger values are by then. */
export function quantiles(values: Float64Array, shares: readonly number[]): number[] {
  let from = 0;
  return shares.map((share) => {
    const found = quantileFrom(values, share, from);
    from = Math.floor(share * (values.length - 1));
    return found;
  });
}

/** Values before `from` are known to be no larger than those from it on. */
function quantileFrom(values: Float64Array, share: number, from: number): number {
  const place = share * (values.length - 1);
  const below = Math.floor(place);
  const low = selected(values, below, from);
  if (below === place) return low;
  let above = Number.POSITIVE_INFINITY;
  for (let at = below + 1; at < values.length; at++) above = Math.min(above, values[at] ?? above);
  return low + (place - below) * (above - low);
}

/** The value of a rank, after which no smaller one stands, and before it no larger one. */
function selected(values: Float64Array, rank: number, from: number): number {
  let first = from;
  let last = values.length - 1;
  while (first < last) {
    const pivot = values[(first + last) >> 1] ?? 0;
    let up = first;
    let down = last;
    while (up <= down) {
      while ((values[up] ?? 0) < pivot) up++;
      while ((values[down] ?? 0) > pivot) down--;
      if (up > down) break;
      const value = values[up] ?? 0;
      values[up] = values[down] ?? 0;
      values[down] = value;
      up++;
      down--;
    }
    if (rank <= down) last = down;
    else if (rank >= up) first = up;
    else break;
  }
  return values[rank] ?? 0;
}
