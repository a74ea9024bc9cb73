import type { Edition, RuleKey } from './citations.ts';
import { cite } from './citations.ts';
import type { Finding } from './findings.ts';
import { electrodeConductorSize } from './grounding-electrode.ts';
import type { ConductorSize, Metal } from './sizes.ts';
import { largerSize } from './sizes.ts';

/** What feeds a building or structure apart from the house. A post or pedestal outdoors is a structure too. */
export type BuildingSupply = 'branch-circuit' | 'feeder';

/** What already feeds it, and whether that stays. */
export type ExistingSupply = 'none' | 'removed' | 'kept';

/**
 * Checks that a separate building gets one supply only. NEC 225.30: one feeder or one branch circuit, a multiwire
 * circuit counting as one. A second branch circuit beside a 120 V one that stays is argued under 225.30(E) (different
 * use or voltage); 225.30(A)(7) covers only equipment listed for several supplies. Safe reading: `stop` for a kept
 * branch circuit, unless the AHJ has agreed.
 */
export function checkOneSupply({
  existingSupply,
  newSupply,
  agreedByAuthority = false,
  edition,
}: {
  existingSupply: ExistingSupply;
  newSupply: BuildingSupply;
  agreedByAuthority?: boolean | undefined;
  edition: Edition;
}): Finding {
  const numbers = { existingSupply, newSupply };
  if (existingSupply === 'none') {
    return finding('one-supply', edition, numbers, 'ok', 'The building gets one supply.');
  }
  if (existingSupply === 'removed') {
    const message =
      'The old supply is taken out of service; its loads go on to the new one, for a building has one supply.';
    return finding('one-supply', edition, numbers, 'note', message);
  }
  if (agreedByAuthority) {
    const message = 'A second supply stays beside the old one because the authority agreed that its use differs.';
    return finding('one-supply-different-voltage', edition, numbers, 'caution', message);
  }
  const message =
    'The building already has a supply and may have one only. Feed a subpanel there and move the old loads to it, or have the authority agree to a second circuit of different voltage and use.';
  return finding('one-supply', edition, numbers, 'stop', message);
}

/** A disconnect at a separate building: at least so many amperes. */
export interface BuildingDisconnect {
  leastRatingA: number;
  finding: Finding;
}

/**
 * Decides the disconnect of a separate building: readily accessible, nearest the point of entrance, up to six switches
 * or breakers (225.31, 225.32, 225.33), and rated by 225.39: 15 A for one branch circuit, 30 A for not more than two
 * 2-wire branch circuits, 100 A for a one-family dwelling, 60 A for all others, and never below the load. A breaker in
 * the house panel is not it.
 * @param branchCircuits  2-wire branch circuits that the building gets in all; a 240 V circuit of a charger is one
 */
export function buildingDisconnect({
  supply,
  branchCircuits,
  isDwelling = false,
  loadA,
  edition,
}: {
  supply: BuildingSupply;
  branchCircuits: number;
  isDwelling?: boolean | undefined;
  loadA: number;
  edition: Edition;
}): BuildingDisconnect {
  const byArticleA = disconnectFromA({ supply, branchCircuits, isDwelling });
  const leastRatingA = Math.max(byArticleA, loadA);
  const message = `The building needs a disconnect where its supply comes in, of at least ${byArticleA} A and not less than its load of ${Number(loadA.toFixed(1))} A. It is the disconnect that is rated so, not the wire: a smaller breaker may feed it.`;
  const numbers = { byArticleA, loadA, leastRatingA, branchCircuits };
  return { leastRatingA, finding: finding('building-disconnect-rating', edition, numbers, 'ok', message) };
}

function disconnectFromA({
  supply,
  branchCircuits,
  isDwelling,
}: {
  supply: BuildingSupply;
  branchCircuits: number;
  isDwelling: boolean;
}): number {
  if (isDwelling) return 100;
  // A panelboard has room for more than two circuits, so a feeder counts among all others whatever it feeds today.
  if (supply === 'feeder' || branchCircuits > 2) return 60;
  return branchCircuits <= 1 ? 15 : 30;
}

/** Smaller electrode conductors go into a raceway or armor. NEC 250.64(B), from memory. */
const UNPROTECTED_FROM: ConductorSize = '6';

/** What grounding a separate building gets. Sizes in copper. */
export interface BuildingGrounding {
  electrodesNeeded: boolean;
  /** Ground rods: two, unless one is measured at 25 ohms or less. */
  rods: number;
  conductorSize?: ConductorSize;
  /** Neutral apart from grounds and electrodes. */
  separateNeutral: boolean;
  findings: Finding[];
}

