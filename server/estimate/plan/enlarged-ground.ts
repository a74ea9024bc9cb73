import { groundInCable } from '../../electrical/cable-grounds.ts';
import { cite } from '../../electrical/citations.ts';
import { equipmentGroundSize } from '../../electrical/equipment-ground.ts';
import { compareSizes, sizeInWords } from '../../electrical/sizes.ts';
import type { RunLeg } from '../answer.ts';
import type { PlacedLeg, Section } from '../plan-types.ts';
import type { Circuit } from './circuit.ts';
import type { Job } from './job.ts';
import { sufficientSizes } from './section.ts';

type OtherMethod = RunLeg['others'][number];

/** Methods that are a cable with a ground of its own. */
const CABLES = ['nm-b', 'uf-b', 'ser'] as const;

/** Does a smaller size than the one it has carry a circuit over a section of it? Then it was enlarged, mostly for the drop. */
export function isEnlarged({ size }: Pick<Section, 'size'>, fromSize: Section['size'] | undefined): boolean {
  return fromSize !== undefined && compareSizes(size, fromSize) > 0;
}

/**
 * Cables that a leg may not have at the size of its run, though their place is lawful: where conductors are larger than
 * the load needs, the ground grows with them, and a cable has only its own. NEC 250.122(B).
 */
export function cablesOfTooSmallGround(
  job: Job,
  circuit: Circuit,
  { metal, size }: Pick<Section, 'metal' | 'size'>,
  placed: PlacedLeg,
): OtherMethod[] {
  return CABLES.flatMap((method) => {
    const stretch = { wiring: method, pieces: [{ placed, method }] };
    const [fromSize] = sufficientSizes({ circuit, stretch, metal });
    const groundSize = groundInCable({ form: method, size });
    if (!fromSize || !groundSize || !isEnlarged({ size }, fromSize)) return [];
    const grown = equipmentGroundSize({ ocpdA: circuit.ocpdA, metal, enlarged: { fromSize, toSize: size } });
    const leastSize = compareSizes(grown, size) > 0 ? size : grown;
    if (compareSizes(groundSize, leastSize) >= 0) return [];
    const because = `At ${sizeInWords(size)}, larger than the ${sizeInWords(fromSize)} that would carry the load, the ground must be ${sizeInWords(leastSize)} at least, and the cable's own is ${sizeInWords(groundSize)}.`;
    return [{ method, forbiddenBy: cite('equipment-ground-upsized', job.edition), because }];
  });
}
