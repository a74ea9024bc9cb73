import type { EstimateOption, ServiceCheck } from './answer.ts';
import { highestA, isNoWorse, type TryChanged, unlessRefused } from './changed-option.ts';
import { priceTakeoff } from './lines.ts';
import type { OptionEstimate } from './option-estimate.ts';
import { chargerGroups, is120V } from './plan/charger-load.ts';
import type { SettledOption } from './plan/job.ts';
import { soldServiceRatingsA } from './plan/service-upgrade.ts';
import type { PlannedOption } from './plan-types.ts';
import type { Book } from './price-book.ts';
import {
  type AtService,
  fitsByEveryReading,
  type ServiceReadings,
  serviceReadings,
  setToAtMost,
  whyBarred,
} from './service-readings.ts';
import { takeoffOf } from './takeoff/takeoff.ts';
import { totalsOf } from './totals.ts';
import { BOUNDS } from './vocabulary.ts';

type Remedy = ServiceCheck['remedies'][number];

/** A remedy, and what it makes of the option or of its plan; neither where nothing is built for it. */
export interface RemedyChange {
  remedy: Remedy;
  option?: SettledOption;
  plan?: (plan: PlannedOption) => PlannedOption;
}

/** An option at its service, and what the trade sells for it. */
export interface AtServiceWithBook extends AtService {
  book: Book;
}

/**
 * What would help where the service does not surely carry an option, or its panel does not take it; without prices.
 * Nothing where all of it is known to fit.
 */
export function remedyChanges(at: AtServiceWithBook): RemedyChange[] {
  return [...loadRemedies(at), ...panelRemedies(at), ...spaceRemedies(at)];
}

function loadRemedies(at: AtServiceWithBook): RemedyChange[] {
  const found = serviceReadings(at);
  if (!found) {
    const barred = whyBarred(at.description) ?? whyHidden(at.description);
    const detail = barred ?? 'Nobody has stated what the house draws: measure or list it.';
    return [{ remedy: { kind: 'measure', detail }, ...(barred ? {} : recordedFor30Days(at)) }];
  }
  if (found.ratingA === null) {
    const detail = 'Read the rating on the handle of the main breaker; do not open the panel for it.';
    return [{ remedy: { kind: 'measure', detail }, plan: (plan) => plan }];
  }
  if (found.readings.every(({ fits }) => fits)) return [];
  return [...lowerAmps(at), ...managed(at), ...largerService(at, found), ...measured(at)];
}

/** Where the house makes power of its own its meter does not say what it draws. NEC 220.87. */
function whyHidden({ site: { service } }: AtService['description']): string | undefined {
  if ((service.backfeedA ?? 0) === 0) return undefined;
  return 'Nobody has stated what the house draws, and solar or storage hides it from the meter: list the loads.';
}

/** The highest lower setting that fits by every reading, checked as the option itself is; none where there is none. */
function lowerAmps(at: AtService): RemedyChange[] {
  for (let amps = Math.ceil(highestA(at.option)) - 1; amps >= BOUNDS.minChargingA; amps -= 1) {
    const option = setToAtMost(at.option, amps);
    if (!fitsByEveryReading({ ...at, option })) continue;
    const several = option.chargers.length > 1;
    const subject = several ? 'With no charger set above' : 'Set to';
    const detail = `${subject} ${amps} A ${several ? 'they fit' : 'the charger fits'} by every reading.`;
    return [{ remedy: { kind: 'lower-amps', amps, detail }, option }];
  }
  return [];
}

/** Load management, where none is planned: a circuit that several share, and a monitor of the service. */
function managed(at: AtService): RemedyChange[] {
  const { option } = at;
  if (option.loadManagement || option.feed === 'existing-receptacle') return [];
  const maxA = option.chargers.reduce((sum, { amps }) => sum + amps, 0);
  const monitor: RemedyChange = {
    remedy: {
      kind: 'load-management',
      detail: 'A listed monitor on the service lets the charger have only what the house leaves.',
    },
    option: { ...option, loadManagement: { kind: 'service-monitor', maxA } },
  };
  return [...sharedCircuit(at), ...(maxA > 0 ? [monitor] : [])];
}

