/** What one thing of a list is called, where it is not the list's name without its last letter. */
const ONE_OF: Record<string, string> = { route: 'leg' };

/** A dotted path as people say it: `route.0.lengthFt` is `leg 1, length ft`. */
export function pathInWords(path: string): string {
  const steps = path.split('.').filter(Boolean);
  const words = steps.flatMap((step, at) => {
    if (/^\d+$/.test(step)) return [];
    const next = steps[at + 1] ?? '';
    if (/^\d+$/.test(next)) return [`${ONE_OF[step] ?? spaced(step).replace(/s$/, '')} ${Number(next) + 1}`];
    return [spaced(step)];
  });
  return words.join(', ') || 'the whole';
}

/** `lengthFt` → `length ft`. */
function spaced(name: string): string {
  return name.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
}
