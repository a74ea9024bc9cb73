import { describe, expect, it } from 'vitest';
import { NotFoundError, StaleRevisionError } from '../../db/errors.ts';
import { RESTORE_DAYS } from '../../db/projects.ts';
import { opens, scratchPath, thrownBy } from './scratch.ts';

const DAY_MS = 86_400_000;
const description = { title: 'Carport', route: '35 joists, 12 under-deck' };

/** A data folder with a clock that the test turns. */
function withClock(dir = scratchPath()) {
  const clock = { at: Date.parse('2026-03-02T08:00:00Z') };
  const data = opens(dir, { now: () => new Date(clock.at) });
  return { data, clock, projects: data.projects };
}

describe('a project', () => {
  it('comes back as it was saved, after a restart too', () => {
    const dir = scratchPath();
    const { data, projects } = withClock(dir);
    const draft = { legs: [{ lengthFt: '4' }], note: null };
    const { id } = projects.create({ title: 'Carport', description, draft });
    const saved = {
      ...{ id, revision: 1, title: 'Carport', description, draft, archived: false },
      ...{ createdAt: '2026-03-02T08:00:00.000Z', updatedAt: '2026-03-02T08:00:00.000Z' },
    };
    expect(id).toMatch(/^[0-9a-f-]{36}$/);
    expect(projects.find(id)).toEqual(saved);
    data.close();
    expect(withClock(dir).projects.find(id)).toEqual(saved);
  });

  it('may have no description yet, no draft, and a draft that is null, false or an empty text', () => {
    const { projects } = withClock();
    const bare = projects.create({ title: 'New', description: null });
    expect(bare.description).toBeNull();
    expect('draft' in bare).toBe(false);
    for (const draft of [null, false, '', 0, []]) {
      expect(projects.create({ title: 'New', description: null, draft }).draft).toEqual(draft);
    }
  });

  it('tells the second of two who saved the same revision, and keeps what the first saved', () => {
    const { projects, clock } = withClock();
    const { id } = projects.create({ title: 'Carport', description });
    clock.at += 1000;
    const first = projects.replace(id, 1, { title: 'First', description: null, archived: true });
    expect(first).toMatchObject({ revision: 2, title: 'First', archived: true, updatedAt: '2026-03-02T08:00:01.000Z' });
    const stale = thrownBy(() => projects.replace(id, 1, { title: 'Second', description }));
    expect(stale).toBeInstanceOf(StaleRevisionError);
    expect(stale).toMatchObject({ revision: 2, message: '"First" is at revision 2 by now, not 1.' });
    expect(projects.find(id)).toEqual(first);
    expect(thrownBy(() => projects.remove(id, 1))).toBeInstanceOf(StaleRevisionError);
  });

  it('is not found where there is none', () => {
    const { projects } = withClock();
    const missing = [
      () => projects.find('x'),
      () => projects.replace('x', 1, { title: 'X', description: null }),
      () => projects.remove('x', 1),
      () => projects.restore('x'),
    ].map(thrownBy);
    for (const error of missing) {
      expect(error).toBeInstanceOf(NotFoundError);
      expect(error.message).toBe('There is no project "x".');
    }
  });

  it('can be restored within 30 days of its removal, with everything in it', () => {
    const { projects, clock } = withClock();
    const { id } = projects.create({ title: 'Carport', description, draft: { half: 'typed' } });
    projects.remove(id, 1);
    expect(thrownBy(() => projects.find(id)).message).toBe(`The project "${id}" was removed; it can be restored.`);
    expect(projects.list().total).toBe(0);
    expect(thrownBy(() => projects.replace(id, 2, { title: 'X', description }))).toBeInstanceOf(NotFoundError);
    clock.at += RESTORE_DAYS * DAY_MS;
    expect(projects.restore(id)).toMatchObject({
      revision: 3,
      title: 'Carport',
      description,
      draft: { half: 'typed' },
    });
    expect(projects.restore(id).revision).toBe(3); // it is there: nothing to do
    expect(projects.list().total).toBe(1);
  });

  it('is gone for good after that, from the file too', () => {
    const dir = scratchPath();
    const { projects, clock, data } = withClock(dir);
    const { id } = projects.create({ title: 'Carport', description });
    const { id: kept } = projects.create({ title: 'Kept', description });
    projects.remove(id, 1);
    clock.at += RESTORE_DAYS * DAY_MS + 1;
    expect(thrownBy(() => projects.restore(id)).message).toBe(`There is no project "${id}".`);
    data.close();
    const later = opens(dir, { now: () => new Date(clock.at) });
    expect(later.db.prepare('SELECT id FROM project').pluck().all()).toEqual([kept]);
    expect(later.check()).toEqual([]);
  });
});

describe('the list of projects', () => {
  it('shows the one saved last first, archived ones after the others, without drafts', () => {
    const { projects, clock } = withClock();
    const create = (title: string, archived: boolean) => {
      clock.at += 1000;
      return projects.create({ title, description, draft: { large: true }, archived });
    };
    const first = create('First', false);
    create('Archived', true);
    create('Second', false);
    clock.at += 1000;
    projects.replace(first.id, 1, { title: 'First again', description });
    const { items, ...page } = projects.list();
    expect(items.map(({ title }) => title)).toEqual(['First again', 'Second', 'Archived']);
    expect(page).toEqual({ page: 1, pageSize: 50, total: 3 });
    expect(items.some((item) => 'draft' in item)).toBe(false);
    expect(items[1]?.description).toEqual(description);
  });

  it('finds words of the title as it is now, whatever signs are typed', () => {
    const { projects } = withClock();
    const { id } = projects.create({ title: 'Carport behind the Alder Row house', description });
    const found = (search: string) => projects.list({ search }).total;
    expect([found('alder carp'), found('"alder" row*'), found('OAK'), found('%'), found(' ')]).toEqual([1, 1, 0, 0, 1]);
    projects.replace(id, 1, { title: 'Garage at Oak Lane', description });
    expect([found('alder'), found('oak')]).toEqual([0, 1]);
  });

  it('has pages of 50', () => {
    const { projects } = withClock();
    for (let at = 0; at < 61; at += 1) projects.create({ title: `Job ${at}`, description: null });
    expect(projects.list({ page: 2 }).items).toHaveLength(11);
    expect(projects.list({ page: 2, search: 'job' })).toMatchObject({ page: 2, pageSize: 50, total: 61 });
    expect(projects.list({ page: 3 }).items).toEqual([]);
  });
});

describe('the settings', () => {
  it('start empty, come back as saved, and tell the second of two who saved', () => {
    const dir = scratchPath();
    const data = opens(dir);
    expect(data.settings.read()).toEqual({ revision: 1 });
    const stated = { businessName: 'Invented Electric', defaultTerms: { profitBp: 1000 } };
    expect(data.settings.replace(1, stated)).toEqual({ revision: 2, ...stated });
    const stale = thrownBy(() => data.settings.replace(1, { address: '1 Nowhere' }));
    expect(stale).toBeInstanceOf(StaleRevisionError);
    expect(stale.message).toBe('The settings are at revision 2 by now, not 1.');
    data.close();
    const { settings } = opens(dir);
    expect(settings.read()).toEqual({ revision: 2, ...stated });
    expect(settings.replace(2, { address: '2 Nowhere', businessName: undefined })).toEqual({
      revision: 3,
      address: '2 Nowhere',
    });
  });
});
