import { conductorSize, counted, wholeDollars } from '../../server/drawing/wording.ts';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import { plain } from '../parts/words.ts';
import { ReasonsList } from './reasons-list.tsx';

/** Electrodes of a building of its own, and what is left for later with what that will cost. */
export function GroundingPart({ option: { grounding, later } }: { option: EstimateOption }) {
  return (
    <>
      {grounding && (
        <section className="detail-part">
          <h2>Grounding</h2>
          <p>
            {grounding.electrodes.map(({ kind, count }) => counted(count, plain(kind))).join(', ')} on{' '}
            {conductorSize(grounding.conductorSize)} copper
          </p>
          <ReasonsList because={grounding.because} />
        </section>
      )}
      {later && (
        <section className="detail-part" id="later">
          <h2>Later: {wholeDollars(later.cents)}</h2>
          <p className="measure">{later.because}</p>
        </section>
      )}
    </>
  );
}
