import type { EstimateOption, Run, RunLeg } from '../estimate/answer.ts';
import type { LegCosts } from '../estimate/leg-costs.ts';
import { bendsInWords } from './bends.ts';
import { emptyRacewaysInWords } from './empty-raceways.ts';
import type { SectionInput } from './section.ts';
import { NOTHING_RUN } from './section-notes.ts';
import { feet, knownMoney, LEG_WORDS, wiringMethod } from './wording.ts';

/** The run whose methods are drawn: the feeder where there is one, else the first circuit. */
export function mainRun({ runs }: EstimateOption): Run | undefined {
  return runs.find(({ role }) => role === 'feeder') ?? runs[0];
}

/** How a leg is built on that run. */
export function plannedLeg(option: EstimateOption, index: number): RunLeg | undefined {
  return mainRun(option)?.legs.find(({ leg }) => leg === index);
}

/** The panel that the route starts at: the main one, or a subpanel that is there. */
export function startOf(option: EstimateOption): string {
  return mainRun(option)?.from ?? 'main panel';
}

/** What stands at the end: a panel, chargers and their amperes. */
export function endWords(option: EstimateOption): string[] {
  const feeder = option.runs.find(({ role }) => role === 'feeder');
  const amps = option.runs
    .filter(({ role, continuousA }) => role === 'branch-circuit' && continuousA > 0)
    .map(({ continuousA }) => continuousA);
  const chargers = option.charging?.perCharger.length ?? amps.length;
  const alike = amps[0] !== undefined && amps.every((one) => one === amps[0]) ? `, ${amps[0]} A` : '';
  return [
    ...(feeder ? [`panel, ${feeder.ocpdA} A`] : []),
    ...(chargers > 0 ? [`${chargers === 1 ? 'charger' : `${chargers} chargers`}${alike}`] : []),
  ];
}

/** The length of a leg as it is labelled: `36 ft`, `about 36 ft`, `9 ft, 4 ft up`. */
export function labelledFeet(lengthFt: number, leg: SectionInput['route'][number] | undefined): string {
  const guessed = typeof leg?.lengthFt === 'object' ? 'about ' : '';
  return `${guessed}${feet(lengthFt)}${leg?.riseFt ? `, ${feet(leg.riseFt)} up` : ''}`;
}

/** What is laid beside the run, and where it turns. */
export function besideInWords({ route, emptyRaceways = [] }: SectionInput): string {
  return [emptyRacewaysInWords(emptyRaceways), bendsInWords(route)].filter((words) => words !== '').join(' ');
}

/** The drawing in sentences, for those who do not see it. */
export function sectionInWords(input: SectionInput, costs: LegCosts): string {
  const { option, route, isWithoutMoney } = input;
  if (costs.legs.length === 0 || option.runs.length === 0) return `Section from the panel to the car. ${NOTHING_RUN}`;
  const wholeFt = costs.legs.reduce((sum, { lengthFt }) => sum + lengthFt, 0);
  const legs = costs.legs.map((cost) => {
    const leg = route[cost.leg];
    const planned = plannedLeg(option, cost.leg);
    const method = planned ? `, ${wiringMethod(planned)}` : '';
    const rise = leg?.riseFt ? `, ${feet(leg.riseFt)} up at its end` : '';
    const money = isWithoutMoney ? '' : `, ${knownMoney(cost)}`;
    return `${cost.leg + 1}: ${feet(cost.lengthFt)} ${leg ? LEG_WORDS[leg.kind] : ''}${method}${rise}${money}`;
  });
  const whole = knownMoney({ amountCents: costs.wholeJobCents, complete: costs.wholeJobComplete });
  const ends = isWithoutMoney ? '' : `Both ends and the whole job: ${whole}. `;
  const all = `Section along the route from the ${startOf(option)} to the car, ${feet(wholeFt)} in ${legs.length} legs. ${legs.join('; ')}. ${ends}${besideInWords(input)}`;
  return all.trim();
}
