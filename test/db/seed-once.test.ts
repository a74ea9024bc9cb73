import { describe, expect, it, vi } from 'vitest';
import { DEMO_PROJECT } from '../../db/demo.ts';
import { seedOnce } from '../../db/seed-once.ts';
import { cable, opens, scratchPath, task, thrownBy } from './scratch.ts';

const seed = { readSeed: () => [cable(), task()], demo: DEMO_PROJECT };

describe('a fresh data folder', () => {
  it('is given prices and the demo project, once, as the first revision of the book', () => {
    const data = opens(scratchPath());
    const id = seedOnce(data, seed);
    expect(data.projects.find(id ?? '')).toMatchObject({
      title: DEMO_PROJECT.title,
      description: DEMO_PROJECT.description,
    });
    expect(data.prices.snapshot()).toMatchObject({
      revision: 1,
      items: [{ key: 'nm-b-6-3-cu' }, { key: 'pull-wire' }],
    });
    expect(data.prices.history('pull-wire')[0]).toMatchObject({ cause: 'seed', change: 'added' });
    const readSeed = vi.fn(seed.readSeed);
    expect(seedOnce(data, { ...seed, readSeed })).toBe(id);
    expect(readSeed).not.toHaveBeenCalled();
    expect(data.projects.list().total).toBe(1);
  });

  it('does not get back what somebody removed, after a restart neither', () => {
    const dir = scratchPath();
    const before = opens(dir);
    const id = seedOnce(before, seed) ?? '';
    before.projects.remove(id, 1);
    before.prices.remove('pull-wire', 1);
    before.close();
    const data = opens(dir);
    expect(seedOnce(data, seed)).toBeUndefined();
    expect(data.projects.list().total).toBe(0);
    expect(data.prices.list().total).toBe(1);
    data.projects.restore(id);
    expect(seedOnce(data, seed)).toBe(id);
  });

  it('keeps prices that were imported before it was seeded', () => {
    const data = opens(scratchPath());
    data.prices.importItems([cable({ likely: 380 })]);
    seedOnce(data, seed);
    expect(data.prices.find('nm-b-6-3-cu')).toMatchObject({ likely: 380, revision: 1 });
    expect(data.prices.find('pull-wire').likely).toBe(0.012);
  });

  it('is seeded wholly or not at all, and tried again the next time', () => {
    const data = opens(scratchPath());
    const broken = { ...seed, demo: { title: '', description: {} } };
    expect(thrownBy(() => seedOnce(data, broken)).message).toContain("CHECK constraint failed: title <> ''");
    expect(data.prices.list().total).toBe(0);
    expect(data.prices.revision()).toBe(0);
    expect(seedOnce(data, seed)).toBeDefined();
    expect(data.prices.revision()).toBe(1);
  });
});
