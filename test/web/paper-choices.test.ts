import { describe, expect, it } from 'vitest';
import { PAPERS } from '../../server/report/pdf.ts';
import { paperChoices } from '../../web/project/paper-choices.ts';

describe('the papers of a project', () => {
  it('are all that the server prints, each by its own words', () => {
    const choices = paperChoices({ hasPurchase: true });
    expect(choices.map(({ value }) => value).sort()).toEqual([...PAPERS].sort());
    expect(new Set(choices.map(({ label }) => label)).size).toBe(PAPERS.length);
  });

  it('leave the budget out where no purchase is stated', () => {
    const values = paperChoices({ hasPurchase: false }).map(({ value }) => value);
    expect(values).toHaveLength(PAPERS.length - 1);
    expect(values).not.toContain('budget');
  });
});
