import type { NowOrLater } from './answer.ts';
import { type TryChanged, unlessRefused } from './changed-option.ts';
import type { Description, DescriptionOption } from './description.ts';
import { wholeDollars } from './money.ts';
import { estimateOption, type OptionEstimate } from './option-estimate.ts';
import type { Book } from './price-book.ts';

interface Around {
  description: Description;
  book: Book;
  tryChanged: TryChanged;
}

/**
 * Doing it once with a rough-in or a spare conduit, or twice without: what is paid now and what later, all at today's
 * prices, whole cents. Later the house is finished: nothing is open framing then. An option of which a part has no price
 * is left out.
 */
export function nowOrLater(planned: readonly OptionEstimate[], around: Around): NowOrLater[] {
  return planned.flatMap(({ answer }) => {
    const stated = around.description.options.find(({ id }) => id === answer.id);
    if (!stated || !answer.complete) return [];
    return (answer.later?.ways ?? []).flatMap((way): NowOrLater[] => {
      const nowCents = answer.totals.totalCents;
      const prepared = { nowCents, laterCents: way.cents, sumCents: nowCents + way.cents };
      const other =
        way.kind === 'rough-in' ? withoutRoughIn(stated, around) : withoutSpare(stated, way.withoutItCents, around);
      return other ? [weighed({ option: answer.id, kind: way.kind, prepared, ...other })] : [];
    });
  });
}

type Unprepared = Pick<NowOrLater, 'unprepared' | 'atOnceCents'>;

/** Nothing now and all of it later, planned anew in the finished house; and all of it now. */
function withoutRoughIn(stated: DescriptionOption, { description, book, tryChanged }: Around): Unprepared | undefined {
  const option = { ...stated, roughInOnly: false };
  const finished: Description = { ...description, site: { ...description.site, work: 'retrofit' } };
  const isOpen = description.site.work === 'new-construction';
  const atOnce = tryChanged(option);
  const later = isOpen
    ? unlessRefused(() => estimateOption({ description: finished, option, book, effort: 'compare' }))
    : atOnce;
  if (!atOnce?.answer.complete || !later?.answer.complete) return undefined;
  const laterCents = later.answer.totals.totalCents;
  return {
    unprepared: { nowCents: 0, laterCents, sumCents: laterCents },
    atOnceCents: atOnce.answer.totals.totalCents,
  };
}

/** The option without its spare conduit now, and its way laid once more later. */
function withoutSpare(
  { spareConduit: _spare, ...option }: DescriptionOption,
  laterCents: number | undefined,
  { tryChanged }: Around,
): Unprepared | undefined {
  const now = tryChanged(option)?.answer;
  if (!now?.complete || laterCents === undefined) return undefined;
  const nowCents = now.totals.totalCents;
  return { unprepared: { nowCents, laterCents, sumCents: nowCents + laterCents } };
}

function weighed(one: Omit<NowOrLater, 'savesCents' | 'because'>): NowOrLater {
  const savesCents = one.unprepared.sumCents - one.prepared.sumCents;
  return { ...one, savesCents, because: inWords(one, savesCents) };
}

function inWords(
  { kind, prepared, unprepared, atOnceCents }: Omit<NowOrLater, 'savesCents' | 'because'>,
  savesCents: number,
) {
  const verdict =
    savesCents >= 0
      ? `preparing saves ${wholeDollars(savesCents)} in the end`
      : `preparing costs ${wholeDollars(-savesCents)} more in the end`;
  if (kind === 'rough-in') {
    const all = atOnceCents === undefined ? '' : ` All of it built now costs ${wholeDollars(atOnceCents)}.`;
    return `Roughed in now and finished later ${wholeDollars(prepared.sumCents)}, against ${wholeDollars(unprepared.sumCents)} for all of it later: ${verdict}.${all}`;
  }
  const more = unprepared.laterCents - prepared.laterCents;
  const conduitCents = prepared.nowCents - unprepared.nowCents;
  return `The spare conduit adds ${wholeDollars(conduitCents)} now; going the same way once more later costs ${wholeDollars(more)} more than pulling through it: ${verdict}, once it is used.`;
}
