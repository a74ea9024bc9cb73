import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { FieldError, Input, Label, TextField } from 'react-aria-components';
import { ApiProblem, readSettings, type Settings, saveSettings, type Tagged } from '../api.ts';
import { type JsonObject, valueAt, withValue } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { Waiting } from '../parts/waiting.tsx';
import { TermsSentences } from '../project/terms-sentences.tsx';

const KEY = ['settings'];

/** Who prints the papers, and the terms that new projects begin with. */
export default function SettingsScreen() {
  const settings = useQuery({ queryKey: KEY, queryFn: readSettings });
  if (settings.error) return <p className="screen-note">{settings.error.message}</p>;
  if (!settings.data) return <Waiting what="the settings" />;
  return <SettingsForm key={settings.data.etag} read={settings.data} />;
}

/** The settings as they were read, without what only the server writes. */
function stated({ resource }: Tagged<Settings>): JsonObject {
  const { revision: _revision, ...rest } = resource;
  return rest as JsonObject;
}

function SettingsForm({ read }: { read: Tagged<Settings> }) {
  const queries = useQueryClient();
  const [draft, setDraft] = useState(() => stated(read));
  const save = useMutation({
    mutationFn: () => saveSettings(draft, read.etag),
    onSuccess: (saved) => queries.setQueryData(KEY, saved),
  });
  const isChanged = JSON.stringify(draft) !== JSON.stringify(stated(read));
  const errors = save.error instanceof ApiProblem ? save.error.errors : [];
  const form = useMemo<Form>(() => {
    const set: Form['set'] = (path, value) => setDraft((before) => withValue(before, path, value));
    return {
      set,
      value: (path) => valueAt(draft, path),
      field: (path) => ({
        path,
        value: valueAt(draft, path),
        filled: undefined,
        problem: errors.find((error) => error.path === path)?.message,
        onChange: (value) => set(path, value),
      }),
    };
  }, [draft, errors]);
  return (
    <main className="plain-screen">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          save.mutate();
        }}
      >
        <header className="screen-head">
          <h1>Settings</h1>
          <button type="submit" className="paper-button" disabled={!isChanged || save.isPending}>
            Save
          </button>
        </header>
        <p role="status" className="screen-status">
          {save.error?.message ?? (isChanged ? 'not saved yet' : '')}
        </p>
        <SettingField form={form} path="businessName" label="Business name" />
        <SettingField form={form} path="address" label="Address" />
        <SettingField form={form} path="licenceNumber" label="License number" />
        <p className="hint">New projects begin with these terms. Projects that are there already keep their own.</p>
        <TermsSentences form={form} at="defaultTerms" />
      </form>
    </main>
  );
}

function SettingField({ form, path, label }: { form: Form; path: string; label: string }) {
  const { value, problem, onChange } = form.field(path);
  return (
    <TextField
      className="setting"
      value={typeof value === 'string' ? value : ''}
      onChange={(typed) => onChange(typed === '' ? undefined : typed)}
      isInvalid={problem !== undefined}
      validationBehavior="aria"
    >
      <Label>{label}</Label>
      <Input />
      <FieldError className="word-problem">{problem}</FieldError>
    </TextField>
  );
}
