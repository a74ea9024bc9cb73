import { useCallback, useMemo, useState } from 'react';
import { flushSync } from 'react-dom';
import { emptyRacewaysOf } from '../../server/drawing/empty-raceways.ts';
import { sectionDrawing } from '../../server/drawing/section.ts';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import type { Leg } from '../../server/estimate/description.ts';
import type { Project, Tagged } from '../api.ts';
import { type JsonObject, valueAt, withValue } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { optionsOf } from './draft.ts';
import { EmptySection } from './empty-section.tsx';
import { focusField, placeOfField } from './field-place.ts';
import { Outcome } from './outcome.tsx';
import { ProjectHead } from './project-head.tsx';
import { routeShown } from './route-editor.tsx';
import { Section } from './section.tsx';
import { Statement } from './statement.tsx';
import { TotalBar } from './total-bar.tsx';
import { useChanges } from './use-changes.ts';
import { type Answer, useEstimate } from './use-estimate.ts';
import { useSaving } from './use-saving.ts';

interface SheetProps {
  opened: Tagged<Project>;
  draft: JsonObject;
  onTakeTheirs: () => void;
}

/** The project screen. What is stated, which leg and which option are open live here; the parts get values and callbacks. */
export function ProjectSheet({ opened, draft: openedDraft, onTakeTheirs }: SheetProps) {
  const [draft, setDraft] = useState(openedDraft);
  const [leg, setLeg] = useState(0);
  const [openOption, setOpenOption] = useState(0);
  const [whoseRoute, setWhoseRoute] = useState<'all' | 'own'>('own');
  const text = useMemo(() => JSON.stringify(draft), [draft]);
  const answer = useEstimate(text);
  const changes = useChanges(answer.estimate);
  const saving = useSaving(opened, { draft, text, verdict: answer.verdict });
  const form = useForm({ draft, setDraft, answer });
  const openId = String(valueAt(draft, `options.${openOption}.id`) ?? '');
  const option = answer.estimate?.options.find(({ id }) => id === openId) ?? answer.estimate?.options[0];
  const open = (at: number) => {
    setOpenOption(at);
    setWhoseRoute('own');
  };
  const openById = (id: string) => {
    const found = optionsOf(draft).findIndex((each) => each.id === id);
    open(Math.max(0, found));
  };
  const route = routeShown({ draft, option: openOption, whose: whoseRoute, onShow: setWhoseRoute });
  const onShowField = (path: string) => {
    // The field must be on the screen before it can be focused.
    flushSync(() => {
      const place = placeOfField(path);
      if (place.option !== undefined) setOpenOption(place.option);
      if (place.whoseRoute !== undefined) setWhoseRoute(place.whoseRoute);
      if (place.leg !== undefined) setLeg(place.leg);
    });
    focusField(path);
  };
  return (
    <main className="project">
      <ProjectHead
        form={form}
        draft={draft}
        answer={answer}
        option={option}
        saving={saving}
        onTakeTheirs={onTakeTheirs}
      />
      <RouteSection answer={answer} option={option} leg={leg} onSelectLeg={setLeg} />
      <div className="project-columns">
        <Statement
          form={form}
          draft={draft}
          answer={answer}
          route={route}
          leg={leg}
          onSelectLeg={setLeg}
          option={openOption}
          onOpenOption={open}
        />
        <Outcome
          answer={answer}
          changes={changes}
          option={option}
          leg={leg}
          onSelectLeg={setLeg}
          onOpenOption={openById}
          onShowField={onShowField}
        />
      </div>
      {option && <TotalBar option={option} ranged={answer.ranged} changes={changes} />}
    </main>
  );
}

interface FormSources {
  draft: JsonObject;
  setDraft: (change: (before: JsonObject) => JsonObject) => void;
  answer: Answer;
}

/** The draft as fields: values, what the last answer filled in, what is refused, and how to change them. */
function useForm({ draft, setDraft, answer: { estimate, problems } }: FormSources): Form {
  return useMemo(() => {
    const set: Form['set'] = (path, value) => setDraft((before) => withValue(before, path, value));
    return {
      set,
      value: (path) => valueAt(draft, path) ?? valueAt(estimate?.description, path),
      field: (path) => ({
        path,
        value: valueAt(draft, path),
        filled: valueAt(estimate?.description, path),
        problem: problems.get(path),
        onChange: (value) => set(path, value),
      }),
    };
  }, [draft, setDraft, estimate, problems]);
}

/** The route that the answer was made of: the open option's own, else the description's. */
export function answeredRoute(answer: Answer, option: EstimateOption | undefined): readonly Leg[] {
  const description = answer.estimate?.description;
  return description?.options.find(({ id }) => id === option?.id)?.route ?? description?.route ?? [];
}

interface RouteSectionProps {
  answer: Answer;
  option: EstimateOption | undefined;
  leg: number;
  onSelectLeg: (leg: number) => void;
}

function RouteSection({ answer, option, leg, onSelectLeg }: RouteSectionProps) {
  const description = answer.estimate?.description;
  const route = answeredRoute(answer, option);
  const draw = useCallback(
    (widthPt: number) => {
      if (!option || !description) throw new Error('There is no option to draw.');
      const { title, site, options } = description;
      const stated = options.find(({ id }) => id === option.id);
      const mount = stated?.chargers[0]?.mount;
      const emptyRaceways = stated ? emptyRacewaysOf(stated) : [];
      const { building } = site;
      return sectionDrawing({ option, route, widthPt, title, building, emptyRaceways, ...(mount && { mount }) });
    },
    [option, description, route],
  );
  if (!option || route.length === 0) return <EmptySection />;
  return <Section draw={draw} kinds={route.map(({ kind }) => kind)} selected={leg} onSelect={onSelectLeg} />;
}
