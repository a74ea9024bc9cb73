import { toFourDecimals } from '../money.ts';
import type { PlannedOption } from '../plan-types.ts';
import { counted, type Demands, joined, named, withWaste, work } from './demand.ts';

/** From the panel to the first electrode, and from one rod to the next, in feet. The latter is the least of NEC 250.53(A)(3); the former common practice, no source. */
const TO_FIRST_FT = 10;
const BETWEEN_RODS_FT = 6;
const ROD_FT = 8;

/** Electrodes of a building or structure that is fed by a feeder, their conductor, and what other services bond to. */
export function groundingDemands({ grounding, description }: PlannedOption): Demands {
  if (!grounding) return joined([]);
  const scope = 'grounding';
  const { panelFt, wastePercent } = description.terms.makeup;
  const rods = grounding.electrodes
    .filter(({ kind }) => kind.includes('rod'))
    .reduce((sum, { count }) => sum + count, 0);
  const clamps = grounding.electrodes.reduce((sum, { count }) => sum + count, 0);
  const ft = TO_FIRST_FT + BETWEEN_RODS_FT * Math.max(0, rods - 1) + panelFt;
  const conductorWords = `${TO_FIRST_FT} ft to the first electrode${rods > 1 ? ` + ${rods - 1} × ${BETWEEN_RODS_FT} ft between rods` : ''} + ${panelFt} ft makeup, ${wastePercent.conductor} % waste`;
  const conductor: Demands = {
    materials: [
      {
        spec: { is: 'conductor', insulation: 'bare', metal: 'copper', size: grounding.conductorSize },
        description: `bare copper ${grounding.conductorSize}, electrode conductor`,
        class: 'material',
        scope,
        unit: 'ft',
        pieces: [withWaste(ft, wastePercent.conductor)],
        legs: [],
        because: [conductorWords, ...grounding.because],
      },
    ],
    tasks: [],
  };
  const because = [
    `${counted(rods, 'rod')} of ${ROD_FT} ft, at least ${BETWEEN_RODS_FT} ft apart`,
    ...grounding.because,
  ];
  return joined([
    named({ name: 'ground-rod-8', description: 'ground rod 5/8 in × 8 ft', scope, quantity: rods, because }),
    named({
      name: 'acorn-clamp',
      description: 'electrode clamp',
      scope,
      quantity: clamps,
      because: 'one for each electrode',
    }),
    conductor,
    named({
      name: 'intersystem-bond',
      description: 'intersystem bonding terminal',
      scope,
      quantity: 1,
      because: 'other services of the building bond to its electrodes here',
    }),
    work({ task: 'ground-rods', scope, unit: 'pair', quantity: toFourDecimals(rods / 2), because }),
    work({ task: 'bond-run', scope, unit: 'ft', quantity: ft, because: conductorWords }),
  ]);
}
