import type { Estimate } from '../estimate/answer.ts';
import { budgetPaper } from './budget-paper.ts';
import { comparisonPaper } from './comparison-paper.ts';
import { crewPaper } from './crew-paper.ts';
import { diggingPaper } from './digging-paper.ts';
import { estimatePaper } from './estimate-paper.ts';
import { inspectionPaper } from './inspection-paper.ts';
import type { PaperInput } from './paper.ts';
import { permitPaper } from './permit-paper.ts';
import { picklistPaper } from './picklist-paper.ts';
import type { PageSize } from './sheet.ts';
import type { Issuer } from './sheet-head.ts';
import { showingPaper } from './showing-paper.ts';

/** The papers that an estimate can be printed as. */
export const PAPERS = [
  'estimate',
  'comparison',
  'budget',
  'inspection',
  'picklist',
  'crew',
  'permit',
  'digging',
  'showing',
] as const;
export type Paper = (typeof PAPERS)[number];

const DRAWN_BY: Readonly<Record<Paper, (input: PaperInput) => Promise<Buffer>>> = {
  estimate: estimatePaper,
  comparison: comparisonPaper,
  budget: budgetPaper,
  inspection: inspectionPaper,
  picklist: picklistPaper,
  crew: crewPaper,
  permit: permitPaper,
  digging: diggingPaper,
  showing: showingPaper,
};

/** Which option is printed, on which paper. */
export interface PdfChoice {
  estimate: Estimate;
  /** Not stated: the cheapest that can be built, else the first. */
  optionId?: string;
  pageSize?: PageSize;
  paper?: Paper;
  /** Who hands it over; not stated: the paper names nobody. */
  issuer?: Issuer;
}

/** No option has the id that was asked for. */
export class UnknownOptionError extends Error {
  override name = 'UnknownOptionError';
}

/**
 * An estimate as a tagged PDF. The same estimate gives the same bytes: its date of creation is the estimate's own.
 * @throws {UnknownOptionError} with the ids that there are
 */
export async function estimatePdf({
  estimate,
  optionId,
  pageSize = 'letter',
  paper = 'estimate',
  issuer,
}: PdfChoice): Promise<Buffer> {
  const id = optionId ?? estimate.comparison.cheapest ?? estimate.options[0]?.id;
  const option = estimate.options.find((one) => one.id === id);
  const stated = estimate.description.options.find((one) => one.id === id);
  if (!option || !stated) {
    const ids = estimate.options.map((one) => one.id).join(', ');
    throw new UnknownOptionError(`option must be one of ${ids}, not ${JSON.stringify(id)}`);
  }
  return DRAWN_BY[paper]({ estimate, option, stated, pageSize, issuer });
}
