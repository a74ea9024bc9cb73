import type { ConductorSize } from './sizes.ts';

/**
 * Equipment grounds that cables come with, of the metal of the cable. NM-B and UF-B take what 250.122 asks of the device
 * that their 60 °C ampacity allows; service-entrance cable and direct-burial quads are sold by their makeup (2-2-2-4).
 */
export const GROUNDS_IN_CABLES = {
  source: 'common makeup of cables, from memory; no table of the code prints it',
  rows: {
    'nm-b': { '14': '14', '12': '12', '10': '10', '8': '10', '6': '10', '4': '8', '3': '8', '2': '8' },
    'uf-b': { '14': '14', '12': '12', '10': '10', '8': '10', '6': '10', '4': '8', '3': '8', '2': '8' },
    ser: {
      '8': '8',
      '6': '6',
      '4': '6',
      '2': '4',
      '1': '3',
      '1/0': '2',
      '2/0': '1',
      '3/0': '1/0',
      '4/0': '2/0',
    },
    mhf: { '6': '6', '4': '6', '2': '4', '1': '3', '1/0': '2', '2/0': '1', '4/0': '2/0' },
  },
} as const satisfies {
  source: string;
  rows: Record<string, Partial<Record<ConductorSize, ConductorSize>>>;
};
export type GroundedCable = keyof typeof GROUNDS_IN_CABLES.rows;

/**
 * The equipment ground inside a cable of a size, or nothing where no such cable is commonly made. Whether it is large
 * enough for the device, and for conductors enlarged against voltage drop, is for 250.122 to say.
 */
export function groundInCable({ form, size }: { form: GroundedCable; size: ConductorSize }): ConductorSize | undefined {
  const row: Partial<Record<ConductorSize, ConductorSize>> = GROUNDS_IN_CABLES.rows[form];
  return row[size];
}