/**
 * Decides grounding at a separate building. NEC 250.32(A): electrodes, but for a building that a single branch circuit
 * with an equipment ground alone supplies; 250.32(B)(1): the equipment ground comes along and the neutral stays apart
 * from it; 250.32(E), 250.66(A): the conductor to rods, in copper, and not below the 6 AWG that may be run without a
 * raceway (250.64(B)); 250.53(A)(2): two rods at least 6 ft apart, unless one is shown to be 25 ohms or less.
 */
export function buildingGrounding({
  supply,
  conductorSize,
  conductorMetal,
  neutral,
  edition,
}: {
  supply: BuildingSupply;
  conductorSize: ConductorSize;
  conductorMetal: Metal;
  neutral: boolean;
  edition: Edition;
}): BuildingGrounding {
  if (supply === 'branch-circuit') {
    const message = 'A single branch circuit that brings its equipment ground needs no ground rods at the building.';
    const none = finding('electrode-separate-building', edition, { rods: 0 }, 'ok', message);
    return { electrodesNeeded: false, rods: 0, separateNeutral: neutral, findings: [none] };
  }
  const byTable = electrodeConductorSize({ conductorSize, conductorMetal, metal: 'copper', electrode: 'rod' });
  const size = largerSize(byTable, UNPROTECTED_FROM);
  const electrodes = finding(
    'electrode-separate-building',
    edition,
    { rods: 2, apartFt: 6, conductorSize: size, byTable },
    'ok',
    `A building that a feeder supplies gets its own electrodes: two ground rods at least 6 ft apart on ${size} AWG copper, unless one is measured at 25 ohms or less or a better electrode is there.`,
  );
  const apart = finding(
    'neutral-separate-building',
    edition,
    { separateNeutral: true },
    'ok',
    'Four wires: the equipment ground comes along, and in the building the neutral touches neither it nor the electrodes. Leave out the bonding screw.',
  );
  const findings = neutral ? [electrodes, apart] : [electrodes];
  return { electrodesNeeded: true, rods: 2, conductorSize: size, separateNeutral: neutral, findings };
}

/** What a detached garage must have once it has power. */
export interface GarageDuties {
  receptacles: number;
  light: boolean;
  findings: Finding[];
}

/**
 * Decides what a detached garage gets once it has power: a receptacle in each vehicle bay (210.52(G)(1)) and a switched
 * light (210.70(A)(2)). Both hold for garages of one- and two-family dwellings.
 */
export function garageDuties({
  bays,
  existing,
  edition,
}: {
  bays: number;
  existing: readonly ('receptacles' | 'light')[];
  edition: Edition;
}): GarageDuties {
  const receptacles = existing.includes('receptacles') ? 0 : bays;
  const light = !existing.includes('light');
  const findings = [
    ...(receptacles > 0
      ? [
          finding(
            'garage-receptacles',
            edition,
            { bays, receptacles },
            'note',
            `A detached garage with power needs a receptacle in each bay: ${receptacles} of them, on a 20 A circuit with ground-fault protection.`,
          ),
        ]
      : []),
    ...(light
      ? [
          finding(
            'garage-light',
            edition,
            { light },
            'note',
            'A detached garage with power needs a light on a wall switch.',
          ),
        ]
      : []),
  ];
  return { receptacles, light, findings };
}

/** Checks that nothing in the supply of a panelboard is larger than the panelboard. NEC 408.36. Amperes. */
export function checkPanelProtection({
  panelA,
  ocpdA,
  edition,
}: {
  panelA: number;
  ocpdA: number;
  edition: Edition;
}): Finding {
  const numbers = { panelA, ocpdA };
  if (ocpdA <= panelA) {
    const message = `A panel of ${panelA} A is protected by the ${ocpdA} A device that feeds it.`;
    return finding('panel-protection', edition, numbers, 'ok', message);
  }
  const message = `A panel of ${panelA} A may not be fed by a ${ocpdA} A device. Take a panel of at least ${ocpdA} A or a smaller feeder.`;
  return finding('panel-protection', edition, numbers, 'stop', message);
}

function finding(
  rule: RuleKey,
  edition: Edition,
  numbers: Finding['numbers'],
  severity: Finding['severity'],
  message: string,
): Finding {
  return { rule, severity, message, citation: cite(rule, edition), numbers };
}
