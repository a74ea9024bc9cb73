import { lazy, Suspense } from 'react';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import { inUnits } from '../parts/in-units.ts';
import { FindingsList } from './findings-list.tsx';
import { LineItems } from './line-items.tsx';
import { OptionSchedule } from './option-schedule.tsx';
import { pathInWords, scaleOfPath } from './path-words.ts';
import { answeredRoute } from './project-sheet.tsx';
import { TotalsChain } from './totals-chain.tsx';
import type { Changes } from './use-changes.ts';
import type { Answer } from './use-estimate.ts';

/** Read after what is decided by, so it is fetched after it. */
const AnswerDetail = lazy(() => import('./answer-detail.tsx'));

interface OutcomeProps {
  answer: Answer;
  changes: Changes;
  option: EstimateOption | undefined;
  leg: number;
  onSelectLeg: (leg: number) => void;
  onOpenOption: (optionId: string) => void;
  /** Opens what must be open for a field to be seen, and puts the focus there. */
  onShowField: (path: string) => void;
}

/** What follows from it: the options side by side, then the open one in full. */
export function Outcome({ answer, changes, option, leg, onSelectLeg, onOpenOption, onShowField }: OutcomeProps) {
  const { estimate, ranged } = answer;
  return (
    <div className="outcome">
      <Refusals answer={answer} onShowField={onShowField} />
      {estimate && option && (
        <div className={answer.problems.size > 0 ? 'answer older' : 'answer'}>
          <OptionSchedule
            estimate={estimate}
            ranged={ranged}
            changes={changes}
            openId={option.id}
            onOpen={onOpenOption}
          />
          <Contents />
          <LineItems
            option={option}
            route={answeredRoute(answer, option)}
            selectedLeg={leg}
            onSelectLeg={onSelectLeg}
          />
          <div className="pair">
            <TotalsChain totals={option.totals} />
            <FindingsList option={option} onSelectLeg={onSelectLeg} />
          </div>
          <Suspense fallback={null}>
            <AnswerDetail
              estimate={estimate}
              ranged={ranged}
              option={option}
              route={answeredRoute(answer, option)}
              leg={leg}
              onSelectLeg={onSelectLeg}
              onShowField={onShowField}
            />
          </Suspense>
          <footer className="notices">
            {estimate.notices.map((notice) => (
              <p key={notice}>{notice}</p>
            ))}
            <p>Price book at revision {estimate.bookRevision}.</p>
          </footer>
        </div>
      )}
    </div>
  );
}

const PARTS = [
  ['lines', 'line items'],
  ['checks', 'checks'],
  ['range', 'range'],
  ['plan', 'plan and reasons'],
  ['labor', 'labor and days'],
  ['service', 'house service'],
  ['near-by', 'a little more or less'],
] as const;

/** The way down to the parts of the open option, which are many. */
function Contents() {
  return (
    <nav className="contents" aria-label="Parts of the answer">
      {PARTS.map(([id, words]) => (
        <a key={id} href={`#${id}`}>
          {words}
        </a>
      ))}
    </nav>
  );
}

/** What keeps the draft from being estimated; each leads to its field. In a row of its own, over nothing. */
function Refusals({ answer, onShowField }: Pick<OutcomeProps, 'answer' | 'onShowField'>) {
  const { problems, failure, estimate } = answer;
  const says = estimate ? 'The figures below are those of the last complete statement. To go on:' : 'To get an answer:';
  return (
    <div className="refusals-place" role="status">
      {failure !== undefined && <p className="refusals">{failure}</p>}
      {problems.size > 0 && (
        <div className="refusals">
          <p>{says}</p>
          <ul>
            {[...problems].map(([path, message]) => (
              <li key={path}>
                <button type="button" className="text-button" onClick={() => onShowField(path)}>
                  {pathInWords(path)}
                </button>{' '}
                {inUnits(message, scaleOfPath(path))}
              </li>
            ))}
          </ul>
        </div>
      )}
    </div>
  );
}