/** All chargers on one circuit, that together draw as much as the service carries, and no more than one of them now. */
function sharedCircuit(at: AtService): RemedyChange[] {
  const { chargers } = at.option;
  if (chargerGroups(chargers).length < 2 || chargers.some(is120V)) return [];
  for (let maxA = Math.floor(highestA(at.option)); maxA >= BOUNDS.minChargingA; maxA -= 1) {
    const option: SettledOption = {
      ...at.option,
      chargers: chargers.map((one) => ({ ...one, group: 'shared' })),
      loadManagement: { kind: 'shared-circuit', maxA },
    };
    if (!fitsByEveryReading({ ...at, option })) continue;
    const detail = `On one managed circuit the chargers draw ${maxA} A together, and fit by every reading.`;
    return [{ remedy: { kind: 'load-management', amps: maxA, detail }, option }];
  }
  return [];
}

/** The smallest service that is sold and carries it; where none is, what it would have to be. */
function largerService(at: AtServiceWithBook, { demandA, strictA, ratingA }: ServiceReadings): RemedyChange[] {
  const neededA = Math.ceil(demandA + strictA);
  const toA = soldServiceRatingsA(at.book).find((soldA) => soldA >= neededA && soldA > (ratingA ?? 0));
  if (toA === undefined) {
    const detail = `A service of at least ${neededA} A carries all of it; the price book sells none that large.`;
    return [{ remedy: { kind: 'service-upgrade', amps: neededA, detail } }];
  }
  const detail = `A service of ${toA} A carries all of it; ${neededA} A are needed.`;
  return [{ remedy: { kind: 'service-upgrade', amps: toA, detail }, option: withService(at.option, toA) }];
}

function withService(option: SettledOption, toA: number): SettledOption {
  const { serviceUpgrade } = option;
  const serviceWork = { supply: null, meter: null, panel: 'replace', relocateFt: 0, ...serviceUpgrade, toA } as const;
  return { ...option, serviceUpgrade: serviceWork };
}

/** A list of loads mostly says more than a meter does. NEC 220.87. */
function measured(at: AtServiceWithBook): RemedyChange[] {
  if (at.description.site.load.method !== 'listed' || whyHidden(at.description)) return [];
  const detail =
    'What is measured counts instead of the list, and is often less: the utility’s peak of a year, or thirty days recorded, which is priced here.';
  return [{ remedy: { kind: 'measure', detail }, ...recordedFor30Days(at) }];
}

/** What a recording of thirty days is called in the price book. */
const RECORDING = 'load-recording-30-days';

/** A recording made for it; who has the utility's readings by the hour needs none. */
function recordedFor30Days({ book }: AtServiceWithBook): Pick<RemedyChange, 'plan'> {
  const item = book.bySpec({ is: 'other', name: RECORDING });
  if (!item) return {};
  const extra: PlannedOption['description']['extras'][number] = {
    description: item.description,
    class: item.class,
    scope: item.scope,
    quantity: 1,
    unit: item.unit,
    unitPriceCents: item.likely,
    lowCents: item.low,
    highCents: item.high,
  };
  return {
    plan: (plan) => ({ ...plan, description: { ...plan.description, extras: [...plan.description.extras, extra] } }),
  };
}

/** A panel that no breaker may be added to, or that is known to fail, is replaced at the rating that the service has. */
function panelRemedies({ description, option, book }: AtServiceWithBook): RemedyChange[] {
  const { panel, ratingA } = description.site.service;
  if (!isUnfit(panel) || option.serviceUpgrade?.panel === 'replace' || ratingA === null) return [];
  const toA = soldServiceRatingsA(book).find((soldA) => soldA >= ratingA);
  if (toA === undefined) return [];
  const detail = `A new main panel of ${toA} A in place of the old one takes the new breaker.`;
  return [{ remedy: { kind: 'service-upgrade', amps: toA, detail }, option: withService(option, toA) }];
}

type PanelThere = AtService['description']['site']['service']['panel'];

/** Does a panel take no breaker, or fail when it must trip? */
const isUnfit = (panel: PanelThere) => panel?.kind === 'fuses' || panel?.state === 'known-hazard';

