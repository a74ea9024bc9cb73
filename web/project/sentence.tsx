import type { ReactNode } from 'react';

/** One line of the title block: a plain sentence whose underlined words can be changed. */
export function Sentence({ children }: { children: ReactNode }) {
  return <p className="sentence">{children}</p>;
}

/** A part of what is stated, under its heading. */
export function Part({ title, aside, children }: { title: string; aside?: ReactNode; children: ReactNode }) {
  return (
    <section className="part">
      <header className="part-head">
        <h2>{title}</h2>
        {aside}
      </header>
      {children}
    </section>
  );
}

/** Facts that are seldom asked for, one tap away. */
export function More({ title, children }: { title: string; children: ReactNode }) {
  return (
    <details className="more">
      <summary>{title}</summary>
      {children}
    </details>
  );
}
