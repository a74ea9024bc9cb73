import type { Paper } from '../../server/report/pdf.ts';
import type { Choice } from '../parts/words.ts';

/** The papers of a project, by whom or what each is for. */
const LABELS: Readonly<Record<Paper, string>> = {
  estimate: 'The estimate',
  comparison: 'All options compared',
  budget: 'For the budget',
  inspection: 'For the inspector',
  picklist: 'For the supply house',
  crew: 'For the crew',
  permit: 'For the permit',
  digging: 'For whoever digs',
  showing: 'To show to the customer',
};

/** The papers that can be printed of a project. The budget's needs what is stated of its purchase. */
export function paperChoices({ hasPurchase }: { hasPurchase: boolean }): (Choice & { value: Paper })[] {
  const papers = Object.keys(LABELS) as Paper[];
  return papers.filter((paper) => paper !== 'budget' || hasPurchase).map((value) => ({ value, label: LABELS[value] }));
}
