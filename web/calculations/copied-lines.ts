import type { CalculationAnswer, CalculationSheet } from '../../server/calculations.ts';
import type { JsonObject } from '../json.ts';
import { type FieldSchema, shapeFor } from './field-schema.ts';
import { pairs } from './figures.ts';

/** The answer as a line of text, for a letter or a note: what was asked, what came out, by which articles. */
export function answerLine(sheet: CalculationSheet, { input, result, citations }: CalculationAnswer): string {
  const stated = pairs(shapeFor(sheet.input as FieldSchema, input as JsonObject), input as JsonObject);
  const { findings: _findings, steps: _steps, ...figures } = result;
  const found = pairs(sheet.result as FieldSchema, figures as JsonObject);
  const [first] = citations;
  const articles = citations.map(({ article }) => article).join('; ');
  const source = first ? ` (${first.code} ${first.edition}: ${articles})` : '';
  return `${sheet.title}: ${stated.join(', ')} → ${found.join(', ')}${source}`;
}

/** The same question as a command of the terminal, quoted for a POSIX shell. */
export function terminalCommand(name: string, stated: JsonObject): string {
  return `feedrun calc ${name} '${JSON.stringify(stated).replaceAll("'", "'\\''")}'`;
}
