import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { estimate } from '../../server/estimate/estimate.ts';
import { LimitChain } from '../../web/project/limit-chain.tsx';
import { household, SEEDED, type Stated } from '../estimate/fields/priced.ts';

function shown(stated: Stated): string {
  const answer = estimate(household(stated), SEEDED, { parts: 'core' });
  const [option] = answer.options;
  if (!option) throw new Error('The household has one option.');
  const html = renderToStaticMarkup(<LimitChain option={option} description={answer.description} />);
  return html.replaceAll(/<\/li>/g, '; ').replaceAll(/<[^>]+>/g, '');
}
const largest = { chargers: [{ amps: 'largest', connection: 'hardwired', equipment: 'owned' }] };

describe('the chain of limits', () => {
  it('shows a service that nobody knows as a link, and what ends the scale', () => {
    const unknown = { service: { ratingA: null, freeSpaces: null }, load: { method: 'unknown' } };
    const chain = shown({ site: unknown, option: largest });
    expect(chain).toMatch(/^service: not known; /);
    expect(chain).toMatch(/the most that is planned \(80 A\) \(the weakest\); $/);
  });

  it('marks the service where that holds the charger back, and shows the rating of a larger one', () => {
    const load = { method: 'measured', peakA: 120, days: 365 };
    expect(shown({ site: { load }, option: largest })).toMatch(/^service 200 A \(the weakest\); breaker 50 A; /);
    const serviceUpgrade = { toA: 400, supply: 'overhead', meter: 'replace' };
    expect(shown({ site: { load }, option: { ...largest, serviceUpgrade } })).toMatch(/^service 400 A; /);
  });
});
