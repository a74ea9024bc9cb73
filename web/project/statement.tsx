import { lazy, Suspense } from 'react';
import type { JsonObject } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { DrivingSentences } from './driving-sentences.tsx';
import { OptionEditor } from './option-editor.tsx';
import { RouteEditor, type RouteShown } from './route-editor.tsx';
import { SiteSentences } from './site-sentences.tsx';
import { TermsSentences } from './terms-sentences.tsx';
import type { Answer } from './use-estimate.ts';

/** Asked for seldom, so it is fetched after what is asked for first. */
const SeldomStated = lazy(() => import('./seldom-stated.tsx'));

interface StatementProps {
  form: Form;
  draft: JsonObject;
  answer: Answer;
  route: RouteShown;
  leg: number;
  onSelectLeg: (leg: number) => void;
  /** The open option, from 0. */
  option: number;
  onOpenOption: (option: number) => void;
}

/** All that is stated: the left side of the sheet. */
export function Statement({ form, draft, answer, route, leg, onSelectLeg, option, onOpenOption }: StatementProps) {
  return (
    <div className="statement">
      <RouteEditor form={form} shown={route} selected={leg} onSelect={onSelectLeg} />
      <SiteSentences form={form} />
      <OptionEditor form={form} draft={draft} open={option} onOpen={onOpenOption} />
      <DrivingSentences form={form} />
      <TermsSentences form={form} />
      <Suspense fallback={null}>
        <SeldomStated form={form} draft={draft} ranged={answer.ranged} />
      </Suspense>
    </div>
  );
}
