import { z } from 'zod';
import { basisPoints, cents, count, quantity } from '../estimate/description/fields.ts';
import { concrete, trench } from '../estimate/earthwork.ts';
import { closed, InputError } from '../estimate/input-problems.ts';
import { payment, priceFromCost, threePoint } from '../estimate/money-calculations.ts';
import { cheapestPackages } from '../estimate/purchasing.ts';
import { calculation, said } from './calculation.ts';
import { feet, inches, listOfSome, measure, percent, whole } from './fields.ts';

const dollars = (amountCents: number) => `$${(amountCents / 100).toFixed(2)}`;

const trenchOf = calculation({
  name: 'trench',
  title: 'Trench',
  decides: 'How much soil a trench moves, in place and loose.',
  input: closed({ lengthFt: feet(), widthIn: inches(), depthIn: inches(), swellPercent: percent(200).default(25) }),
  result: z.strictObject({ volumeFt3: measure, volumeYd3: measure, looseYd3: measure }),
  example: { lengthFt: 41, widthIn: 6, depthIn: 24 },
  answer: (input) => {
    const { volumeFt3, volumeYd3, looseYd3 } = trench(input);
    return {
      result: { volumeFt3, volumeYd3, looseYd3 },
      because: [
        `${input.lengthFt} ft × ${input.widthIn} in × ${input.depthIn} in are ${said(volumeFt3)} ft³, ${said(volumeYd3)} yd³ in the ground.`,
        `Dug out it swells by ${input.swellPercent} % to ${said(looseYd3)} yd³.`,
      ],
      rules: [],
    };
  },
});

const concreteOf = calculation({
  name: 'concrete',
  title: 'Concrete strip',
  decides: 'The concrete that a cut strip takes to pour again, in bags, and the feet of saw cut.',
  input: closed({
    lengthFt: feet(),
    widthIn: inches(),
    thicknessIn: inches(),
    wastePercent: percent(100).default(10),
    closedEnds: count('ends', 0, 2).default(2),
  }),
  result: z.strictObject({
    volumeFt3: measure,
    volumeYd3: measure,
    bags80lb: whole,
    bags60lb: whole,
    sawCutFt: measure,
  }),
  example: { lengthFt: 9, widthIn: 12, thicknessIn: 4 },
  answer: (input) => {
    const { volumeFt3, volumeYd3, bags80lb, bags60lb, sawCutFt } = concrete(input);
    return {
      result: { volumeFt3, volumeYd3, bags80lb, bags60lb, sawCutFt },
      because: [
        `${input.lengthFt} ft × ${input.widthIn} in × ${input.thicknessIn} in are ${said(volumeFt3)} ft³ in place.`,
        `With ${input.wastePercent} % waste: ${bags80lb} bags of 80 lb (0.60 ft³ each) or ${bags60lb} of 60 lb (0.45 ft³ each).`,
        `Both edges and ${input.closedEnds} closed ends: ${said(sawCutFt)} ft of saw cut.`,
      ],
      rules: [],
    };
  },
});

const packagesOf = calculation({
  name: 'packages',
  title: 'Packages',
  decides: 'The least-cost packages that uncut pieces can be cut from.',
  input: closed({
    pieces: listOfSome(feet(), 60, 'pieces'),
    offers: listOfSome(
      closed({ lengthFt: feet().nullable(), priceCents: quantity({ unit: 'cents', least: 0.001, most: 10_000_000 }) }),
      20,
      'offers',
    ),
  }),
  result: z.strictObject({
    buy: z.array(z.strictObject({ offer: whole, count: whole, pieces: z.array(z.array(measure)) })),
    costCents: whole,
    leftOverFt: measure,
  }),
  example: {
    pieces: [35, 12, 50],
    offers: [
      { lengthFt: null, priceCents: 210 },
      { lengthFt: 50, priceCents: 9000 },
      { lengthFt: 125, priceCents: 19_900 },
    ],
  },
  answer: (input) => {
    const plan = cheapestPackages(input);
    if (!plan) throw noOfferHolds(input.pieces, input.offers);
    const { buy, leftOverFt, proven } = plan;
    const costCents = Math.round(plan.costCents);
    return {
      result: { buy, costCents, leftOverFt },
      because: [
        ...buy.map(({ offer, count: bought }) => {
          const lengthFt = input.offers[offer]?.lengthFt ?? null;
          return lengthFt === null
            ? `${bought} ft by the foot, in whole feet, piece by piece.`
            : `${bought} × ${lengthFt} ft.`;
        }),
        `${dollars(costCents)}, ${proven ? 'the least possible without a splice' : 'the least that was found without a splice; there are too many ways to try them all, so that a cheaper one may exist'}; ${said(leftOverFt)} ft are left over.`,
      ],
      rules: [],
    };
  },
});

