import type { RuleKey } from '../../electrical/citations.ts';
import type { Finding } from '../answer.ts';
import type { PlannedOption } from '../plan-types.ts';
import { findingOf, type Job } from './job.ts';
import { panelsSold } from './panels-sold.ts';

type ServiceWork = NonNullable<PlannedOption['serviceWork']>;
type Panel = ServiceWork['panels'][number];
/** An option at the house that it is for, and what shops sell. */
export type AtPanel = Pick<Job, 'description' | 'option' | 'book'>;

/** The least service disconnect of a one-family dwelling, in amperes. NEC 230.79(C). */
const LEAST_DWELLING_A = 100;
/** Up to here one panel carries the service; the larger ones that are sold for dwellings feed two of 200 A. Common practice, no source. */
const ONE_PANEL_A = 200;
const LARGE_RATINGS_A = [320, 400];
/** Houses of this year and later mostly have underground services. Common practice, no source. */
const UNDERGROUND_FROM = 1980;

/** What is built at the service, where the option asks for a larger or a new one: as it is likeliest where something is not known. */
export function serviceWorkOf({ description, option, book }: AtPanel): { serviceWork?: ServiceWork } {
  const { serviceUpgrade } = option;
  if (!serviceUpgrade) return {};
  const { toA, supply, meter, panel, relocateFt } = serviceUpgrade;
  const { service, yearBuilt } = description.site;
  const kind = service.ratingA === toA && meter !== 'replace' ? 'panel-swap' : 'upgrade';
  return {
    serviceWork: {
      kind,
      toA,
      supply: supply ?? ((yearBuilt ?? 0) >= UNDERGROUND_FROM ? 'underground' : 'overhead'),
      replacesMeter: kind === 'upgrade' && meter !== 'keep',
      panels: panel === 'replace' ? panelsFor(book, toA) : [],
      relocateFt,
    },
  };
}

/** The main panels that are bought: one of the service's rating, or two of 200 A; of those sold, the one with most spaces. */
function panelsFor(book: Job['book'], toA: number): Panel[] {
  const ratingA = Math.min(toA, ONE_PANEL_A);
  const panel = soldPanel(book, ratingA) ?? { ratingA, spaces: 40, enclosure: 'indoor', mainBreaker: true };
  return toA > ONE_PANEL_A ? [panel, panel] : [panel];
}

function soldPanel(book: Job['book'], ratingA: number): Panel | undefined {
  return panelsSold(book)
    .filter((spec) => spec.ratingA === ratingA && spec.mainBreaker && spec.enclosure === 'indoor')
    .sort((a, b) => b.spaces - a.spaces)
    .map(({ spaces }): Panel => ({ ratingA, spaces, enclosure: 'indoor', mainBreaker: true }))[0];
}

/** What a larger service must have, what is not known of it, and what is not to be had. */
export function serviceUpgradeFindings(job: Job): Finding[] {
  if (!job.option.serviceUpgrade) return [];
  return [...ratingFindings(job), ...unknownFindings(job), ...keptPanel(job), ...movedPanel(job), ...duties(job)];
}

function ratingFindings(job: Job): Finding[] {
  const toA = job.option.serviceUpgrade?.toA ?? 0;
  const { ratingA } = job.description.site.service;
  const sold = soldServiceRatingsA(job.book);
  const numbers = { toA, ...(ratingA !== null && { ratingA }) };
  const finding = (severity: Finding['severity'], message: string) =>
    findingOf(job.edition, { rule: 'service-rating', severity, message, cites: 'service-disconnect-rating', numbers });
  if (toA < LEAST_DWELLING_A) {
    return [finding('stop', `A dwelling's service is at least ${LEAST_DWELLING_A} A; ${toA} A are asked for.`)];
  }
  if (!sold.includes(toA)) {
    const message = `The price book sells no service of ${toA} A: take ${listOf(sold)}, or add a main panel of ${toA} A to it.`;
    return [finding('stop', message)];
  }
  if (ratingA === null) {
    return [
      finding('caution', `What the service is rated now is not known; ${toA} A may be no more. Read the main breaker.`),
    ];
  }
  if (toA < ratingA) return [finding('stop', `${toA} A are less than the ${ratingA} A that are there.`)];
  if (toA === ratingA) {
    return [finding('note', `The service stays at ${ratingA} A: the work is a replacement, not more current.`)];
  }
  return [finding('ok', `The service goes from ${ratingA} A to ${toA} A.`)];
}

