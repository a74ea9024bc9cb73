import { counted } from '../drawing/wording.ts';
import type { EstimateOption } from '../estimate/answer.ts';
import type { Description, DescriptionOption } from '../estimate/description.ts';
import { isDitch } from '../estimate/vocabulary.ts';

/** A job that is priced: what was stated of it, and its option. */
export interface Job {
  description: Description;
  stated: DescriptionOption;
  option: EstimateOption;
}

/** What a quote does not promise: as below, but for what its reader asked nobody for and what has an allowance. */
export function notPromised(job: Job, { allowances }: { allowances: readonly { text: string }[] }): string[] {
  const allowsRock = allowances.some(({ text }) => /\brocks?\b/i.test(text));
  return notIncluded(job)
    .filter((sentence) => sentence !== NO_CONTINGENCY)
    .map((sentence) => (allowsRock && sentence === OTHER_GROUND ? OTHER_GROUND_BUT_ROCK : sentence));
}

const OTHER_GROUND = 'Rock, buried rubble, groundwater and other ground than stated.';
/** Where an allowance for rock is a part of the price; the rest of the ground stays at the customer's risk. */
const OTHER_GROUND_BUT_ROCK =
  'Buried rubble, groundwater and other ground than stated, but for rock: see its allowance.';

const NO_CONTINGENCY = 'An allowance for surprises: no contingency was asked for.';

/** What the money does not cover, so that nobody takes silence for a promise. Sentences, the weightiest first. */
export function notIncluded(job: Job): string[] {
  const { description, stated, option } = job;
  const route = stated.route ?? description.route;
  const has = (scope: string) => option.lines.some((line) => line.scope === scope);
  const digs = route.some(({ kind }) => isDitch(kind));
  const finished = route.some(({ kind }) => kind === 'finished-wall' || kind === 'finished-ceiling');
  return [
    ...(option.complete ? [] : ['Items that the price book has no price for: they are listed, and not in the sums.']),
    ...chargersLeftOut(stated),
    ...(has('service-upgrade') ? [] : ['A larger service, a new meter, or charges of the utility.']),
    ...(has('permit') ? [] : ['Permit and inspections.']),
    ...(digs
      ? [
          OTHER_GROUND,
          'Repair of private lines that nobody marked.',
          'Plants, edging and irrigation beyond closing the ditch.',
        ]
      : []),
    ...(finished ? ['Paint, paper and trim beyond closing what was opened.'] : []),
    'Asbestos, lead paint or faults in the existing wiring that are found on the way.',
    'Changes that the authority having jurisdiction (AHJ) asks for.',
    ...(option.totals.contingencyCents === 0 ? [NO_CONTINGENCY] : []),
    ...ownersShare(description),
  ];
}

function chargersLeftOut({ chargers }: DescriptionOption): string[] {
  const owned = chargers.filter(({ equipment }) => equipment === 'owned').length;
  const none = chargers.filter(({ equipment }) => equipment === 'none').length;
  return [
    ...(owned === chargers.length && owned > 0 ? ['The charger itself: the owner has it.'] : []),
    ...(owned < chargers.length && owned > 0 ? [`${counted(owned, 'charger')} that the owner has.`] : []),
    ...(none > 0 ? ['The charger itself: only its outlet is built.'] : []),
  ];
}

function ownersShare({ terms }: Description): string[] {
  if (terms.who === 'owner') return ['Labor: the owner does the work. A permit may ask for a licensed electrician.'];
  return terms.ownerDoes.length > 0 ? [`Labor that the owner does: ${terms.ownerDoes.join(', ')}.`] : [];
}