/** Nothing that is offered is long enough, and no piece may be spliced. */
function noOfferHolds(pieces: readonly number[], offers: readonly { lengthFt: number | null }[]): InputError {
  const longestOfferFt = Math.max(...offers.map(({ lengthFt }) => lengthFt ?? 0));
  const message = `must be so long that one holds the longest piece, ${Math.max(...pieces)} ft, or by the foot; the longest offered is ${longestOfferFt} ft`;
  return new InputError([{ path: 'offers', message }]);
}

const threePointOf = calculation({
  name: 'three-point',
  title: 'Three points',
  decides: 'The distribution behind a low, a likely and a high value.',
  input: closed({
    low: quantity({ unit: 'units', least: -1e12, most: 1e12 }),
    likely: quantity({ unit: 'units', least: -1e12, most: 1e12 }),
    high: quantity({ unit: 'units', least: -1e12, most: 1e12 }),
    weight: quantity({ unit: 'times that the likely value counts', least: 0.01, most: 100 }).default(4),
  }).superRefine(({ low, likely, high }, context) => {
    if (low <= likely && likely <= high) return;
    context.addIssue({
      code: 'custom',
      path: ['likely'],
      message: `must lie between low ${low} and high ${high}, not ${likely}`,
    });
  }),
  result: z.strictObject({ mean: measure, sd: measure, p10: measure, p50: measure, p90: measure }),
  example: { low: 30, likely: 36, high: 44 },
  answer: (input) => {
    const { mean, sd, p10, p50, p90 } = threePoint(input);
    return {
      result: { mean, sd, p10, p50, p90 },
      because: [
        `A PERT beta from ${input.low} over ${input.likely} to ${input.high}, the likely value counting ${input.weight} times.`,
        `Its mean is ${said(mean)}; one time in ten it is below ${said(p10)}, half of the time below ${said(p50)}, nine times in ten below ${said(p90)}.`,
      ],
      rules: [],
    };
  },
});

const paymentOf = calculation({
  name: 'payment',
  title: 'Loan payment',
  decides: 'The amount a month that pays a loan back, and its interest over all the years.',
  input: closed({
    principalCents: cents(),
    annualRateBp: basisPoints(),
    years: quantity({ unit: 'years', least: 0.01, most: 100 }),
  }),
  result: z.strictObject({ monthlyCents: whole, totalInterestCents: whole }),
  example: { principalCents: 450_000, annualRateBp: 725, years: 10 },
  answer: (input) => {
    const { monthlyCents, totalInterestCents } = payment(input);
    return {
      result: { monthlyCents, totalInterestCents },
      because: [
        `${dollars(input.principalCents)} over ${input.years} years at ${said(input.annualRateBp / 100)} % a year: ${dollars(monthlyCents)} a month.`,
        `Over all the years that is ${dollars(totalInterestCents)} of interest.`,
      ],
      rules: [],
    };
  },
});

const priceFromCostOf = calculation({
  name: 'price-from-cost',
  title: 'Price from cost',
  decides: 'The price that a markup on cost, or a margin on price, makes of a cost.',
  input: closed({
    costCents: cents(),
    markupBp: quantity({ unit: 'basis points', whole: true, least: 0, most: 1_000_000 }).optional(),
    marginBp: quantity({ unit: 'basis points', whole: true, least: 0, most: 9999 }).optional(),
  }).superRefine(({ markupBp, marginBp }, context) => {
    if ((markupBp === undefined) !== (marginBp === undefined)) return;
    context.addIssue({
      code: 'custom',
      path: ['markupBp'],
      message:
        markupBp === undefined
          ? 'must be stated, or marginBp instead; both are missing'
          : `must be left out, or marginBp: one of the two says it, not both (${markupBp} and ${marginBp})`,
    });
  }),
  result: z.strictObject({ priceCents: whole, markupBp: whole, marginBp: whole }),
  example: { costCents: 250_000, markupBp: 1500 },
  answer: (input) => {
    const { priceCents, markupBp, marginBp } = priceFromCost(input);
    return {
      result: { priceCents, markupBp, marginBp },
      because: [
        `${dollars(input.costCents)} of cost become ${dollars(priceCents)}.`,
        `That is ${said(markupBp / 100)} % on the cost, or ${said(marginBp / 100)} % of the price.`,
      ],
      rules: [],
    };
  },
});

/** What a job takes and costs, by arithmetic. */
export const JOB_CALCULATIONS = [trenchOf, concreteOf, packagesOf, threePointOf, paymentOf, priceFromCostOf];
