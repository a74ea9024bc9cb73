import { describe, expect, it } from 'vitest';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import { estimateText } from '../../server/terminal/estimate-text.ts';
import { passageLines } from '../../server/terminal/passage-text.ts';
import { ESTIMATE, PANEL_90 } from '../report/fixture.ts';
import { FULL, SAID_OF_IT } from '../report/full-answer.ts';

/** Words of a text in one line, so that it does not matter where a line was broken. */
const inOneLine = (text: string) => text.replaceAll(/\s+/g, ' ');
const ofPanel = ({ id }: EstimateOption) => id === 'panel-90';

describe('an estimate in the terminal', () => {
  const option = FULL.options.find(ofPanel) ?? PANEL_90;
  const text = estimateText(FULL, option);

  it('says all that the paper says, at most 100 letters wide', () => {
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
    const words = new Set(inOneLine(text).split(' '));
    // A cell is broken within its column: its words stand there, others between them.
    for (const said of SAID_OF_IT) for (const word of said.split(' ')) expect([...words].join(' ')).toContain(word);
    for (const { description } of option.lines) expect(inOneLine(text)).toContain(description.split(',')[0]);
  });

  it('keeps each fact in its row', () => {
    expect(text).toMatch(/^Rating of the service +\$1,440 +Read the handle\. +You$/m);
    expect(text).toMatch(/^Lead paint +\$8,100 +\$9,050$/m);
    expect(text).toMatch(/^One circuit, 32 A +\$6,111 +\$6,555 +\$8,122$/m);
    expect(text).toMatch(/^Panel in the workshop, 90 A +\$7,888 +\$8,315 +–$/m);
    expect(text).toMatch(/^To plan for: nine of ten cost less +\$12,100 +76\.48$/m);
    expect(text).toMatch(/^Charging, 44 A +\$38 less +44 A is the most on 6 AWG cable\.$/m);
    expect(text).toMatch(/^3 Lawn +36 ft +[\d,.]+ +[\d.]+$/m);
  });

  it('carries the cautions, last', () => {
    const words = inOneLine(text);
    for (const notice of FULL.notices) expect(words).toContain(notice);
    expect(words.trimEnd().endsWith(FULL.notices.at(-1) ?? '')).toBe(true);
  });

  it('says nothing of what an answer lacks', () => {
    const core = estimateText(ESTIMATE, PANEL_90);
    for (const title of ['Later:', 'Worth finding out', 'The price by', 'The bid of', 'To carry into']) {
      expect(core).not.toContain(title);
    }
    expect(core).not.toMatch(/undefined|NaN|\[object/);
  });
});

describe('a passage in letters', () => {
  it('keeps to the width it is given, with groups over their rows', () => {
    const lines = passageLines(
      {
        title: 'Hours',
        sentences: ['Of one person.'],
        columns: [
          { head: 'Task', share: 1 },
          { head: 'Hours', widthPt: 30, align: 'right' },
        ],
        rows: [
          { kind: 'group', cells: ['Day 1', '8'] },
          { cells: ['Dig', '3.5'] },
          { cells: ['A long task that wraps', '4.5'] },
        ],
        list: ['Ask first, and then dig by hand.'],
      },
      24,
    );
    expect(lines).toEqual([
      'Hours',
      '-----',
      'Of one person.',
      'Task               Hours',
      'Day 1, 8',
      'Dig                  3.5',
      'A long task that     4.5',
      'wraps',
      '-  Ask first, and then',
      '   dig by hand.',
    ]);
  });
});
