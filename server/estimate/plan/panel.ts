import { reaches } from '../../electrical/overcurrent.ts';
import type { Finding } from '../answer.ts';
import type { PlannedOption } from '../plan-types.ts';
import type { Circuit } from './circuit.ts';
import type { OtherCircuit } from './feeder-load.ts';
import { amperes, findingOf, type Job } from './job.ts';
import { panelsSold } from './panels-sold.ts';

/** The subpanel as it will be bought. */
export type Panel = NonNullable<PlannedOption['panel']>;

/** Spaces of the subpanel that are spoken for: chargers and all other circuits, built now or later. */
function usedSpaces(branches: readonly Circuit[], others: readonly OtherCircuit[]): number {
  const kept = others.filter(({ build }) => !build).reduce((sum, { poles }) => sum + poles, 0);
  return branches.reduce((sum, { poles }) => sum + poles, kept);
}

/**
 * Chooses the subpanel: the smallest that is sold with at least the rating and spaces asked for, and room for every
 * circuit. A panel with a main breaker may stand for one without. Where none is sold, the one asked for.
 */
export function choosePanel(
  job: Job,
  branches: readonly Circuit[],
  others: readonly OtherCircuit[],
): { panel: Panel; findings: Finding[] } | undefined {
  const { subpanel } = job.option;
  if (!subpanel) return undefined;
  const used = usedSpaces(branches, others);
  const asked: Panel = {
    ratingA: subpanel.ratingA,
    spaces: Math.max(subpanel.spaces, used),
    enclosure: subpanel.enclosure,
    mainBreaker: subpanel.mainBreaker,
  };
  const panel = smallestSold(job, asked) ?? asked;
  const numbers = { usedSpaces: used, spaces: panel.spaces, panelA: panel.ratingA };
  const room =
    used > subpanel.spaces
      ? findingOf(job.edition, {
          rule: 'subpanel-spaces',
          severity: 'caution',
          message: `The circuits need ${used} spaces, ${subpanel.spaces} were asked for: a panel of ${panel.spaces} is planned.`,
          cites: 'panel-places',
          numbers,
        })
      : findingOf(job.edition, {
          rule: 'subpanel-spaces',
          severity: 'ok',
          message: `${used} of the subpanel's ${panel.spaces} spaces are taken.`,
          cites: 'panel-places',
          numbers,
        });
  return { panel, findings: [room] };
}

function smallestSold({ book }: Job, asked: Panel): Panel | undefined {
  const fits = (panel: Panel) =>
    panel.ratingA >= asked.ratingA &&
    panel.spaces >= asked.spaces &&
    panel.enclosure === asked.enclosure &&
    (panel.mainBreaker || !asked.mainBreaker);
  return panelsSold(book)
    .filter(fits)
    .sort(
      (a, b) =>
        a.ratingA - b.ratingA ||
        a.spaces - b.spaces ||
        Number(a.mainBreaker !== asked.mainBreaker) - Number(b.mainBreaker !== asked.mainBreaker),
    )[0];
}

/** Can the existing subpanel that the route starts at feed more? Its own load is not part of the description. */
export function startFindings(job: Job, neededA: number): Finding[] {
  const { start } = job.description.site;
  if (!start) return [];
  const { feederA } = start;
  const known = { rule: 'start-feeder', cites: 'feeder-continuous-load' } as const;
  if (feederA === null) {
    const message = `What feeds the existing subpanel is not known; the new load asks for ${amperes(neededA)} of it. Read its breaker.`;
    return [findingOf(job.edition, { ...known, severity: 'caution', message, numbers: { neededA } })];
  }
  const numbers = { neededA, feederA };
  if (!reaches(feederA, neededA)) {
    const message = `The new load asks for ${amperes(neededA)}, and the existing subpanel is fed by ${feederA} A. Charge with fewer amperes, or start at the main panel.`;
    return [findingOf(job.edition, { ...known, severity: 'stop', message, numbers })];
  }
  const message = `The new load asks for ${amperes(neededA)} of the ${feederA} A that feed the existing subpanel. What it feeds already, and the voltage lost on its feeder, come on top and are not known here.`;
  return [findingOf(job.edition, { ...known, severity: 'caution', message, numbers })];
}

/** Are there spaces for the new breakers in the panel that the route starts at? A two-pole breaker needs two side by side. NEC 408.54. */
export function freeSpacesFinding(job: Job, fromStart: readonly Circuit[]): Finding[] {
  const neededSpaces = fromStart.reduce((sum, { poles }) => sum + poles, 0);
  if (neededSpaces === 0) return [];
  const { start, service } = job.description.site;
  const known = { rule: 'panel-spaces', cites: 'panel-places' } as const;
  if (!start && job.option.serviceUpgrade?.panel === 'replace') {
    const message = `${neededSpaces} spaces are needed, and the new main panel is bought with room for them.`;
    return [findingOf(job.edition, { ...known, severity: 'ok', message, numbers: { neededSpaces } })];
  }
  const freeSpaces = start ? start.freeSpaces : service.freeSpaces;
  if (freeSpaces === null) {
    return [
      findingOf(job.edition, {
        ...known,
        severity: 'caution',
        message: `Whether the ${job.start} has ${neededSpaces} free spaces is not known. Count them before you order.`,
        numbers: { neededSpaces },
      }),
    ];
  }
  const numbers = { neededSpaces, freeSpaces };
  if (freeSpaces >= neededSpaces) {
    const message = `${neededSpaces} of ${freeSpaces} free spaces in the ${job.start} are needed.`;
    return [findingOf(job.edition, { ...known, severity: 'ok', message, numbers })];
  }
  return [
    findingOf(job.edition, {
      ...known,
      severity: 'caution',
      message:
        `${neededSpaces} spaces are needed in the ${job.start} and ${freeSpaces} are free. What would do: free spaces by ` +
        'tandem breakers where its label allows them, by joining circuits, or by a larger panel.',
      numbers,
    }),
  ];
}
