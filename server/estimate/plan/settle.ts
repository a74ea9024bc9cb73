import { type ConductorQuestion, smallestConductor } from '../../electrical/conductor.ts';
import type { FillConductor } from '../../electrical/conduit-fill.ts';
import { equipmentGroundSize } from '../../electrical/equipment-ground.ts';
import { BeyondTableError } from '../../electrical/errors.ts';
import { chargingOcpdA, circuitWires, largestSettingOfOutletA, receptacleFacts } from '../../electrical/ev.ts';
import { LEAST_EVSE_VA_2023 } from '../../electrical/evse-load.ts';
import { CONTINUOUS_FACTOR, reaches } from '../../electrical/overcurrent.ts';
import { SERVICE_V } from '../../electrical/service-load.ts';
import { compareSizes } from '../../electrical/sizes.ts';
import type { Finding } from '../answer.ts';
import { type Description, type DescriptionOption, type PlacedCharger, routeOf } from '../description.ts';
import { fitsByEveryReading } from '../service-readings.ts';
import { BOUNDS, type ConductorSize } from '../vocabulary.ts';
import { chargerGroups, holdsBack, is120V } from './charger-load.ts';
import { filled } from './conduit.ts';
import { supplyFate } from './existing-supply.ts';
import { freeFeederA } from './feeder.ts';
import { feederLoad, standardAtMostA } from './feeder-load.ts';
import { findingOf, routeTerminalsC, type SettledCharger, type SettledOption } from './job.ts';
import { otherCircuitsOf } from './other-circuit.ts';
import { placedRoute } from './place.ts';
import { currentCarrying } from './section.ts';

/** Something that is there already, or in the hands of somebody else, and the setting that it allows. */
interface Limit {
  name: string;
  /** Does it carry every charger that is set to `largest` at so many amperes? */
  allows: (amps: number) => boolean;
}

interface Whole {
  description: Description;
  option: DescriptionOption;
}

/**
 * Settles chargers that are set to `largest`: the highest whole setting up to 80 A that what exists carries. What is
 * bought new never limits; chargers of an option rise together, each no further than its own car.
 */
export function settle(
  description: Description,
  option: DescriptionOption,
): { option: SettledOption; findings: Finding[] } {
  const rising = option.chargers.filter(({ amps }) => amps === 'largest');
  const whole = { description, option };
  if (rising.length === 0) return { option: settledOption(whole, 0), findings: [] };
  const limits = limitsOf(whole);
  const allowed = (amps: number) => limits.every(({ allows }) => allows(amps));
  let amps: number = BOUNDS.maxChargingA;
  while (amps > BOUNDS.minChargingA && !allowed(amps)) amps -= 1;
  const above = limits.filter(({ allows }) => !allows(amps + 1)).map(({ name }) => name);
  return {
    option: settledOption(whole, amps),
    findings: [largestFinding(whole, amps, above, allowed(amps))],
  };
}

/** The option with its rising chargers at so many amperes, each no further than its own car takes. */
function settledOption({ description, option }: Whole, amps: number): SettledOption {
  const chargers = option.chargers.map((charger, at): SettledCharger => {
    const carA = Math.floor(description.driving?.cars[at]?.maxA ?? BOUNDS.maxChargingA);
    const risenA = Math.max(Math.min(amps, BOUNDS.minChargingA), Math.min(amps, carA));
    return { ...charger, amps: charger.amps === 'largest' ? risenA : charger.amps };
  });
  return { ...option, chargers };
}

function largestFinding(whole: Whole, amps: number, by: readonly string[], fits: boolean): Finding {
  const limitedBy = by.length > 0 ? by.join(', ') : MOST_PLANNED;
  const { edition } = whole.description.site.code;
  const cited = { rule: 'largest-setting', cites: 'ev-continuous-load', numbers: { amps, limitedBy } } as const;
  if (!fits) {
    const message = `Not even ${amps} A, the least that a car charges with, fit: ${limitedBy} allows less.${floorInWords(edition, by)}`;
    return findingOf(edition, { ...cited, severity: 'stop', message });
  }
  const settled =
    by.length > 0
      ? `The largest setting is ${amps} A, limited by ${limitedBy}.`
      : `The largest setting is ${amps} A, ${MOST_PLANNED}: nothing that is known holds it lower.`;
  if (isServiceKnown(whole, amps)) return findingOf(edition, { ...cited, severity: 'note', message: settled });
  const message = `${settled} What the service can carry is not known and held nothing back: find out its rating and its load before anything is bought.`;
  return findingOf(edition, { ...cited, severity: 'caution', message });
}

