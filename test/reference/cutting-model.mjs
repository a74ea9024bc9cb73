import fc from 'fast-check';
import loadHighs from 'highs';

/*
 * Random jobs of cutting, and the same question put to HiGHS, an open solver of mixed-integer programs. Plain
 * JavaScript, because the bench runs without a compiler; types stand beside it.
 */

/** The assignment model of one job in the solver's text form. */
function modelOf({ pieces, offers }) {
  const coils = offers.flatMap((offer, at) =>
    offer.lengthFt === null ? [] : pieces.map((_, copy) => ({ name: `y_${at}_${copy}`, at, copy, ...offer })),
  );
  const foot = offers.find(({ lengthFt }) => lengthFt === null);
  const objective = [
    ...coils.map(({ name, priceCents }) => `${priceCents} ${name}`),
    ...(foot ? pieces.map((piece, p) => `${Math.ceil(piece) * foot.priceCents} z_${p}`) : []),
  ];
  const cutOnce = pieces.map((_, p) => {
    const ways = [...coils.map(({ at, copy }) => `x_${p}_${at}_${copy}`), ...(foot ? [`z_${p}`] : [])];
    return ` once_${p}: ${ways.join(' + ')} = 1`;
  });
  const held = coils.map(({ name, at, copy, lengthFt }) => {
    const cuts = pieces.map((piece, p) => `${piece} x_${p}_${at}_${copy}`).join(' + ');
    return ` held_${at}_${copy}: ${cuts} - ${lengthFt} ${name} <= 0`;
  });
  const names = [
    ...coils.map(({ name }) => name),
    ...coils.flatMap(({ at, copy }) => pieces.map((_, p) => `x_${p}_${at}_${copy}`)),
    ...(foot ? pieces.map((_, p) => `z_${p}`) : []),
  ];
  return `Minimize\n obj: ${objective.join(' + ')}\nSubject To\n${[...cutOnce, ...held].join('\n')}\nBinary\n ${names.join('\n ')}\nEnd\n`;
}

const coil = fc.record({
  lengthFt: fc.constantFrom(25, 50, 100, 125, 250),
  priceCents: fc.integer({ min: 500, max: 60_000 }),
});
const byFoot = fc.record({ lengthFt: fc.constant(null), priceCents: fc.integer({ min: 40, max: 900 }) });
const job = fc.record({
  pieces: fc.array(
    fc.integer({ min: 4, max: 480 }).map((quarters) => quarters / 4),
    { minLength: 1, maxLength: 5 },
  ),
  offers: fc.tuple(byFoot, fc.array(coil, { minLength: 1, maxLength: 3 })).map(([foot, coils]) => [foot, ...coils]),
});

/** The 500 jobs that test and bench share: one to five pieces up to 120 ft, by the foot or out of one to three coils. */
export const CUTTING_JOBS = fc.sample(job, { numRuns: 500, seed: 20_260_302 });

/** A function that gives the least cost of a job in cents, as the solver finds it. @throws where it finds none */
export async function cuttingSolver() {
  const highs = await loadHighs();
  return (one) => {
    const { Status, ObjectiveValue } = highs.solve(modelOf(one));
    if (Status !== 'Optimal') throw new Error(`${Status}: ${JSON.stringify(one)}`);
    return ObjectiveValue;
  };
}
