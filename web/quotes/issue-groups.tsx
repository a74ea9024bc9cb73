import { useQuery } from '@tanstack/react-query';
import { counted } from '../../server/drawing/wording.ts';
import type { FieldProblem } from '../api.ts';
import { Chosen, Group, problemAt, problemWithin, Rows, Several, Typed } from './issue-fields.tsx';
import { listProjectQuotes } from './quote-api.ts';
import { filled, isWithoutShare, type QuoteStated } from './quote-stated.ts';
import { statusWords } from './status-words.ts';

interface GroupsProps {
  stated: QuoteStated;
  problems: readonly FieldProblem[];
  onSet: (changes: Partial<QuoteStated>) => void;
}

type TextOf = {
  [Field in keyof QuoteStated]: QuoteStated[Field] extends string ? Field : never;
}[keyof QuoteStated];

interface FieldsProps extends GroupsProps {
  fields: readonly { of: TextOf; path: string; label: string; lines?: number }[];
}

/** Texts and numbers that are typed, each with what is refused of it. */
export function TypedFields({ fields, stated, problems, onSet }: FieldsProps) {
  return fields.map(({ of, path, ...field }) => (
    <Typed
      key={of}
      {...field}
      value={stated[of]}
      problem={problemWithin(problems, path)}
      onType={(typed) => onSet({ [of]: typed })}
    />
  ));
}

const said = (parts: readonly string[], none: string) => parts.join(', ') || none;
const lineCount = (typed: string) => typed.split('\n').filter((line) => line.trim() !== '').length;
const some = (count: number, one: string) => (count > 0 ? [counted(count, one)] : []);

/** How the customer is reached, and where the work is. */
export function CustomerGroup({ stated, problems, onSet }: GroupsProps) {
  const { customerAddress, email, phone, siteAddress } = stated;
  const parts = [customerAddress, email, phone, siteAddress && `work at ${siteAddress}`].filter(Boolean);
  return (
    <Group
      title="Address"
      says={said(parts, 'none stated')}
      paths={['customer.address', 'customer.email', 'customer.phone', 'siteAddress']}
      problems={problems}
    >
      <TypedFields
        fields={[
          { of: 'customerAddress', path: 'customer.address', label: 'Customer’s address' },
          { of: 'email', path: 'customer.email', label: 'Email' },
          { of: 'phone', path: 'customer.phone', label: 'Phone' },
          { of: 'siteAddress', path: 'siteAddress', label: 'Where the work is' },
        ]}
        stated={stated}
        problems={problems}
        onSet={onSet}
      />
    </Group>
  );
}

interface ScopeProps extends GroupsProps {
  /** Options of the project that are not the quoted one. */
  others: readonly { id: string; label: string }[];
}

/** What is offered besides, and what the price holds and leaves out. */
export function ScopeGroup({ stated, problems, onSet, others }: ScopeProps) {
  const { alternates, allowances, exclusions, assumptions } = stated;
  const chosen = alternates.filter((id) => others.some((option) => option.id === id));
  const rows = filled(allowances);
  const parts = [
    ...some(chosen.length, 'alternate'),
    ...some(rows.length, 'allowance'),
    ...some(lineCount(exclusions), 'exclusion'),
    ...some(lineCount(assumptions), 'assumption'),
  ];
  return (
    <Group
      title="Scope"
      says={said(parts, 'nothing besides the option')}
      paths={['alternates', 'allowances', 'exclusions', 'assumptions']}
      problems={problems}
    >
      {others.length > 0 && (
        <Several
          label="May be taken instead"
          chosen={chosen}
          choices={others}
          problem={problemWithin(problems, 'alternates')}
          onChoose={(ids) => onSet({ alternates: ids })}
        />
      )}
      <p className="hint">An allowance is a part of the price for what is not chosen yet, tax included.</p>
      <Rows
        what="allowance"
        rows={allowances.map((row) => ({ ...row }))}
        blank={{ text: '', dollars: '' }}
        columns={[
          { of: 'text', unit: 'for' },
          { of: 'dollars', unit: '$' },
        ]}
        problemOf={(row, of) => {
          const at = rows.findIndex((each) => each.text === row.text && each.dollars === row.dollars);
          return problemAt(problems, `allowances.${at}.${of === 'dollars' ? 'cents' : 'text'}`);
        }}
        problem={problemAt(problems, 'allowances')}
        onType={(typed) => onSet({ allowances: typed })}
      />
      <TypedFields
        fields={[
          { of: 'exclusions', path: 'exclusions', label: 'Not included, one a line', lines: 3 },
          { of: 'assumptions', path: 'assumptions', label: 'Assumed, one a line', lines: 3 },
        ]}
        stated={stated}
        problems={problems}
        onSet={onSet}
      />
    </Group>
  );
}