/** What holds a setting where nothing that is there does. */
const MOST_PLANNED = `the most that is planned (${BOUNDS.maxChargingA} A)`;

function isServiceKnown({ description, option }: Whole, amps: number): boolean {
  return fitsByEveryReading({ description, option: settledOption({ description, option }, amps) }) !== undefined;
}

/** In the edition of 2023 a low setting counts as much on a service as one of 30 A. */
function floorInWords(edition: Description['site']['code']['edition'], by: readonly string[]): string {
  if (edition !== '2023' || !by.includes('service')) return '';
  return ` A charger at 240 V counts ${LEAST_EVSE_VA_2023 / SERVICE_V} A there at least, whatever it is set to.`;
}

function limitsOf(whole: Whole): Limit[] {
  const { option } = whole;
  const rising = option.chargers.filter(({ amps }) => amps === 'largest');
  return [
    ...rising.flatMap((charger) => outletLimits(whole, charger)),
    ...carLimits(whole),
    ...managedLimits(whole),
    ...serviceLimits(whole),
    ...feederLimits(whole),
    ...racewayLimits(whole),
    ...receptacleLimits(whole),
  ];
}

/** What the receptacle and the largest conductor at the charger's terminals carry, along the hottest part of its way. */
function outletLimits(whole: Whole, { connection, largestSize }: PlacedCharger): Limit[] {
  const { edition } = whole.description.site.code;
  const laid = hottest(waysOf(whole));
  const receptacle = receptacleFacts(connection, edition);
  return [
    ...(receptacle
      ? [{ name: 'receptacle', allows: (amps: number) => reaches(receptacle.ratingA, amps * CONTINUOUS_FACTOR) }]
      : []),
    ...(largestSize
      ? [
          {
            name: `terminals for ${largestSize}`,
            allows: (amps: number) => {
              const size = copperSizeFor({ amps, connection, edition, ...laid });
              return size !== undefined && compareSizes(size, largestSize) <= 0;
            },
          },
        ]
      : []),
  ];
}

/** The cars of the chargers that rise, where it is stated what each takes: the one that takes most, since each charger stops at its own. */
function carLimits({ description, option }: Whole): Limit[] {
  const rising = option.chargers.flatMap(({ amps }, at) => (amps === 'largest' ? [at] : []));
  const takenA = rising.flatMap((at) => description.driving?.cars[at]?.maxA ?? []);
  const mostA = Math.max(...takenA);
  return takenA.length < rising.length ? [] : [{ name: 'car', allows: (setA) => setA <= mostA }];
}

/** What load management lets its chargers draw together, none of them can draw alone. */
function managedLimits(whole: Whole): Limit[] {
  const { loadManagement } = whole.option;
  if (!loadManagement || whole.option.feed === 'existing-receptacle') return [];
  const groups = chargerGroups(settledOption(whole, BOUNDS.minChargingA).chargers);
  const isHeld = (at: number) => holdsBack(loadManagement, groups, at);
  const rising = whole.option.chargers.flatMap(({ amps }, at) => (amps === 'largest' ? [at] : []));
  return rising.every(isHeld) ? [{ name: 'load management', allows: (setA) => setA <= loadManagement.maxA }] : [];
}

/**
 * What the service carries by every lawful reading, asked as the service check itself asks; an unknown service limits
 * nothing. In the edition of 2023 every setting below 30 A counts as one of 30 A (220.57).
 */
function serviceLimits({ description, option }: Whole): Limit[] {
  const at = (amps: number) => ({ description, option: settledOption({ description, option }, amps) });
  return [{ name: 'service', allows: (amps) => fitsByEveryReading(at(amps)) ?? true }];
}

