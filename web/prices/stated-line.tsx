import { useState } from 'react';
import type { StatedChange } from './book-api.ts';

const STORED = 'feedrun-changed-by';

function rememberedName(): string {
  try {
    return localStorage.getItem(STORED) ?? '';
  } catch {
    return ''; // storage is shut off: one says it anew
  }
}

function remember(name: string): void {
  try {
    if (name === '') localStorage.removeItem(STORED);
    else localStorage.setItem(STORED, name);
  } catch {
    // Storage is shut off: the name holds for this page.
  }
}

/** Who changes the book, remembered in this browser, and why; both may be left out. */
export function useStated() {
  const [by, setBy] = useState(rememberedName);
  const [why, setWhy] = useState('');
  const stated: StatedChange = {
    ...(by.trim() !== '' && { by: by.trim() }),
    ...(why.trim() !== '' && { why: why.trim() }),
  };
  const nameSelf = (name: string) => {
    setBy(name);
    remember(name.trim());
  };
  return { by, why, stated, nameSelf, setWhy };
}

/** The line in which one says who one is, and why the next changes are made. */
export function StatedLine({ by, why, nameSelf, setWhy }: ReturnType<typeof useStated>) {
  return (
    <p className="stated">
      <label>
        Changed by{' '}
        <input
          value={by}
          placeholder="nobody named"
          autoComplete="name"
          onChange={(event) => nameSelf(event.currentTarget.value)}
        />
      </label>{' '}
      <label>
        because{' '}
        <input
          className="why"
          value={why}
          placeholder="no reason stated"
          autoComplete="off"
          onChange={(event) => setWhy(event.currentTarget.value)}
        />
      </label>
    </p>
  );
}
