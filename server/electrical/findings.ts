import { type Citation, cite, type Edition, type RuleKey } from './citations.ts';

/** How grave a finding is: fine, worth knowing, worth asking about, or not to be built like this. */
export const SEVERITIES = ['ok', 'note', 'caution', 'stop'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** One check of a rule, with its numbers. `leg` counts from 0; `run` is the run's name. */
export interface Finding {
  rule: string;
  severity: Severity;
  message: string;
  citation?: Citation | undefined;
  numbers: Record<string, number | string | boolean>;
  leg?: number | undefined;
  run?: string | undefined;
}

/** May a circuit with these findings be built? Only a `stop` forbids it. */
export function isLawful(findings: readonly Finding[]): boolean {
  return findings.every(({ severity }) => severity !== 'stop');
}

/** Makes the finding of a rule, which cites the edition asked for. */
export function citedFinding(
  rule: RuleKey,
  edition: Edition,
  numbers: Finding['numbers'],
  said: Pick<Finding, 'severity' | 'message'>,
): Finding {
  return { rule, ...said, citation: cite(rule, edition), numbers };
}
