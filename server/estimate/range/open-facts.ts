import type { Unknown } from '../answer.ts';
import type { PlannedOption } from '../plan-types.ts';
import type { Chance } from '../vocabulary.ts';
import { isGuessed } from './lengths.ts';

/** A field that is not known, how to find it out without opening anything, and which scenarios it decides. */
export interface OpenFact extends Omit<Unknown, 'swingCents'> {
  scenarios: readonly Chance[];
  /** Is it left out where no scenario of it changes this option? Then it holds for everybody and nobody needs to ask. */
  onlyWithScenario?: true;
  /** For a guessed length: the leg of the option's route. */
  leg?: number;
}

/** Where an option and its route stand in the description. */
export interface Paths {
  /** `options.1`. */
  option: string;
  /** `route`, or `options.1.route` where the option has its own. */
  route: string;
}

/**
 * All that is stated as not known about an option and its house, as paths of the description. Nobody is ever told to
 * take a cover off: what is asked for can be read, counted, paced or asked.
 */
export function openFactsOf(plan: PlannedOption, paths: Paths): OpenFact[] {
  return [...serviceFacts(plan), ...panelFacts(plan), ...routeFacts(plan, paths), ...optionFacts(plan, paths)];
}

function serviceFacts({ description: { site }, option }: PlannedOption): OpenFact[] {
  const scenarios = ['new-service'] as const;
  const open: OpenFact[] = [];
  if (site.load.method === 'unknown') {
    open.push({
      path: 'site.load',
      howToFindOut:
        'Ask the utility for the highest demand of the last 12 months, or for the interval file of the meter; else list the large appliances by their nameplates.',
      whoCanTell: 'utility',
      scenarios,
    });
  }
  if (site.service.ratingA === null) {
    open.push({
      path: 'site.service.ratingA',
      howToFindOut:
        'Read the number on the handle of the main breaker, with the door of the panel open and its cover on.',
      whoCanTell: 'you',
      scenarios,
    });
  }
  if (site.load.method !== 'unknown' && site.code.chargerReading === 'both' && option.feed !== 'existing-receptacle') {
    open.push({
      path: 'site.code.chargerReading',
      howToFindOut: 'Ask the building department how it counts a charger in the load calculation of a dwelling.',
      whoCanTell: 'inspector',
      scenarios,
      onlyWithScenario: true,
    });
  }
  return open;
}

function panelFacts({ description: { site }, serviceWork }: PlannedOption): OpenFact[] {
  const { start, service } = site;
  const open: OpenFact[] = [];
  const freeSpaces = start ? start.freeSpaces : service.freeSpaces;
  const isNew = !start && (serviceWork?.panels.length ?? 0) > 0;
  if (freeSpaces === null && !isNew) {
    open.push({
      path: start ? 'site.start.freeSpaces' : 'site.service.freeSpaces',
      howToFindOut:
        'Open the door of the panel, leave its cover on, and count the places without a breaker; note which two lie side by side.',
      whoCanTell: 'you',
      scenarios: ['panel-full'],
    });
  }
  if (start?.feederA === null) {
    open.push({
      path: 'site.start.feederA',
      howToFindOut: 'Read the number on the handle of the breaker in the main panel that feeds the subpanel.',
      whoCanTell: 'you',
      scenarios: [],
    });
  }
  if (service.panel?.kind === null) {
    open.push({
      path: 'site.service.panel.kind',
      howToFindOut:
        'With the door open and the cover on: look for fuses, for more than one main switch, and for a disconnect outside.',
      whoCanTell: 'you',
      scenarios: ['panel-with-fuses'],
    });
  }
  if (service.panel?.state === null) {
    open.push({
      path: 'site.service.panel.state',
      howToFindOut:
        'A home inspector or an electrician reads the label in the door and says whether its make is known to fail.',
      whoCanTell: 'inspector',
      scenarios: ['panel-known-to-fail'],
    });
  }
  return open;
}

