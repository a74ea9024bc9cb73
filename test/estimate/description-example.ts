/**
 * A sound description for the refusals to spoil: an invented household, two circuits to an attached garage. Only what
 * has no default is stated.
 */
export function soundDescription() {
  return {
    title: 'Garage at the end of Quince Court',
    asOf: '2026-03-02',
    site: {
      building: 'attached',
      service: { ratingA: 200, freeSpaces: 6 },
      load: { method: 'measured', peakA: 60, days: 365 },
    },
    route: [
      { kind: 'joists', lengthFt: 30 },
      { kind: 'lawn-trench', lengthFt: 40 },
    ],
    options: [circuit('a', 48), circuit('b', 32)],
    terms: { taxOn: ['material'] },
  };
}

/** An option with one circuit to one hardwired charger. */
export function circuit(id: string, amps: number) {
  return {
    id,
    label: `One circuit, ${amps} A`,
    feed: 'dedicated-circuit',
    chargers: [{ amps, connection: 'hardwired', equipment: 'owned', distanceFt: 4 }],
  };
}

/** The same input with one value put at a path such as `route.0.lengthFt`; undefined takes the field away. */
export function withValue(input: unknown, path: string, value: unknown): unknown {
  const copy: unknown = structuredClone(input);
  const steps = path.split('.');
  const last = steps.pop() ?? '';
  let inner = copy as Record<string, unknown>;
  for (const step of steps) inner = inner[step] as Record<string, unknown>;
  if (value === undefined) delete inner[last];
  else inner[last] = value;
  return copy;
}
