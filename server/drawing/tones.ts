import type { Tone } from './drawing.ts';

/**
 * The colors of the tones on light and on dark ground. The uniform colors for marking underground lines (APWA) and the
 * safety colors (ANSI Z535) name hues; the shades here are ours, chosen so that lines that carry meaning reach 3:1.
 * What a pale hue such as yellow fills has an outline in ink.
 */
export const TONE_COLORS: Readonly<Record<Tone, { light: string; dark: string }>> = {
  ink: { light: '#1d2126', dark: '#e9e6df' },
  grey: { light: '#6d7278', dark: '#9aa0a6' },
  faint: { light: '#b9bcbf', dark: '#565c63' },
  shade: { light: '#e9e8e4', dark: '#343a41' },
  paper: { light: '#ffffff', dark: '#20252a' },
  route: { light: '#c4161c', dark: '#ff6b66' },
  gas: { light: '#f2c200', dark: '#f7d038' },
  communications: { light: '#e87600', dark: '#ff9a3d' },
  water: { light: '#0f62b5', dark: '#6fb1f5' },
  sewer: { light: '#1b7a3d', dark: '#5cc481' },
  irrigation: { light: '#7b3fa0', dark: '#c48be8' },
  excavation: { light: '#6d7278', dark: '#e9e6df' },
  caution: { light: '#ffb400', dark: '#ffc233' },
  stop: { light: '#d0202e', dark: '#ff6b70' },
};
