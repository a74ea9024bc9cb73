import type { ReactElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import type { Estimate, EstimateOption, Range } from '../../server/estimate/answer.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import { BudgetPart } from '../../web/project/budget-part.tsx';
import { OptionSchedule } from '../../web/project/option-schedule.tsx';
import { RangeDetail } from '../../web/project/range-detail.tsx';
import { RangeShape } from '../../web/project/range-shape.tsx';
import { UnknownsPart } from '../../web/project/unknowns-part.tsx';
import { household, SEEDED, type Stated } from '../estimate/fields/priced.ts';

const nothing = () => undefined;
const textOf = (html: string) => html.replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ');
const words = (part: ReactElement) => textOf(renderToStaticMarkup(part));

function answerTo(stated: Stated): { answer: Estimate; option: EstimateOption } {
  const answer = estimate(household(stated), SEEDED, { parts: 'core' });
  const [option] = answer.options;
  if (!option) throw new Error('The household has one option.');
  return { answer, option };
}

const RANGE: Range = {
  p10Cents: 51_400,
  p50Cents: 140_000,
  p90Cents: 476_200,
  likelyCents: 3_900,
  because: [],
  shape: { fromCents: 0, stepCents: 100_000, shares: [0.6, 0.1, 0.1, 0.1, 0.1] },
  humps: [{ chance: 0.88, p50Cents: 140_000 }],
  drivers: [],
  chances: [],
};

/** The schedule of one option, whose likely values add up to so much; its range is the one above. */
function schedule(totals: Partial<EstimateOption['totals']>, likelyCents = RANGE.likelyCents): string {
  const { answer, option } = answerTo({});
  const ranged = {
    ...answer,
    options: [{ ...option, totals: { ...option.totals, ...totals }, range: { ...RANGE, likelyCents } }],
  };
  return words(
    <OptionSchedule estimate={ranged} ranged={ranged} changes={new Map()} openId={option.id} onOpen={nothing} />,
  );
}

describe('the headline of an option', () => {
  it('is the middle of its range where the likely total lies below all of it', () => {
    const said = schedule({ totalCents: 3_900, netCents: 3_900 });
    expect(said).toMatch(/Total \$1,400 cheapest the middle of its range; \$39 if nothing turns up/);
  });

  it('is the total where that lies in the range', () => {
    const said = schedule({ totalCents: 60_000, netCents: 60_000 }, 60_000);
    expect(said).toMatch(/Total \$600 cheapest/);
    expect(said).not.toContain('if nothing turns up');
  });
});

describe('a range beside a contingency', () => {
  const contingency = 'the range is without the contingency of $60 that the total holds';

  it('says that the total holds more', () => {
    const { option } = answerTo({});
    const totals = { ...option.totals, contingencyCents: 6_000 };
    expect(schedule({ contingencyCents: 6_000 })).toContain(contingency);
    expect(words(<RangeDetail option={{ ...option, totals, range: RANGE }} onShowField={nothing} />)).toContain(
      contingency,
    );
  });

  it('says nothing of one that was not asked for', () => {
    expect(schedule({ contingencyCents: 0 })).not.toContain('contingency');
  });
});

describe('the columns of many options', () => {
  it('are narrower from four on', () => {
    const { answer, option } = answerTo({});
    const classOf = (count: number) => {
      const options = Array.from({ length: count }, (_, at) => ({ ...option, id: String(at) }));
      const all = { ...answer, options };
      const html = renderToStaticMarkup(
        <OptionSchedule estimate={all} ranged={undefined} changes={new Map()} openId="0" onOpen={nothing} />,
      );
      return /<table class="([^"]*)"/.exec(html)?.[1];
    };
    expect([3, 4].map(classOf)).toEqual(['schedule', 'schedule many']);
  });
});

describe('the chances of two humps', () => {
  it('stand above the strokes of the range, which strike none through', () => {
    const html = renderToStaticMarkup(<RangeShape range={RANGE} />);
    const wordsY = Number(/class="hump"[^>]* y="([-\d.]+)"/.exec(html)?.[1]);
    const strokeTopY = Number(/class="mark"[^>]* y1="([-\d.]+)"/.exec(html)?.[1]);
    expect(wordsY).toBeLessThan(strokeTopY);
  });
});

describe('the ends of a range', () => {
  it('turn inward where the drawing ends, so that none is cut off', () => {
    const shape = { fromCents: 0, stepCents: 100_000, shares: [0.5, 0.5] };
    const anchorsOf = (p10Cents: number, p90Cents: number) => {
      const range = { ...RANGE, humps: [], shape, p10Cents, p50Cents: 100_000, p90Cents };
      const html = renderToStaticMarkup(<RangeShape range={range} />);
      return [...html.matchAll(/text-anchor="(\w+)">\$/g)].map(([, anchor]) => anchor);
    };
    expect(anchorsOf(1_000, 199_000)).toEqual(['start', 'middle', 'end']);
    expect(anchorsOf(50_000, 150_000)).toEqual(['end', 'middle', 'start']);
  });
});

describe('what nobody knows', () => {
  const unknown = (path: string, swingCents: number) => ({
    path,
    swingCents,
    howToFindOut: 'Look.',
    whoCanTell: 'inspector' as const,
  });

  it('is called what the papers call it, and what moves no dollar is folded away', () => {
    const { answer, option } = answerTo({});
    const unknowns = [unknown('site.service.panel.state', 18_400), unknown('site.hazards', 49)];
    const html = renderToStaticMarkup(
      <UnknownsPart option={{ ...option, unknowns }} description={answer.description} onShowField={nothing} />,
    );
    const [open = '', folded = ''] = html.split('<details');
    expect(textOf(open)).toMatch(/State of the panel .* \$184/);
    expect(open).not.toContain('Old wiring');
    expect(textOf(`<${folded}`)).toMatch(/1 fact more that would not narrow it .*Old wiring/);
  });

  it('is no raw path in the reasons of the budget', () => {
    const { answer, option } = answerTo({});
    const budget = {
      likelyCents: 1,
      planForCents: 1,
      monthlyCents: 1,
      monthlyPlanForCents: 1,
      totalInterestCents: 1,
      confidence: 'low' as const,
      because: ['Low: site.service.panel.state alone swings 184 %.'],
      askSeller: [],
    };
    const unknowns = [unknown('site.service.panel.state', 1)];
    const said = words(<BudgetPart option={{ ...option, unknowns, budget }} description={answer.description} />);
    expect(said).toContain('Low: state of the panel alone swings 184 %.');
  });
});