function routeFacts({ route, description: { site } }: PlannedOption, paths: Paths): OpenFact[] {
  const lengths = route.filter(isGuessed).map(
    ({ leg }): OpenFact => ({
      path: `${paths.route}.${leg}.lengthFt`,
      howToFindOut:
        'Measure it with a tape or a wheel, or pace it twice and take the mean, from where the leg before it ends.',
      whoCanTell: 'you',
      scenarios: [],
      leg,
    }),
  );
  const slabs = route
    .filter(({ stated }) => stated.reinforcement === null)
    .slice(0, 1)
    .map(
      ({ leg }): OpenFact => ({
        path: `${paths.route}.${leg}.reinforcement`,
        howToFindOut: 'Draw a strong magnet or a cover meter over the slab, or look at a broken edge of it.',
        whoCanTell: 'you',
        scenarios: ['slab-rebar', 'slab-mesh'],
      }),
    );
  const hazards: OpenFact = {
    path: 'site.hazards',
    howToFindOut:
      'Ask for the reports of earlier inspections; a lead inspector tests paint, and a laboratory tests a sample for asbestos. A wall of plaster sounds solid and dull where it is knocked on.',
    whoCanTell: 'inspector',
    scenarios: ['asbestos', 'lead-paint', 'plaster'],
    onlyWithScenario: true,
  };
  const isAsked = site.hazards === null && site.work === 'retrofit';
  return [...lengths, ...slabs, ...finishes(route, paths), ...(isAsked ? [hazards] : [])];
}

/** What stands behind the first finished wall or ceiling, as for all of them. */
function finishes(route: PlannedOption['route'], paths: Paths): OpenFact[] {
  const first = route.find(({ stated }) => /^finished-/.test(stated.kind));
  if (!first) return [];
  return [
    {
      path: `${paths.route}.${first.leg}.kind`,
      howToFindOut:
        'Ask for drawings or photos of the framing; an electrician looks with a small camera through one opening, or finds a way beside the finish: an attic, a basement, the outside wall.',
      whoCanTell: 'electrician',
      scenarios: ['blocked-wall'],
      onlyWithScenario: true,
    },
  ];
}

function optionFacts({ option, serviceWork }: PlannedOption, paths: Paths): OpenFact[] {
  const { serviceUpgrade, receptacle } = option;
  const open: OpenFact[] = [];
  const add = (fact: OpenFact) => open.push({ ...fact, path: `${paths.option}.${fact.path}` });
  if (serviceUpgrade?.supply === null) {
    add({
      path: 'serviceUpgrade.supply',
      howToFindOut:
        'Look whether wires come from a pole to the roof or the wall; a meter with only a pipe into the ground is fed underground.',
      whoCanTell: 'you',
      scenarios: ['underground-service', 'overhead-service'],
    });
  }
  if (serviceUpgrade?.meter === null && serviceWork?.replacesMeter) {
    add({
      path: 'serviceUpgrade.meter',
      howToFindOut: 'Ask the utility whether the socket of the meter may stay at the new rating.',
      whoCanTell: 'utility',
      scenarios: ['meter-kept'],
    });
  }
  if (receptacle?.sharedWith === null) {
    add({
      path: 'receptacle.sharedWith',
      howToFindOut: 'Switch its breaker off and try every lamp and outlet near by: what is dead shares the circuit.',
      whoCanTell: 'you',
      scenarios: ['shared-circuit'],
    });
  }
  if (receptacle?.gfci === null) {
    add({
      path: 'receptacle.gfci',
      howToFindOut: 'Look for test buttons on the receptacle, on others before it, and on its breaker.',
      whoCanTell: 'you',
      scenarios: ['no-ground-fault-protection'],
    });
  }
  if (receptacle?.grounded === null) {
    add({
      path: 'receptacle.grounded',
      howToFindOut: 'An electrician or a home inspector tests it; a plug-in tester can be fooled by old wiring.',
      whoCanTell: 'inspector',
      scenarios: ['no-ground'],
    });
  }
  return open;
}
