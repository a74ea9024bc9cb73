import { legField } from '../description/leg.ts';
import type { Leg } from '../description.ts';
import type { PlannedOption } from '../plan-types.ts';
import { type Demands, joined, shown, work } from './demand.ts';
import { crossedLines } from './digging.ts';
import { boredLegs, hardestSoil, type Soil } from './ditches.ts';

/** Under a walk of this width one bores with water or a pipe; beyond it takes a mole. */
const SIDEWALK_FT = 5;
/** Setting up a mole takes as long as boring so far: less is not counted. Common practice, no source. */
const LEAST_MOLE_FT = 8;
/** A pit at each end, dug by hand, counts as so many feet of ditch each. Common practice, no source. */
const PIT_FT = 3;
const SCOPE = 'trench';

/** Bores under what is not to be opened, with a pit at each end. */
export function boreDemands(plan: PlannedOption): Demands {
  return joined(boredLegs(plan).map(bore));
}

function bore({ leg, stated, lengthFt }: { leg: number; stated: Leg; lengthFt: number }): Demands {
  const legs = [leg];
  const isShort = lengthFt <= SIDEWALK_FT;
  const soils = legField(stated, 'soil') as Soil[];
  const hardest = hardestSoil(soils);
  const slow = soils.filter((soil) => soil !== 'loam').map((soil) => `factor-soil-${soil}`);
  const because = `bored ${shown(lengthFt)} ft under what is not opened`;
  return joined([
    crossedLines({ leg, stated }),
    work({ task: 'bore-sidewalk', scope: SCOPE, quantity: isShort ? 1 : 0, factors: slow, legs, because }),
    work({
      task: 'bore-driveway',
      scope: SCOPE,
      unit: 'ft',
      quantity: isShort ? 0 : Math.max(lengthFt, LEAST_MOLE_FT),
      inPlace: lengthFt,
      factors: slow,
      legs,
      because: lengthFt < LEAST_MOLE_FT ? `${because}; setting up counts as ${LEAST_MOLE_FT} ft` : because,
    }),
    work({
      task: `hand-dig-${hardest === 'wet' ? 'loam' : hardest}`,
      scope: SCOPE,
      unit: 'ft',
      quantity: 2 * PIT_FT,
      factors: soils.includes('wet') ? ['factor-soil-wet'] : [],
      legs,
      because: `a pit at each end of the bore, as long to dig as ${PIT_FT} ft of ditch each`,
    }),
  ]);
}

/** Feet that are bored with a mole, for its rental. */
export function moleFt(plan: PlannedOption): { ft: number; legs: number[] } {
  const long = boredLegs(plan).filter(({ lengthFt }) => lengthFt > SIDEWALK_FT);
  return { ft: long.reduce((sum, { lengthFt }) => sum + lengthFt, 0), legs: long.map(({ leg }) => leg) };
}
