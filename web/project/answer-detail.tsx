import { useMemo } from 'react';
import type { Estimate, EstimateOption } from '../../server/estimate/answer.ts';
import type { Leg } from '../../server/estimate/description.ts';
import '../styles/detail.css';
import { BidsReceived } from './bids-received.tsx';
import { BudgetPart } from './budget-part.tsx';
import { ChargingPart } from './charging-part.tsx';
import { GroundingPart } from './grounding-part.tsx';
import { NearBySettings } from './near-by-settings.tsx';
import { NowOrLaterPart } from './now-or-later-part.tsx';
import { PlanPart } from './plan-part.tsx';
import { RangeDetail } from './range-detail.tsx';
import { ServicePart } from './service-part.tsx';
import { UnknownsPart } from './unknowns-part.tsx';
import { LaborTables, WireList } from './work-tables.tsx';

interface DetailProps {
  estimate: Estimate;
  ranged: Estimate | undefined;
  option: EstimateOption;
  route: readonly Leg[];
  leg: number;
  onSelectLeg: (leg: number) => void;
  onShowField: (path: string) => void;
}

/** Do both answers speak of the same statement and prices? The one with its ranges comes a moment later. */
function isSameCase(one: Estimate, other: Estimate): boolean {
  const textOf = ({ description, bookRevision }: Estimate) => JSON.stringify([description, bookRevision]);
  return textOf(one) === textOf(other);
}

/** The open option in full, below its line items: how sure it is, how it is built, and what is near by. */
export default function AnswerDetail({ estimate, ranged, option, route, leg, onSelectLeg, onShowField }: DetailProps) {
  const isFull = useMemo(() => ranged !== undefined && isSameCase(estimate, ranged), [estimate, ranged]);
  const drawn = ranged?.options.find(({ id }) => id === option.id);
  return (
    <>
      {ranged && drawn && (
        <div className={isFull ? undefined : 'older'}>
          <RangeDetail option={drawn} onShowField={onShowField} />
          <UnknownsPart option={drawn} description={ranged.description} onShowField={onShowField} />
        </div>
      )}
      <PlanPart option={option} route={route} selectedLeg={leg} onSelectLeg={onSelectLeg} />
      <GroundingPart option={option} />
      <WireList runs={option.runs} />
      <LaborTables option={option} />
      <ChargingPart charging={option.charging} />
      <ServicePart service={(isFull && drawn ? drawn : option).service} />
      {ranged && drawn && (
        <div className={isFull ? undefined : 'older'}>
          <NowOrLaterPart comparison={ranged.comparison} optionId={option.id} />
          <NearBySettings estimate={ranged} option={drawn} />
          <BudgetPart option={drawn} description={ranged.description} />
          <BidsReceived bids={ranged.bids} options={ranged.options} />
        </div>
      )}
    </>
  );
}
