import { z } from 'zod';
import { BURIAL_LOCATIONS, BURIED_WIRINGS, type BurialLocation, coverDepthIn } from '../electrical/cover.ts';
import { equipmentGroundSize } from '../electrical/equipment-ground.ts';
import { ELECTRODES, electrodeConductorSize } from '../electrical/grounding-electrode.ts';
import { sizeInWords } from '../electrical/sizes.ts';
import { oneOf } from '../estimate/description/fields.ts';
import { closed } from '../estimate/input-problems.ts';
import { calculation } from './calculation.ts';
import { answerInWords } from './field-words.ts';
import { amperes, edition, measure, metal, size, sizeFound } from './fields.ts';

const equipmentGround = calculation({
  name: 'equipment-ground',
  title: 'Equipment ground',
  decides: 'The least equipment grounding conductor behind a breaker, also where the circuit was enlarged.',
  input: closed({
    ocpdA: amperes(),
    metal: metal(),
    enlarged: closed({ fromSize: size(), toSize: size() }).optional(),
    edition: edition(),
  }),
  result: z.strictObject({ size: sizeFound }),
  example: { ocpdA: 60, metal: 'copper', enlarged: { fromSize: '6', toSize: '4' } },
  answer: ({ ocpdA, metal: of, enlarged }) => {
    const chosen = equipmentGroundSize({ ocpdA, metal: of, enlarged });
    const byTable = equipmentGroundSize({ ocpdA, metal: of });
    return {
      result: { size: chosen },
      because: [
        `Behind ${ocpdA} A the table asks for ${sizeInWords(byTable)} ${of}.`,
        ...(enlarged
          ? [
              `The circuit was enlarged from ${sizeInWords(enlarged.fromSize)} to ${sizeInWords(enlarged.toSize)}: the ground grows in proportion of its area, to ${sizeInWords(chosen)}.`,
              'An area within 0.2 % above a size takes that size, because the printed areas are rounded.',
            ]
          : []),
      ],
      rules: enlarged ? ['equipment-ground', 'equipment-ground-upsized'] : ['equipment-ground'],
    };
  },
});

const groundingElectrode = calculation({
  name: 'grounding-electrode',
  title: 'Grounding electrode conductor',
  decides: 'The least conductor from a panel or disconnect to its grounding electrode.',
  input: closed({
    conductorSize: size(),
    conductorMetal: metal(),
    metal: metal(),
    electrode: oneOf(ELECTRODES),
    edition: edition(),
  }),
  result: z.strictObject({ size: sizeFound }),
  example: { conductorSize: '2', conductorMetal: 'copper', metal: 'copper', electrode: 'rod' },
  answer: ({ edition: _edition, ...input }) => {
    const chosen = electrodeConductorSize(input);
    const limited = input.electrode === 'rod' || input.electrode === 'plate' || input.electrode === 'concrete-encased';
    return {
      result: { size: chosen },
      because: [
        `A supply of ${sizeInWords(input.conductorSize)} ${input.conductorMetal} to an electrode of this kind, ${answerInWords('electrode', input.electrode)}: ${sizeInWords(chosen)} ${input.metal}.`,
        ...(limited
          ? ['Where it serves only electrodes of this kind, it need not be larger than the exception says.']
          : []),
      ],
      rules: [
        'electrode-conductor',
        ...(input.electrode === 'rod' || input.electrode === 'plate' ? (['electrode-conductor-rod'] as const) : []),
        ...(input.electrode === 'concrete-encased' ? (['electrode-conductor-concrete'] as const) : []),
      ],
    };
  },
});

const coverDepth = calculation({
  name: 'cover-depth',
  title: 'Cover over buried wiring',
  decides: 'The least cover from the top of cable or raceway to the finished surface.',
  input: closed({
    wiring: oneOf(BURIED_WIRINGS),
    location: oneOf(BURIAL_LOCATIONS as [BurialLocation, ...BurialLocation[]]),
    edition: edition(),
  }),
  result: z.strictObject({ depthIn: measure }),
  example: { wiring: 'pvc', location: 'elsewhere' },
  answer: ({ wiring, location }) => {
    const depthIn = coverDepthIn({ wiring, location });
    return {
      result: { depthIn },
      because: [
        `${answerInWords('wiring', wiring)}; ${answerInWords('location', location)}: ${depthIn} in of cover at least, from its top to the finished surface.`,
        ...(location === 'under-building' ? ['Under a building, cable lies in a raceway.'] : []),
        'The trench is deeper by the raceway or cable itself. Where two rows fit, take the deeper one.',
      ],
      rules: [
        'cover',
        ...(wiring === 'gfci-20a-120v' ? (['cover-gfci-column'] as const) : []),
        ...(location === 'under-building' ? (['under-building'] as const) : []),
      ],
    };
  },
});

/** Grounds and cover, by NEC Article 250 and Table 300.5(A). */
export const GROUND_CALCULATIONS = [equipmentGround, groundingElectrode, coverDepth];
