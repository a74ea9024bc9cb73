import type { Finding } from '../estimate/answer.ts';
import { capital, citationInWords } from './wording.ts';

/** A finding as a sentence, with the run or leg that it is about and the article that it comes from. */
export function findingInWords({ message, leg, run, citation }: Finding): string {
  const where = [...(run === undefined ? [] : [run]), ...(leg === undefined ? [] : [`leg ${leg + 1}`])].join(', ');
  const source = citation ? ` (${citationInWords(citation)})` : '';
  return `${where ? `${capital(where)}: ` : ''}${message}${source}`;
}
