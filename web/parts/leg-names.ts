/** Legs as people count them, runs of them shortened: `leg 3`, `legs 2 to 6`, `legs 1, 4`. Indices count from 0. */
export function legNames(legs: readonly number[]): string {
  const spans: { from: number; to: number }[] = [];
  for (const leg of [...legs].sort((a, b) => a - b)) {
    const last = spans.at(-1);
    if (last && leg <= last.to + 1) last.to = leg;
    else spans.push({ from: leg, to: leg });
  }
  const words = spans.flatMap(({ from, to }) => {
    if (to - from > 1) return [`${from + 1} to ${to + 1}`];
    return from === to ? [String(from + 1)] : [String(from + 1), String(to + 1)];
  });
  return `${legs.length === 1 ? 'leg' : 'legs'} ${words.join(', ')}`;
}
