import { useState } from 'react';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import type { Paper } from '../../server/report/pdf.ts';
import { estimateCsv, estimatePdf } from '../api.ts';
import type { JsonObject } from '../json.ts';
import { dayOf } from '../parts/dates.ts';
import type { Form } from '../parts/field.ts';
import { TextButton, TextWord } from '../parts/word-fields.tsx';
import { textOf } from './draft.ts';
import { paperChoices } from './paper-choices.ts';
import type { Answer } from './use-estimate.ts';
import type { SavingState } from './use-saving.ts';

interface HeadProps {
  form: Form;
  draft: JsonObject;
  answer: Answer;
  option: EstimateOption | undefined;
  saving: { state: SavingState; keepMine: () => void };
  onTakeTheirs: () => void;
}

/** The title block: what project this is, whether it is kept, and the papers that can be taken along. */
export function ProjectHead({ form, draft, answer, option, saving, onTakeTheirs }: HeadProps) {
  return (
    <header className="project-head">
      <h1>
        <TextWord field={form.field('title')} label="Title of the project" isWide />
      </h1>
      <div className="project-facts">
        <SavedWord state={saving.state} />
        <span>
          prices as of{' '}
          <TextWord field={form.field('asOf')} label="Day of the prices, such as 2026-12-31" emptied="unstated" />
        </span>
        {option && <Papers draft={draft} option={option} isReady={answer.verdict === 'valid'} />}
      </div>
      {saving.state.is === 'conflict' && (
        <p className="conflict" role="alert">
          Somebody else saved this project meanwhile ({dayOf(saving.state.theirs.resource.updatedAt)}). Nothing of yours
          is lost: <TextButton onPress={onTakeTheirs}>take theirs</TextButton> or{' '}
          <TextButton onPress={saving.keepMine}>keep mine, over theirs</TextButton>
        </p>
      )}
    </header>
  );
}

const SAVED: Record<SavingState['is'], string> = {
  saved: 'saved',
  saving: 'saving',
  unsaved: 'not saved yet',
  conflict: 'not saved',
};

function SavedWord({ state }: { state: SavingState }) {
  const why = state.is === 'unsaved' ? state.why : undefined;
  return (
    <span className="saved-word" role="status">
      {SAVED[state.is]}
      {why !== undefined && `: ${why}`}
    </span>
  );
}

/** Hands a file to the browser under a name. */
function download(blob: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

function Papers({ draft, option, isReady }: { draft: JsonObject; option: EstimateOption; isReady: boolean }) {
  const [doing, setDoing] = useState<string>();
  const [failure, setFailure] = useState<string>();
  const [wanted, setWanted] = useState<Paper>('estimate');
  const choices = paperChoices({ hasPurchase: draft.purchase !== undefined });
  // A purchase that is no longer stated takes its paper along.
  const paper = choices.some(({ value }) => value === wanted) ? wanted : 'estimate';
  const name = textOf(draft.title, 'estimate').replace(/[^\p{L}\p{N}]+/gu, '-');
  const take = async (ending: 'pdf' | 'csv') => {
    setFailure(undefined);
    setDoing(ending);
    try {
      const blob = await (ending === 'pdf'
        ? estimatePdf(draft, { optionId: option.id, paper })
        : estimateCsv(draft, option.id));
      download(blob, ending === 'pdf' && paper !== 'estimate' ? `${name}-${paper}.pdf` : `${name}.${ending}`);
    } catch (error) {
      setFailure(error instanceof Error ? error.message : String(error));
    } finally {
      setDoing(undefined);
    }
  };
  return (
    <span className="papers">
      <select
        aria-label="Paper to print"
        value={paper}
        onChange={(event) =>
          setWanted(choices.find(({ value }) => value === event.currentTarget.value)?.value ?? paper)
        }
      >
        {choices.map(({ value, label }) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
      {(['pdf', 'csv'] as const).map((ending) => (
        <button
          key={ending}
          type="button"
          className="paper-button"
          disabled={!isReady || doing !== undefined}
          onClick={() => take(ending)}
        >
          {ending === 'pdf' ? 'PDF' : 'CSV'}
        </button>
      ))}
      <span role="status">{failure}</span>
    </span>
  );
}
