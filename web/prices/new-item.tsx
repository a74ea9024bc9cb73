import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { ApiProblem, createItem } from '../api.ts';
import { type JsonObject, valueAt, withValue } from '../json.ts';
import { today } from '../parts/dates.ts';
import type { Form } from '../parts/field.ts';
import { ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import { CLASS_CHOICES, choices, SCOPE_CHOICES } from '../parts/words.ts';
import { ITEM_KIND_WORDS } from './item-kinds.ts';
import { scaleOf } from './price-lines.tsx';

const KINDS = choices(Object.keys(ITEM_KIND_WORDS), ITEM_KIND_WORDS);

/** A new item begins with what most have; its price is not stated, and the server says so. */
function blankItem(): JsonObject {
  return {
    kind: 'price',
    class: 'material',
    scope: 'other',
    category: 'own',
    unit: 'each',
    date: today(),
    region: 'US',
    source: 'own price',
  };
}

/** Adds an item of one's own to the book. */
export function NewItem({ onAdded }: { onAdded: (key: string) => unknown }) {
  const [item, setItem] = useState(blankItem);
  const add = useMutation({
    mutationFn: () => createItem(item),
    onSuccess: ({ resource }) => onAdded(resource.key),
  });
  const errors = add.error instanceof ApiProblem ? add.error.errors : [];
  const field: Form['field'] = (path) => ({
    path,
    value: valueAt(item, path),
    filled: undefined,
    problem: errors.find((error) => error.path === path)?.message,
    onChange: (value) => setItem((before) => withValue(before, path, value)),
  });
  const scale = scaleOf({ kind: item.kind as 'price' });
  const point = (name: string) => <NumberWord field={field(name)} label={`${name} price or figure`} scale={scale} />;
  return (
    <form
      className="new-item"
      onSubmit={(event) => {
        event.preventDefault();
        add.mutate();
      }}
    >
      <p className="sentence">
        <TextWord field={field('description')} label="Description" />, under the key{' '}
        <TextWord field={field('key')} label="Key" />, is a{' '}
        <ChoiceWord field={field('kind')} label="Kind of item" choices={KINDS} /> of class{' '}
        <ChoiceWord field={field('class')} label="Class" choices={CLASS_CHOICES} /> for{' '}
        <ChoiceWord field={field('scope')} label="Scope" choices={SCOPE_CHOICES} />, in the category{' '}
        <TextWord field={field('category')} label="Category of the item" />, counted in{' '}
        <TextWord field={field('unit')} label="Unit" />: low {point('low')}, likely {point('likely')}, high{' '}
        {point('high')}
        {scale === 'dollars' ? ' dollars' : ''}, of <TextWord field={field('date')} label="Date of the price" /> in{' '}
        <TextWord field={field('region')} label="Region" />, by <TextWord field={field('source')} label="Source" />.
      </p>
      <p className="commands">
        <button type="submit" className="paper-button" disabled={add.isPending}>
          Add it
        </button>
        <span role="status">
          {add.error !== null && (errors.length === 0 ? add.error.message : 'Some words above are missing.')}
        </span>
      </p>
    </form>
  );
}
