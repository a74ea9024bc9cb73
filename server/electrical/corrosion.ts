import type { Edition } from './citations.ts';
import { cite } from './citations.ts';
import type { Finding } from './findings.ts';

/**
 * Says what steel raceway in the ground needs against rust. NEC 344.10(B) for rigid conduit: corrosion protection that
 * suits the soil, which galvanizing mostly is; 358.10(B) for tubing: protection that the authority approved, which
 * galvanizing alone mostly is not (two public readings of the listing guides agree). Nobody has said what the soil is
 * like, so that the one is a note and the other a caution.
 */
export function checkSoilCorrosion({
  raceway,
  leg,
  edition,
}: {
  raceway: 'rmc' | 'emt';
  leg?: number | undefined;
  edition: Edition;
}): Finding {
  const rule = `${raceway}-soil` as const;
  const about = { rule, citation: cite(rule, edition), numbers: { raceway }, ...(leg !== undefined && { leg }) };
  if (raceway === 'rmc') {
    const message =
      'Rigid steel conduit lies in the ground here and needs corrosion protection that suits the soil. Galvanizing mostly does; ask the authority having jurisdiction where the soil is salty, acid or full of cinders, and wrap or coat the conduit where it comes out of concrete.';
    return { ...about, severity: 'note', message };
  }
  const message =
    'Steel tubing lies in the ground here: it rusts unless protected in a way that the authority having jurisdiction approved. Find out whether it was, and look for rust where it comes up, before new conductors are pulled in. Else lay a new raceway.';
  return { ...about, severity: 'caution', message };
}