/** The feeder of the subpanel that the route starts at, and the one that was asked for. */
function feederLimits({ description, option }: Whole): Limit[] {
  const { edition } = description.site.code;
  const startA = description.site.start?.feederA;
  const statedA = option.subpanel?.feederA;
  const others = othersOf({ description, option });
  const carries = (feederA: number) => (amps: number) =>
    reaches(feederA, feederLoad({ option: settledOption({ description, option }, amps), edition }, others).neededA);
  return [
    ...(typeof startA === 'number' ? [{ name: 'feeder of the existing subpanel', allows: carries(startA) }] : []),
    ...(statedA !== undefined ? [{ name: 'feeder', allows: carries(standardAtMostA(statedA, edition)) }] : []),
  ];
}

/** What the subpanel serves besides the chargers, with what a detached garage must have. */
function othersOf({ description, option }: Whole) {
  if (option.feed !== 'subpanel') return [];
  return otherCircuitsOf({ description, option, edition: description.site.code.edition }).others;
}

interface CopperQuestion {
  amps: number;
  connection: PlacedCharger['connection'];
  edition: Description['site']['code']['edition'];
  terminalsC: 60 | 75;
  ambientC: number;
  currentCarrying: number;
}

/** The smallest copper conductor in a raceway for a setting, or nothing. */
function copperSizeFor({ amps, connection, edition, ...laid }: CopperQuestion): ConductorSize | undefined {
  const ocpdA = chargingOcpdA({ amps, connection, edition });
  const copper = { metal: 'copper', insulation: 'thwn-2', supplies: 'branch' } as const;
  return sizeOrNothing({ loadA: amps, continuousA: amps, ocpdA, ...copper, edition, ...laid });
}

function sizeOrNothing(question: Omit<ConductorQuestion, 'continuous'>): ConductorSize | undefined {
  try {
    return smallestConductor({ continuous: false, ...question }).size;
  } catch (error) {
    if (error instanceof BeyondTableError) return undefined;
    throw error;
  }
}

/** How the conductors to a charger lie along one leg of the route, or from its end on. */
type Way = Pick<CopperQuestion, 'terminalsC' | 'ambientC' | 'currentCarrying'>;

/** The ways that a charger's conductors lie: over the route and to the outlet, or from a subpanel on. */
function waysOf({ description, option }: Whole): Way[] {
  const { site } = description;
  const terminalsC = option.feed === 'subpanel' ? site.code.terminalsC : routeTerminalsC(description);
  const tail: Way = { terminalsC, ambientC: site.ambientC, currentCarrying: 2 };
  return option.feed === 'subpanel' ? [tail] : [tail, ...alongRoute({ description, option })];
}

/** The ways that the circuits which follow the route lie along its legs. */
function alongRoute({ description, option }: Whole): Way[] {
  const terminalsC = routeTerminalsC(description);
  const isFeeder = option.feed === 'subpanel';
  const circuitsTogether = chargerGroups(settledOption({ description, option }, BOUNDS.minChargingA).chargers).length;
  return placedRoute(description, option).map((placed): Way => {
    const together = currentCarrying({ placed }, isFeeder ? 1 : circuitsTogether);
    return { terminalsC, ambientC: placed.ambientC, currentCarrying: together };
  });
}

/** The hottest and the most crowded of the ways, taken together: the safe side. */
function hottest(ways: readonly Way[]): Way {
  return {
    terminalsC: ways.some(({ terminalsC }) => terminalsC === 60) ? 60 : 75,
    ambientC: Math.max(...ways.map(({ ambientC }) => ambientC)),
    currentCarrying: Math.max(...ways.map((way) => way.currentCarrying)),
  };
}

/**
 * What fits into each raceway that is there, beside what it holds: the circuits of all chargers together, or the feeder
 * that they ask for. A feeder whose rating is stated has that instead.
 */
