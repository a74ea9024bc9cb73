import { warningSign } from '../drawing/leg-labels.ts';
import type { EstimateOption, Finding } from '../estimate/answer.ts';
import { findingInWords } from './finding-words.ts';
import { drawMarks } from './marks.ts';
import { type Sheet, STYLES } from './sheet.ts';
import { elementOf } from './tags.ts';
import { byWeight, legNumbers, ruleInWords } from './wording.ts';

const WORDS = { stop: 'Stop', caution: 'Caution', note: 'Note', ok: 'In order' } as const;
const SIGN_PT = 13;
const WORD_PT = 42;

/** What stops or warns, each with its sign, leg and article; then, in one paragraph, what was checked and is in order. */
export function drawFindings(sheet: Sheet, { findings }: Pick<EstimateOption, 'findings'>): void {
  const open = byWeight(findings).filter(({ severity }) => severity !== 'ok');
  if (open.length === 0) sheet.paragraph('No check found anything to stop, warn of or note.');
  if (open.length > 0) drawOpen(sheet, open);
  const fine = findings.filter(({ severity }) => severity === 'ok');
  if (fine.length === 0) return;
  sheet.y += 3;
  sheet.paragraph(`Checked and in order: ${inOrder(fine).join('; ')}.`, { style: STYLES.cell });
}

function drawOpen(sheet: Sheet, findings: readonly Finding[]): void {
  const list = elementOf(sheet.doc, 'L');
  sheet.root.add(list);
  for (const finding of findings) {
    const entry = elementOf(sheet.doc, 'LI');
    list.add(entry);
    const x = sheet.leftX + SIGN_PT + WORD_PT;
    const lines = sheet.wrap(findingInWords(finding), sheet.rightX - x, STYLES.text);
    sheet.ensure(lines.length * sheet.lineHeightPt(STYLES.text));
    const topY = sheet.y;
    drawSign(sheet, finding, topY);
    sheet.tagged(
      'Lbl',
      () => sheet.setLines([WORDS[finding.severity]], { x: sheet.leftX + SIGN_PT, topY, style: STYLES['cell-heavy'] }),
      { parent: entry },
    );
    sheet.tagged('LBody', () => sheet.setLines(lines, { x, topY, style: STYLES.text }), { parent: entry });
    entry.end();
    sheet.y = topY + lines.length * sheet.lineHeightPt(STYLES.text) + 2.5;
  }
  list.end();
}

/** The sign beside the word: the word says the same. */
function drawSign(sheet: Sheet, { severity }: Finding, topY: number): void {
  if (severity !== 'stop' && severity !== 'caution') return;
  const marks = warningSign({ at: [0, 0], severity, legs: [] });
  const drawing = { title: '', altText: '', widthPt: 0, heightPt: 0, marks };
  sheet.artifact(() => drawMarks(sheet, drawing, { origin: [sheet.leftX, topY + 9.4], scale: 1 }));
}

/** One entry for each rule, with all the legs where it holds. */
function inOrder(findings: readonly Finding[]): string[] {
  return [...new Set(findings.map(({ rule }) => rule))].map((rule) => {
    const here = findings.filter((finding) => finding.rule === rule);
    const legs = here.flatMap(({ leg }) => (leg === undefined ? [] : [leg]));
    const where = legs.length === 0 ? '' : `, ${new Set(legs).size === 1 ? 'leg' : 'legs'} ${legNumbers(legs)}`;
    const citation = here.find((finding) => finding.citation)?.citation;
    return `${ruleInWords(rule)}${where}${citation ? ` (${citation.article})` : ''}`;
  });
}