/** Room for the new breakers in a panel that is known to have too little, and is fit to get them. */
function spaceRemedies({ description, option }: AtServiceWithBook): RemedyChange[] {
  const { start, service } = description.site;
  const freeSpaces = start ? start.freeSpaces : service.freeSpaces;
  const neededSpaces = spacesOf(option);
  const isNew = !start && option.serviceUpgrade?.panel === 'replace';
  const isUnfitStart = !start && isUnfit(service.panel);
  if (freeSpaces === null || isNew || isUnfitStart || neededSpaces <= freeSpaces) return [];
  const which = start ? 'subpanel' : 'main panel';
  const tandems = `Tandem breakers free ${neededSpaces - freeSpaces} of the ${neededSpaces} spaces, if the label of the ${which} allows them; they are part of this price.`;
  const beside = `A small subpanel beside the ${which} takes some of its circuits over, where it allows no tandem breakers.`;
  return [
    { remedy: { kind: 'free-spaces', detail: tandems }, plan: (plan) => plan },
    { remedy: { kind: 'free-spaces', detail: beside }, plan: (plan) => ({ ...plan, roomBy: 'house-subpanel' }) },
  ];
}

/** Spaces of the breakers that an option adds to the panel that it starts at: two for a feeder, else by its circuits. */
function spacesOf({ feed, chargers }: SettledOption): number {
  if (feed === 'existing-receptacle') return 0;
  if (feed === 'subpanel') return 2;
  return chargerGroups(chargers).reduce((sum, group) => {
    const low = group.chargers.every((at) => chargers[at] && is120V(chargers[at]));
    return sum + (low ? 1 : 2);
  }, 0);
}

/**
 * The remedies of an option with what each adds to its total, each planned and priced anew, in order of cost; one that
 * the book cannot price comes last and has no difference. One that would not help after all is left out.
 */
export function pricedRemedies(own: OptionEstimate, book: Book, tryChanged: TryChanged): Remedy[] {
  const { description, option } = own.plan;
  return remedyChanges({ description, option, book })
    .flatMap((change) => priced(change, { own, book, tryChanged }))
    .sort((a, b) => (a.differenceCents ?? Number.POSITIVE_INFINITY) - (b.differenceCents ?? Number.POSITIVE_INFINITY));
}

interface Pricing {
  own: OptionEstimate;
  book: Book;
  tryChanged: TryChanged;
}

function priced({ remedy, option, plan }: RemedyChange, { own, book, tryChanged }: Pricing): Remedy[] {
  if (plan) return [{ ...remedy, ...replannedCents(plan(own.plan), own, book) }];
  const found = option && tryChanged(option)?.answer;
  if (!found) return [remedy];
  if (!helps(found, own.answer)) return [];
  const differenceCents = found.totals.totalCents - own.answer.totals.totalCents;
  const waits = remedy.kind === 'service-upgrade' ? waitInWords(found) : '';
  return [{ ...remedy, detail: remedy.detail + waits, ...(found.complete && { differenceCents }) }];
}

/** The same plan with other work at its panel, or with something added. */
function replannedCents(plan: PlannedOption, own: OptionEstimate, book: Book): Pick<Remedy, 'differenceCents'> {
  const { lines } = priceTakeoff({ takeoff: takeoffOf(plan), plan, book });
  const missing = lines.filter(({ priced: hasPrice }) => !hasPrice).length;
  const missed = own.answer.lines.filter(({ priced: hasPrice }) => !hasPrice).length;
  if (missing > missed) return {};
  const totals = unlessRefused(() => totalsOf(lines, plan.description));
  return totals ? { differenceCents: totals.totalCents - own.answer.totals.totalCents } : {};
}

/** Does the changed option fit where the stated one did not, and does nothing else forbid it? */
function helps(found: EstimateOption, stated: EstimateOption): boolean {
  const cured = ['service-capacity', 'panel-kind', 'panel-state'];
  const stillStopped = found.findings.some(({ rule, severity }) => severity === 'stop' && cured.includes(rule));
  return !stillStopped && isNoWorse({ ...found, complete: true }, stated);
}

/** How long the utility lets one wait for its part. */
function waitInWords({ schedule }: EstimateOption): string {
  const waitDays = schedule.find(({ step }) => step === 'utility')?.waitDays ?? 0;
  return waitDays > 0
    ? ` The utility is waited for about ${waitDays} days, at some places for months: ask it first.`
    : '';
}
