import type { Estimate } from '../../server/estimate/answer.ts';
import type { JsonObject } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { BidSentences } from './bid-sentences.tsx';
import { ChanceSentences } from './chance-sentences.tsx';
import { ExtraSentences } from './extra-sentences.tsx';
import { PurchaseSentences } from './purchase-sentences.tsx';

interface SeldomStatedProps {
  form: Form;
  draft: JsonObject;
  ranged: Estimate | undefined;
}

/** What only some projects state: extras, chances, the purchase of the house, bids that were received. */
export default function SeldomStated({ form, draft, ranged }: SeldomStatedProps) {
  return (
    <>
      <ExtraSentences form={form} />
      <ChanceSentences form={form} ranged={ranged} />
      <PurchaseSentences form={form} />
      <BidSentences form={form} draft={draft} />
    </>
  );
}