/** Ratings of services that the book has a main panel, or a meter-main, for, in amperes; smallest first. */
export function soldServiceRatingsA(book: Job['book']): number[] {
  const small = panelsSold(book).flatMap(({ ratingA, mainBreaker, enclosure }) =>
    mainBreaker && enclosure === 'indoor' ? [ratingA] : [],
  );
  const lawful = small.filter((ratingA) => ratingA >= LEAST_DWELLING_A && ratingA <= ONE_PANEL_A);
  const large = book.bySpec({ is: 'other', name: 'panel-320a-meter-main' }) ? LARGE_RATINGS_A : [];
  return [...new Set([...lawful, ...large])].sort((a, b) => a - b);
}

const listOf = (ratings: readonly number[]) => ratings.map((ratingA) => `${ratingA} A`).join(', ') || 'none';

function unknownFindings(job: Job): Finding[] {
  const upgrade = job.option.serviceUpgrade;
  const { serviceWork } = serviceWorkOf(job);
  if (!upgrade || !serviceWork) return [];
  const unknown = (rule: string, message: string, cites?: RuleKey) =>
    findingOf(job.edition, { rule, severity: 'caution', message, ...(cites && { cites }) });
  const supply = unknown(
    'service-supply',
    `Whether the utility's wires come overhead or underground is not known; ${serviceWork.supply} is priced. Look whether wires come from a pole to the roof or wall; a meter with only a pipe into the ground is fed underground.`,
  );
  const meter = unknown(
    'service-meter',
    `Whether the meter's socket may stay is not known; ${serviceWork.replacesMeter ? 'a new one is' : 'keeping it is'} priced. Ask the utility, or read the rating on its label with the cover closed.`,
    'meter-socket',
  );
  const lateral = unknown(
    'service-lateral',
    'For an underground service the ditch and pipe for the utility’s cable are thought to be in the utility’s charge, which varies most of all here. Ask the utility before you sign.',
  );
  return [
    ...(upgrade.supply === null ? [supply] : []),
    ...(upgrade.meter === null ? [meter] : []),
    ...(serviceWork.kind === 'upgrade' && serviceWork.supply === 'underground' ? [lateral] : []),
  ];
}

/** A panel that stays is not worth more than its bus, whatever comes to it. NEC 408.36. */
function keptPanel(job: Job): Finding[] {
  const { serviceUpgrade } = job.option;
  if (serviceUpgrade?.panel !== 'keep') return [];
  const { panelBusA, ratingA } = job.description.site.service;
  const { toA } = serviceUpgrade;
  const known = { rule: 'kept-panel', cites: 'panel-protection' } as const;
  if (panelBusA !== undefined && panelBusA >= toA) {
    const message = `The panel that stays has a bus of ${panelBusA} A, enough for ${toA} A. With its disconnect outside, its neutral is taken apart from its grounds.`;
    return [findingOf(job.edition, { ...known, severity: 'note', message, numbers: { panelBusA, toA } })];
  }
  if (panelBusA !== undefined) {
    const message = `The panel that stays has a bus of ${panelBusA} A and may not be fed by ${toA} A. Replace it.`;
    return [findingOf(job.edition, { ...known, severity: 'stop', message, numbers: { panelBusA, toA } })];
  }
  if (ratingA === toA) return [];
  const message = `Whether the panel that stays may be fed by ${toA} A is not known: its label names the rating of its bus. Below that it must be replaced.`;
  return [findingOf(job.edition, { ...known, severity: 'caution', message, numbers: { toA } })];
}

function movedPanel({ option, edition }: Job): Finding[] {
  const relocateFt = option.serviceUpgrade?.relocateFt ?? 0;
  if (relocateFt === 0) return [];
  return [
    findingOf(edition, {
      rule: 'panel-moved',
      severity: 'caution',
      message: `The panel moves by ${relocateFt} ft: every circuit is lengthened, the old cabinet stays as a box that can be reached, and the route is taken to start at the new place. How many circuits there are is not known here.`,
      cites: 'panel-as-box',
      numbers: { relocateFt },
    }),
  ];
}

/** What the code asks of every service that is new or replaced. */
function duties(job: Job): Finding[] {
  const note = (rule: string, message: string, cites: NonNullable<Parameters<typeof findingOf>[1]['cites']>) =>
    findingOf(job.edition, { rule, severity: 'note', message, cites });
  return [
    note(
      'surge-protection',
      'A service that is replaced gets a surge protective device; it is priced.',
      'surge-protection',
    ),
    note(
      'emergency-disconnect',
      'A disconnect outside, within reach and marked EMERGENCY DISCONNECT, goes with it; it is priced.',
      'emergency-disconnect',
    ),
    note(
      'service-grounding',
      'Its electrodes are brought up to date: two rods, and metal water pipe where there is any.',
      'electrode-conductor',
    ),
    note(
      'working-space',
      'Before the panel 3 ft are kept clear, 30 in wide: what stands there moves first.',
      'working-space',
    ),
  ];
}
