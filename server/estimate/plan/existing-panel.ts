import type { RuleKey } from '../../electrical/citations.ts';
import type { Finding } from '../answer.ts';
import { findingOf, type Job } from './job.ts';

/** A source and the main breaker together may be so many times the bus that they feed from its two ends. NEC 705.12(B), from memory. */
const BUS_SHARE = 1.2;
/** Sources on one bus share it: NEC 705.12(B), from memory. */
const BACKFEED_CITES = 'backfed-bus';

/** Is the main panel replaced in this option, so that what is wrong with the old one goes with it? */
function isReplaced({ option }: Job): boolean {
  return option.serviceUpgrade?.panel === 'replace';
}

/** What kind and state of panel is there, what its bus bears, and what must be done first and by whom. */
export function existingPanelFindings(job: Job): Finding[] {
  return [...kindFindings(job), ...stateFindings(job), ...busFindings(job), ...backfeedFindings(job)];
}

const REPLACE =
  'State serviceUpgrade with a panel that is replaced; an electrician does it first, with the utility’s leave.';

function kindFindings(job: Job): Finding[] {
  const { panel } = job.description.site.service;
  if (!panel) return [];
  const said = (severity: Finding['severity'], message: string, cites?: RuleKey) =>
    findingOf(job.edition, {
      rule: 'panel-kind',
      severity,
      message,
      numbers: panel.kind ? { kind: panel.kind } : {},
      ...(cites && { cites }),
    });
  const takesBreaker = job.start === 'main panel' && job.option.feed !== 'existing-receptacle';
  switch (panel.kind) {
    case null:
      return [
        said(
          'caution',
          'What kind of panel it is is not known: look for fuses, for more than one main switch, and for a disconnect outside, with its door open and its cover on.',
        ),
      ];
    case 'fuses':
      if (isReplaced(job)) return [said('note', 'The fuses go with the old panel.')];
      return takesBreaker
        ? [
            said(
              'stop',
              `A panel with fuses takes no breaker for a new circuit, and not one with ground-fault protection. ${REPLACE}`,
              'listed-use',
            ),
          ]
        : [
            said(
              'caution',
              'The panel has fuses: one that is too large protects nothing. Have its fuses checked against their wires before anything charges for hours.',
              'conductor-protection',
            ),
          ];
    case 'split-bus':
      if (isReplaced(job)) return [said('note', 'The split bus goes with the old panel.')];
      return [
        said(
          'caution',
          'A split-bus panel has no one main breaker, up to six switch it off together, and a new breaker above may make seven. An electrician looks at it before anything is ordered; often it is replaced.',
          'six-disconnects',
        ),
      ];
    case 'fed-from-outside-disconnect':
      return [
        said(
          'note',
          'Its disconnect is outside: in this panel the neutral stays apart from the grounds.',
          'neutral-beyond-service',
        ),
      ];
    case 'service-equipment':
      return [said('ok', 'The panel is the service equipment.')];
  }
}

function stateFindings(job: Job): Finding[] {
  const { panel } = job.description.site.service;
  if (!panel) return [];
  const said = (severity: Finding['severity'], message: string, cites?: RuleKey) =>
    findingOf(job.edition, {
      rule: 'panel-state',
      severity,
      message,
      numbers: panel.state ? { state: panel.state } : {},
      ...(cites && { cites }),
    });
  if (panel.state === 'current') return [said('ok', 'The panel is of a kind that is still made and served.')];
  if (isReplaced(job)) return [said('note', 'The old panel is replaced before anything is connected.')];
  if (panel.state === null) {
    return [
      said(
        'caution',
        'The panel’s age and make are not known: an electrician or a home inspector reads its label. Some old ones are known not to trip.',
      ),
    ];
  }
  if (panel.state === 'obsolete') {
    return [
      said(
        'caution',
        'New breakers for a panel that is no longer made may be hard to get, and only those listed for it may go in. Ask an electrician before you order; a replacement may cost less.',
        'listed-use',
      ),
    ];
  }
  return [
    said(
      'stop',
      `A panel of a kind that is known to fail may not trip when it must, and charging loads it for hours. ${REPLACE}`,
      'conductor-protection',
    ),
  ];
}

/** The bus is no smaller than what protects it. NEC 408.36. */
function busFindings(job: Job): Finding[] {
  const { panelBusA, ratingA } = job.description.site.service;
  if (panelBusA === undefined || ratingA === null || isReplaced(job)) return [];
  const known = { rule: 'panel-bus', cites: 'panel-protection', numbers: { panelBusA, ratingA } } as const;
  if (panelBusA < ratingA) {
    const message = `A bus of ${panelBusA} A behind a main breaker of ${ratingA} A is not protected. Read the label again; if it is so, an electrician replaces the panel or its main breaker first.`;
    return [findingOf(job.edition, { ...known, severity: 'stop', message })];
  }
  const message = `The bus of ${panelBusA} A is protected by the service of ${ratingA} A.`;
  return [findingOf(job.edition, { ...known, severity: 'ok', message })];
}

/** Solar and storage take a share of the bus. That limits sources, not loads, but for one way of counting. NEC 705.12. */
function backfeedFindings(job: Job): Finding[] {
  const { backfeedA = 0 } = job.description.site.service;
  if (backfeedA === 0) return [];
  return [sharedBus(job, backfeedA), ...hiddenLoad(job)];
}

function sharedBus(job: Job, backfeedA: number): Finding {
  const { service } = job.description.site;
  const toA = job.option.serviceUpgrade?.toA;
  const mainA = toA ?? service.ratingA;
  const busA = isReplaced(job) ? toA : service.panelBusA;
  const known = { rule: 'backfed-bus', cites: BACKFEED_CITES } as const;
  if (mainA === null || busA === undefined) {
    const message = `A source of ${backfeedA} A feeds the panel from its other end, and the rating of its bus is not known: read the label inside its door. A charger only draws and is not limited by it, unless the breakers were counted together.`;
    return findingOf(job.edition, { ...known, severity: 'caution', message, numbers: { backfeedA } });
  }
  const mostA = Math.round(busA * BUS_SHARE * 100) / 100;
  const numbers = { backfeedA, mainA, busA, mostA };
  if (mainA + backfeedA <= mostA) {
    const message = `Main breaker and source together are ${mainA + backfeedA} A, within 120 % of a bus of ${busA} A: ${mostA} A. Loads are not limited by it.`;
    return findingOf(job.edition, { ...known, severity: 'ok', message, numbers });
  }
  const message = `Main breaker and source together are ${mainA + backfeedA} A, above 120 % of a bus of ${busA} A: ${mostA} A. That is lawful only where all other breakers were counted together, and a new one counts among them. Ask who installed the source.`;
  return findingOf(job.edition, { ...known, severity: 'caution', message, numbers });
}

/** What is produced in the house never passes the meter. NEC 220.87. */
function hiddenLoad(job: Job): Finding[] {
  if (job.description.site.load.method !== 'measured') return [];
  const message =
    'Solar or storage hides part of the load from the meter, so a measurement does not count: list the loads instead.';
  return [findingOf(job.edition, { rule: 'hidden-load', severity: 'caution', message, cites: 'measured-demand' })];
}
