import { smallestConductor } from '../../electrical/conductor.ts';
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
import { chargerGroups, is120V } from './charger-load.ts';
import { filled } from './conduit.ts';
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
  if (rising.length === 0) return { option: settledOption(option, 0), findings: [] };
  const limits = limitsOf({ description, option });
  const allowed = (amps: number) => limits.every(({ allows }) => allows(amps));
  let amps: number = BOUNDS.maxChargingA;
  while (amps > BOUNDS.minChargingA && !allowed(amps)) amps -= 1;
  const settled = option.chargers.map((charger, at) => {
    const carA = description.driving?.cars[at]?.maxA ?? BOUNDS.maxChargingA;
    return settledAt(Math.max(BOUNDS.minChargingA, Math.min(amps, Math.floor(carA))))(charger);
  });
  const above = limits.filter(({ allows }) => !allows(amps + 1)).map(({ name }) => name);
  return {
    option: { ...option, chargers: settled },
    findings: [largestFinding(description, amps, above, allowed(amps))],
  };
}

function settledAt(amps: number) {
  return (charger: PlacedCharger): SettledCharger => ({
    ...charger,
    amps: charger.amps === 'largest' ? amps : charger.amps,
  });
}

function largestFinding(description: Description, amps: number, by: readonly string[], fits: boolean): Finding {
  const limitedBy = by.length > 0 ? by.join(', ') : `limit of the scale (${BOUNDS.maxChargingA} A)`;
  const { edition } = description.site.code;
  if (!fits) {
    return findingOf(edition, {
      rule: 'largest-setting',
      severity: 'stop',
      message: `Not even ${amps} A, the least that a car charges with, fit: ${limitedBy} allows less.${floorInWords(edition, by)}`,
      cites: 'ev-continuous-load',
      numbers: { amps, limitedBy },
    });
  }
  return findingOf(edition, {
    rule: 'largest-setting',
    severity: 'note',
    message:
      by.length > 0
        ? `The largest setting is ${amps} A, limited by ${limitedBy}.`
        : `The largest setting is ${amps} A, the ${limitedBy}: nothing that is there holds it lower.`,
    cites: 'ev-continuous-load',
    numbers: { amps, limitedBy },
  });
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
    ...option.chargers.flatMap((charger, at) => carLimits(whole, charger, at)),
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

/** A lone car limits its charger; of several, the one that takes most does, since each charger stops at its own. */
function carLimits({ description, option }: Whole, { amps }: PlacedCharger, at: number): Limit[] {
  if (amps !== 'largest' || at > 0) return [];
  const cars = description.driving?.cars.slice(0, option.chargers.length) ?? [];
  const mostA = Math.max(...cars.map(({ maxA }) => maxA ?? BOUNDS.maxChargingA));
  return cars.length < option.chargers.length ? [] : [{ name: 'car', allows: (setA) => setA <= mostA }];
}

/**
 * What the service carries by every lawful reading, asked as the service check itself asks; an unknown service limits
 * nothing. In the edition of 2023 every setting below 30 A counts as one of 30 A (220.57).
 */
function serviceLimits({ description, option }: Whole): Limit[] {
  const at = (amps: number) => ({ description, option: settledOption(option, amps) });
  return [{ name: 'service', allows: (amps) => fitsByEveryReading(at(amps)) ?? true }];
}

/** The feeder of the subpanel that the route starts at, and the one that was asked for. */
function feederLimits({ description, option }: Whole): Limit[] {
  const { edition } = description.site.code;
  const startA = description.site.start?.feederA;
  const statedA = option.subpanel?.feederA;
  const others = othersOf({ description, option });
  const carries = (feederA: number) => (amps: number) =>
    reaches(feederA, feederLoad({ option: settledOption(option, amps), edition }, others).neededA);
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

function settledOption(option: DescriptionOption, amps: number): SettledOption {
  return { ...option, chargers: option.chargers.map(settledAt(amps)) };
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
  try {
    return smallestConductor({
      loadA: amps,
      continuous: true,
      ocpdA,
      metal: 'copper',
      insulation: 'thwn-2',
      supplies: 'branch',
      edition,
      ...laid,
    }).size;
  } catch (error) {
    if (error instanceof BeyondTableError) return undefined;
    throw error;
  }
}

/** How the conductors to a charger lie along one leg of the route, or from its end on. */
type Way = Pick<CopperQuestion, 'terminalsC' | 'ambientC' | 'currentCarrying'>;

/** The ways that a charger's conductors lie: over the route and to the outlet, or from a subpanel on. */
function waysOf({ description, option }: Whole): [Way, ...Way[]] {
  const { site } = description;
  const terminalsC = option.feed === 'subpanel' ? site.code.terminalsC : routeTerminalsC(description);
  const tail: Way = { terminalsC, ambientC: site.ambientC, currentCarrying: 2 };
  if (option.feed === 'subpanel') return [tail];
  const circuitsTogether = chargerGroups(settledOption(option, BOUNDS.minChargingA).chargers).length;
  const legs = placedRoute(description, option).map((placed): Way => {
    return { terminalsC, ambientC: placed.ambientC, currentCarrying: currentCarrying({ placed }, circuitsTogether) };
  });
  return [tail, ...legs];
}

/** The hottest and the most crowded of the ways, taken together: the safe side. */
function hottest(ways: [Way, ...Way[]]): Way {
  return {
    terminalsC: ways[0].terminalsC,
    ambientC: Math.max(...ways.map(({ ambientC }) => ambientC)),
    currentCarrying: Math.max(...ways.map((way) => way.currentCarrying)),
  };
}

/**
 * What fits into each raceway that is there, beside what it holds: the circuits of all chargers together. A feeder has
 * its stated rating instead.
 */
function racewayLimits(whole: Whole): Limit[] {
  const { description, option } = whole;
  if (option.feed !== 'dedicated-circuit') return [];
  const { edition } = description.site.code;
  const laid = hottest(waysOf(whole));
  return routeOf(description, option).flatMap(({ kind, type, tradeSize, occupiedBy = [] }) => {
    if (kind !== 'existing-raceway' || !type || !tradeSize) return [];
    const allows = (amps: number) => {
      const own = settledGroups(option, amps).map((group) => singlesFor({ ...group, edition, ...laid }));
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
function settledGroups(option: DescriptionOption, amps: number): Pick<CopperQuestion, 'amps' | 'connection'>[] {
  const { chargers, loadManagement } = settledOption(option, amps);
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

/** The receptacle that is there: 80 % of its circuit and of its own rating, for all chargers together. */
function receptacleLimits({ option }: Whole): Limit[] {
  const { receptacle, chargers } = option;
  if (!receptacle) return [];
  const ratedA = chargers.map(({ connection }) => largestSettingOfOutletA({ connection, ocpdA: receptacle.circuitA }));
  const sumA = (amps: number) => settledOption(option, amps).chargers.reduce((sum, charger) => sum + charger.amps, 0);
  const allows = (amps: number) => reaches(Math.min(...ratedA), sumA(amps));
  return [{ name: 'circuit of the receptacle', allows }];
}
