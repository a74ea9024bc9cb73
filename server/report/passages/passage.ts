import type { Drawing } from '../../drawing/drawing.ts';
import type { Column, Row } from '../table.ts';

/**
 * One part of an answer in words, rows and pictures. Paper and terminal say the same parts in the same order: the paper
 * as tables and drawings, the terminal in columns of letters, where a picture is left out for its rows say the same.
 */
export interface Passage {
  title: string;
  /** Before the table. */
  sentences?: readonly string[];
  columns?: readonly Column[];
  rows?: readonly Row[];
  drawings?: readonly Drawing[];
  /** Do the drawings say in letters all that the rows say? Paper leaves the rows out then. */
  isDrawn?: boolean;
  /** After the table, each with a dash before it. */
  list?: readonly string[];
}
