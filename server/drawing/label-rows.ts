/** A label that wants to stand over something: its middle and its breadth, in points. In order from left to right. */
export interface WantedLabel {
  middleX: number;
  widthPt: number;
}

/**
 * Where a label came to stand. Its leader leaves it at `middleX` and passes the rows below at `throughX`, from the
 * nearest row on; order is kept in every row, so leaders never cross each other nor another label.
 */
export interface PlacedLabel {
  middleX: number;
  /** 0 is the row farthest from what is labelled. */
  row: number;
  throughX: number[];
}

interface Room {
  leftX: number;
  rightX: number;
  /** Least distance between two labels, and between a label and a leader that passes. */
  gapPt: number;
  mostRows: number;
}

/** What a leader that passes needs besides the gaps. */
const LEADER_PT = 1;

/**
 * Finds places in as few rows as will do, each label as near to its object as the others let it.
 * @returns  one place for each label, or null where even `mostRows` rows are too narrow
 */
export function placeLabels(wanted: readonly WantedLabel[], room: Room): PlacedLabel[] | null {
  for (let rows = 1; rows <= room.mostRows; rows += 1) {
    const placed = placeInRows(wanted, room, rows);
    if (placed) return placed;
  }
  return null;
}

function placeInRows(wanted: readonly WantedLabel[], room: Room, rows: number): PlacedLabel[] | null {
  const places = wanted.map(({ middleX }, at) => ({ row: at % rows, middleX, throughX: [] as number[] }));
  for (let row = rows - 1; row >= 0; row -= 1) {
    const here = places.filter((place) => place.row <= row);
    const items = here.map((place) => ({
      middleX: place.middleX,
      widthPt: place.row === row ? (wanted[places.indexOf(place)]?.widthPt ?? 0) : LEADER_PT,
    }));
    const middles = spread(items, room);
    if (!middles) return null;
    here.forEach((place, at) => {
      place.middleX = middles[at] ?? place.middleX;
      if (place.row < row) place.throughX.unshift(place.middleX);
    });
  }
  return places;
}

interface Cluster {
  count: number;
  widthPt: number;
  /** Where its left edge would like to be, as a mean over its members. */
  leftX: number;
}

/**
 * Moves items apart in one row, with the least sum of squared moves that keeps their order, their gaps and the room.
 * @returns  the middles, or null where the row is too short for them
 */
function spread(items: readonly WantedLabel[], { leftX, rightX, gapPt }: Room): number[] | null {
  const needed = items.reduce((sum, { widthPt }) => sum + widthPt, 0) + gapPt * Math.max(0, items.length - 1);
  if (needed > rightX - leftX) return null;
  const clusters: Cluster[] = [];
  for (const { middleX, widthPt } of items) {
    clusters.push({ count: 1, widthPt, leftX: middleX - widthPt / 2 });
    mergeOverlapping(clusters, { leftX, rightX, gapPt });
  }
  const lefts: number[] = [];
  let at = 0;
  for (const cluster of clusters) {
    let x = within(cluster, { leftX, rightX });
    for (let member = 0; member < cluster.count; member += 1) {
      const widthPt = items[at]?.widthPt ?? 0;
      lefts.push(x + widthPt / 2);
      x += widthPt + gapPt;
      at += 1;
    }
  }
  return lefts;
}

function within({ leftX, widthPt }: Cluster, room: { leftX: number; rightX: number }): number {
  return Math.max(room.leftX, Math.min(leftX, room.rightX - widthPt));
}

/** Joins the last clusters as long as they touch; the joined one stands at the mean of what its members want. */
function mergeOverlapping(clusters: Cluster[], room: { leftX: number; rightX: number; gapPt: number }): void {
  for (;;) {
    const last = clusters.at(-1);
    const before = clusters.at(-2);
    if (!last || !before) return;
    if (within(before, room) + before.widthPt + room.gapPt <= within(last, room)) return;
    const offsetPt = before.widthPt + room.gapPt;
    clusters.splice(-2, 2, {
      count: before.count + last.count,
      widthPt: offsetPt + last.widthPt,
      leftX: (before.leftX * before.count + (last.leftX - offsetPt) * last.count) / (before.count + last.count),
    });
  }
}
