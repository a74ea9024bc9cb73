import type { JsonObject } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { DrivingSentences } from './driving-sentences.tsx';
import { OptionEditor } from './option-editor.tsx';
import { RouteEditor } from './route-editor.tsx';
import { SiteSentences } from './site-sentences.tsx';
import { TermsSentences } from './terms-sentences.tsx';

interface StatementProps {
  form: Form;
  draft: JsonObject;
  leg: number;
  onSelectLeg: (leg: number) => void;
  /** The open option, from 0. */
  option: number;
  onOpenOption: (option: number) => void;
}

/** All that is stated: the left side of the sheet. */
export function Statement({ form, draft, leg, onSelectLeg, option, onOpenOption }: StatementProps) {
  return (
    <div className="statement">
      <RouteEditor form={form} draft={draft} selected={leg} onSelect={onSelectLeg} />
      <SiteSentences form={form} />
      <OptionEditor form={form} draft={draft} open={option} onOpen={onOpenOption} />
      <DrivingSentences form={form} />
      <TermsSentences form={form} />
    </div>
  );
}
