import type { EstimateOption, Run } from '../estimate/answer.ts';
import { type Leg, legField } from '../estimate/description/leg.ts';
import { type Description, type DescriptionOption, routeOf } from '../estimate/description.ts';
import { isDitch } from '../estimate/vocabulary.ts';
import type { Job } from './not-included.ts';
import { capital, conductorsInWords, counted, feet, guessedFeet, LEG_WORDS, wiringMethod } from './wording.ts';

const MOUNTS = { wall: 'on the wall', post: 'on a post', pedestal: 'on a pedestal' } as const;
const CONNECTED = {
  hardwired: 'wired directly',
  'receptacle-14-50': 'on a 14-50 receptacle',
  'receptacle-6-50': 'on a 6-50 receptacle',
  'receptacle-5-15': 'on a 5-15 receptacle',
  'receptacle-5-20': 'on a 5-20 receptacle',
} as const;

/** What is built for the price, in sentences as one walks from the panel to the car. Lengths as they were stated. */
export function workIncluded({ description, stated, option }: Job): string[] {
  const has = (scope: string) => option.lines.some((line) => line.scope === scope);
  return [
    ...(stated.serviceUpgrade ? [`The service is brought to ${stated.serviceUpgrade.toA} A.`] : []),
    ...outletThere(stated),
    ...(stated.roughInOnly
      ? [
          'Raceway, boxes, pull string and covers only, capped and labelled at both ends, for wire that is pulled later.',
        ]
      : option.runs.map(runInWords)),
    ...routeInWords(routeOf(description, stated), option),
    ...panel(stated),
    ...(stated.loadManagement && has('load-management')
      ? [`Load management that keeps the chargers at ${stated.loadManagement.maxA} A together at most.`]
      : []),
    ...(stated.roughInOnly ? [] : chargers(stated, description)),
    ...(stated.spareConduit ? ['A second, empty conduit along the route for later, capped.'] : []),
    ...(stated.dataConduit ? [`A conduit of ${stated.dataConduit.tradeSize} in for data along the route.`] : []),
    ...electrodes(option),
    ...(has('permit') ? ['The electrical permit, and the visits that its inspections take.'] : []),
    ...description.extras.map(({ description: words }) => `${capital(words)}.`),
  ];
}

/** What is built instead where another option is taken: its circuits; the terms and the rest are as for the first. */
export function runsInWords({ label, runs }: EstimateOption): string {
  return `${label}: ${runs.length > 0 ? runs.map(runInWords).join(' ') : 'no new circuit.'}`;
}

function outletThere({ feed, receptacle }: DescriptionOption): string[] {
  if (feed !== 'existing-receptacle') return [];
  return [`The outlet that is there is ${receptacle?.replace ? 'replaced' : 'kept and used'}.`];
}

function runInWords(run: Run): string {
  const what = run.role === 'feeder' ? 'feeder' : 'circuit';
  const kind = run.breaker.kind === 'gfci' ? ' with ground-fault protection' : '';
  const length = `about ${feet(Math.round(run.lengthFt))}`;
  return `A ${what} of ${run.ocpdA} A${kind} from the ${run.from} to the ${run.to}, ${length}: ${conductorsInWords(run)}.`;
}

/** Each leg with its length and what lies in it; where it is dug, whether the surface is made good. */
function routeInWords(route: readonly Leg[], option: EstimateOption): string[] {
  if (route.length === 0) return [];
  const [first] = option.runs;
  const legs = route.map((leg, at) => {
    const planned = first?.legs.find((each) => each.leg === at);
    const method = planned ? `, ${wiringMethod(planned)}` : '';
    return `${LEG_WORDS[leg.kind]} ${guessedFeet(leg.lengthFt)}${leg.kind === 'bore' ? '' : method}`;
  });
  const dug = route.filter(({ kind }) => isDitch(kind));
  const left = dug.filter((leg) => legField(leg, 'restore') === false);
  const closing =
    left.length === 0
      ? 'Ditches are dug, filled and compacted, and the surface is made good.'
      : `Ditches are dug, filled and compacted; the surface is made good but for ${left.map(({ kind }) => LEG_WORDS[kind]).join(', ')}.`;
  return [`Along the route: ${legs.join('; ')}.`, ...(dug.length > 0 ? [closing] : [])];
}

function panel({ subpanel, roughInOnly }: DescriptionOption): string[] {
  if (!subpanel || roughInOnly) return [];
  const kept = subpanel.otherCircuits.filter(({ build }) => !build);
  const where = subpanel.enclosure === 'outdoor' ? 'outdoors' : 'indoors';
  return [
    `A panel of ${subpanel.ratingA} A with at least ${subpanel.spaces} spaces, ${where}.`,
    ...kept.map(({ use, amps }) => `Room is kept for a circuit of ${amps} A (${use}), which is not built.`),
  ];
}

const SUPPLIED = {
  buy: 'supplied, mounted and set up',
  owned: 'yours, mounted and set up',
  none: 'not supplied: its connection is made ready',
} as const;

function chargers(stated: DescriptionOption, { site }: Description): string[] {
  return stated.chargers.map(({ amps, connection, equipment, mount, outdoors }) => {
    const rating = amps === 'largest' ? '' : `, ${amps} A`;
    const place = (outdoors ?? site.building === 'outdoor') ? ', outdoors' : '';
    return `Charger${rating}, ${CONNECTED[connection]}, ${MOUNTS[mount]}${place}: ${SUPPLIED[equipment]}.`;
  });
}

function electrodes({ grounding }: EstimateOption): string[] {
  if (!grounding || grounding.electrodes.length === 0) return [];
  const words = grounding.electrodes.map(({ kind, count }) =>
    counted(count, kind === 'rod' ? 'ground rod' : kind.replaceAll('-', ' ')),
  );
  return [`Grounding at the panel: ${words.join(', ')}.`];
}
