import { legField } from '../description/leg.ts';
import { type Demands, joined, named, shown, work } from './demand.ts';
import type { DitchLeg } from './ditches.ts';

const SCOPE = 'restoration';
/** Ground that digging marks, across the ditch in feet: by hand, by machine. Common practice, no source. */
const MARKED_FT = { hand: 2, trencher: 3, excavator: 4 };
/** What comes back: an inch of topsoil, seed at 3 lb for 600 ft², half an inch of gravel. Common practice, no source. */
const TOPSOIL_IN = 1;
const TOPSOIL_BAG_FT3 = 0.75;
const SEED_BAG_FT2 = 600;
const GRAVEL_IN = 0.5;

/** Lawn, gravel and beds made good again, where that is wanted. */
export function gardenDemands(dug: readonly DitchLeg[]): Demands {
  return joined(
    dug
      .filter(({ stated }) => legField(stated, 'restore'))
      .map((ditch) => {
        switch (ditch.stated.kind) {
          case 'lawn-trench':
            return joined([soil(ditch), seed(ditch)]);
          case 'planting-bed':
            return soil(ditch);
          case 'gravel-trench':
            return gravel(ditch);
          default:
            return joined([]);
        }
      }),
  );
}

const areaOf = ({ lengthFt, tool }: DitchLeg) => lengthFt * MARKED_FT[tool];
const areaWords = ({ lengthFt, tool }: DitchLeg) => `${shown(lengthFt)} ft × ${MARKED_FT[tool]} ft that digging marks`;
const coldFactors = ({ soils }: DitchLeg) => (soils.includes('frozen') ? ['factor-rain-cold'] : []);

function soil(ditch: DitchLeg): Demands {
  const legs = [ditch.leg];
  return joined([
    named({
      name: 'topsoil-bag',
      description: 'topsoil, bag of 0.75 ft³',
      scope: SCOPE,
      quantity: (areaOf(ditch) * TOPSOIL_IN) / 12 / TOPSOIL_BAG_FT3,
      legs,
      because: `${areaWords(ditch)}, ${TOPSOIL_IN} in of topsoil`,
    }),
    work({
      task: 'lawn-restore',
      scope: SCOPE,
      unit: 'ft',
      quantity: ditch.lengthFt,
      factors: coldFactors(ditch),
      legs,
      because: `${shown(ditch.lengthFt)} ft raked and made good`,
    }),
  ]);
}

function seed(ditch: DitchLeg): Demands {
  return named({
    name: 'grass-seed-3lb',
    description: 'grass seed, 3 lb',
    scope: SCOPE,
    quantity: areaOf(ditch) / SEED_BAG_FT2,
    legs: [ditch.leg],
    because: `${areaWords(ditch)}, 3 lb for ${SEED_BAG_FT2} ft²`,
  });
}

function gravel(ditch: DitchLeg): Demands {
  const legs = [ditch.leg];
  return joined([
    named({
      name: 'gravel',
      description: 'crushed gravel',
      scope: SCOPE,
      unit: 'ft3',
      quantity: (areaOf(ditch) * GRAVEL_IN) / 12,
      legs,
      because: `${areaWords(ditch)}, ${GRAVEL_IN} in topped up`,
    }),
    work({
      task: 'gravel-restore',
      scope: SCOPE,
      unit: 'ft',
      quantity: ditch.lengthFt,
      factors: coldFactors(ditch),
      legs,
      because: `${shown(ditch.lengthFt)} ft raked back`,
    }),
  ]);
}
