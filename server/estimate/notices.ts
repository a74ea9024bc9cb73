import type { Description } from './description.ts';
import { isDitch } from './vocabulary.ts';

/**
 * The cautions that stand on every output. They say what the tool is not, and what keeps people alive.
 * @returns sentences, the weightiest first
 */
export function noticesOf(description: Description): string[] {
  return [
    ...safetyNotices(description),
    'Prices are what shops and trades usually ask, as a range; get them confirmed before you order or sign.',
  ];
}

/** Those that hold also for work at a fixed price: what the tool is not, and what keeps people alive. */
export function safetyNotices(description: Description): string[] {
  const routes = [description.route, ...description.options.map(({ route }) => route ?? [])];
  const digs = routes.flat().some(({ kind }) => isDitch(kind) || kind === 'bore');
  return [
    'Not a permit, not a design by a licensed person and not an approval. The local code and the authority having jurisdiction (AHJ) decide.',
    'This work needs a permit and a licensed electrician wherever the law asks for one. Let it be inspected before it is covered.',
    'Switch the power off and test that it is off before any cover is opened. The service side of a main breaker stays live.',
    ...(digs
      ? [
          'Call 811 and wait for the marks before any digging. Own lines beyond the meter are not marked: ask for a private locate.',
        ]
      : []),
  ];
}