function racewayLimits(whole: Whole): Limit[] {
  const { description, option } = whole;
  if (option.feed === 'existing-receptacle' || option.subpanel?.feederA !== undefined) return [];
  const { edition } = description.site.code;
  const laid = hottest(alongRoute(whole));
  const singlesAt = (amps: number) =>
    option.feed === 'subpanel'
      ? [feederSingles(whole, { amps, ...laid })]
      : settledGroups(whole, amps).map((group) => singlesFor({ ...group, edition, ...laid }));
  return routeOf(description, option).flatMap(({ kind, type, tradeSize, occupiedBy = [] }) => {
    if (kind !== 'existing-raceway' || !type || !tradeSize) return [];
    const allows = (amps: number) => {
      const own = singlesAt(amps);
      const conductors = own.flatMap((singles) => singles ?? []);
      return (
        own.every((singles) => singles) &&
        filled({ type, tradeSize, conductors: [...conductors, ...occupiedBy] })?.fits === true
      );
    };
    return { name: 'existing raceway', allows };
  });
}

/** The circuits of the option, each with the amperes that it carries where those that rise are set to `amps`. */
function settledGroups(whole: Whole, amps: number): Pick<CopperQuestion, 'amps' | 'connection'>[] {
  const { chargers, loadManagement } = settledOption(whole, amps);
  return chargerGroups(chargers).map((group) => {
    const members = group.chargers.flatMap((at) => chargers[at] ?? []);
    const togetherA = members.reduce((sum, member) => sum + member.amps, 0);
    const shares = members.length > 1 && loadManagement?.kind === 'shared-circuit';
    return {
      amps: shares ? Math.min(togetherA, loadManagement.maxA) : togetherA,
      connection: members.find((member) => !is120V(member))?.connection ?? members[0]?.connection ?? 'hardwired',
    };
  });
}

/** The copper conductors of a circuit for a raceway with their ground, or nothing where none carries it. */
function singlesFor(question: CopperQuestion): FillConductor[] | undefined {
  const size = copperSizeFor(question);
  if (!size) return undefined;
  const { poles, neutral } = circuitWires(question.connection);
  const ground = equipmentGroundSize({ ocpdA: chargingOcpdA(question), metal: 'copper' });
  return [
    { insulation: 'thwn-2', size, count: poles + (neutral ? 1 : 0) },
    { insulation: 'thwn-2', size: ground, count: 1 },
  ];
}

/** The conductors of the feeder that chargers at so many amperes ask for, in the metal that takes less room if any may be. */
function feederSingles(whole: Whole, { amps, ...laid }: Way & { amps: number }): FillConductor[] | undefined {
  const { description } = whole;
  const { edition } = description.site.code;
  const option = settledOption(whole, amps);
  const { loadA, continuousA, neededA } = feederLoad({ option, edition }, othersOf(whole));
  const metal = option.metal === 'aluminum' ? 'aluminum' : 'copper';
  const insulation = metal === 'aluminum' ? 'xhhw-2' : 'thwn-2';
  const ocpdA = freeFeederA({ description, option, edition }, { neededA });
  const size = sizeOrNothing({ loadA, continuousA, ocpdA, metal, insulation, supplies: 'feeder', edition, ...laid });
  if (!size) return undefined;
  return [
    { insulation, size, count: 3 },
    { insulation: 'thwn-2', size: equipmentGroundSize({ ocpdA, metal: 'copper' }), count: 1 },
  ];
}

/** The receptacle that is there: 80 % of its circuit and of its own rating, for all chargers together. */
function receptacleLimits(whole: Whole): Limit[] {
  const { receptacle, chargers } = whole.option;
  if (!receptacle) return [];
  const ratedA = chargers.map(({ connection }) => largestSettingOfOutletA({ connection, ocpdA: receptacle.circuitA }));
  const sumA = (amps: number) => settledOption(whole, amps).chargers.reduce((sum, charger) => sum + charger.amps, 0);
  const allows = (amps: number) => reaches(Math.min(...ratedA), sumA(amps));
  return [{ name: 'circuit of the receptacle', allows }, ...keptLimits(whole, sumA)];
}

/** The old circuit that stays, where a receptacle in its building is fed through it: 80 % of its rating. */
function keptLimits({ description, option }: Whole, sumA: (amps: number) => number): Limit[] {
  const { existingCircuit, building } = description.site;
  if (!existingCircuit || building === 'attached' || supplyFate({ description, option }) !== 'kept') return [];
  const allows = (amps: number) => reaches(existingCircuit.amps, sumA(amps) * CONTINUOUS_FACTOR);
  return [{ name: 'kept circuit', allows }];
}