/** What falls due before the work is done. */
export function PaymentGroup({ stated, problems, onSet }: GroupsProps) {
  const { deposit, progress } = stated;
  const rows = filled(progress);
  const parts = [...(deposit.trim() ? [`deposit ${deposit.trim()}`] : []), ...some(rows.length, 'payment on the way')];
  const isSaid = parts.length > 0;
  return (
    <Group
      title="Payment"
      says={isSaid ? `${said(parts, '')}, the rest when the work is done` : 'all of it when the work is done'}
      paths={['deposit', 'progress']}
      problems={problems}
    >
      <p className="hint">Many states limit deposits, and ask for notices where one signs at home: know yours.</p>
      <TypedFields
        fields={[{ of: 'deposit', path: 'deposit', label: 'Deposit, $ or %' }]}
        stated={stated}
        problems={problems}
        onSet={onSet}
      />
      <Rows
        what="payment"
        rows={progress.map((row) => ({ ...row }))}
        blank={{ when: '', percent: '' }}
        columns={[
          { of: 'when', unit: 'when' },
          { of: 'percent', unit: '%' },
        ]}
        problemOf={(row, of) => {
          const at = rows.findIndex((each) => each.when === row.when && each.percent === row.percent);
          if (of === 'percent' && isWithoutShare(row)) return 'must say how many percent of the total fall due';
          return problemAt(problems, `progress.${at}.${of === 'percent' ? 'bp' : 'when'}`);
        }}
        problem={problemAt(problems, 'progress')}
        onType={(typed) => onSet({ progress: typed })}
      />
    </Group>
  );
}

/** How long it holds, when it begins, what is warranted. */
export function TermsGroup({ stated, problems, onSet }: GroupsProps) {
  const { validDays, warrantyMonths, startWindow, notes } = stated;
  const parts = [
    `holds for ${validDays || 15} days`,
    `${warrantyMonths || 12} months of warranty`,
    ...(startWindow.trim() ? [`starts ${startWindow.trim()}`] : []),
    ...(notes.trim() ? ['a note'] : []),
  ];
  return (
    <Group
      title="Terms"
      says={said(parts, '')}
      paths={['validDays', 'warrantyMonths', 'startWindow', 'notes']}
      problems={problems}
    >
      <TypedFields
        fields={[
          { of: 'validDays', path: 'validDays', label: 'Holds for, in days' },
          { of: 'warrantyMonths', path: 'warrantyMonths', label: 'Warranty, in months' },
          { of: 'startWindow', path: 'startWindow', label: 'Start of the work' },
          { of: 'notes', path: 'notes', label: 'Notes', lines: 2 },
        ]}
        stated={stated}
        problems={problems}
        onSet={onSet}
      />
    </Group>
  );
}

const SHOWN = [
  { id: 'items', label: 'each material, and the labor of each part' },
  { id: 'sum', label: 'the sum alone' },
] as const;

/** What the paper shows, and which quote it takes the place of. */
export function PaperGroup({ stated, problems, onSet, projectId }: GroupsProps & { projectId: string | undefined }) {
  const quotes = useQuery({
    queryKey: ['quotes', 'of', projectId],
    queryFn: () => listProjectQuotes(projectId ?? ''),
    enabled: projectId !== undefined,
  });
  const earlier = quotes.data?.items ?? [];
  const revised = earlier.find(({ id }) => id === stated.revisionOf);
  const parts = [
    `shows ${stated.show === 'sum' ? 'the sum alone' : 'items'}`,
    ...(revised ? [`takes the place of ${revised.number}`] : []),
  ];
  return (
    <Group title="Paper" says={said(parts, '')} paths={['show', 'revisionOf']} problems={problems}>
      <Chosen
        label="Shows the customer"
        value={stated.show}
        choices={SHOWN}
        onChoose={(show) => onSet({ show: show === 'sum' ? 'sum' : 'items' })}
      />
      <Chosen
        label="Takes the place of"
        value={stated.revisionOf}
        choices={[
          { id: '', label: 'no earlier quote' },
          ...earlier.map((quote) => ({ id: quote.id, label: `${quote.number}, ${statusWords(quote)}` })),
        ]}
        problem={problemWithin(problems, 'revisionOf')}
        onChoose={(revisionOf) => onSet({ revisionOf })}
      />
    </Group>
  );
}
