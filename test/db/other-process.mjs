// Another process that holds a data folder, for the tests of locks and of sudden ends. It runs what is built.
//   node other-process.mjs hold DIR ADDRESS   opens DIR, tells ADDRESS, says "ready" and stays
//   node other-process.mjs write DIR          changes a price and saves a project again and again, and says each number
//                                             once both are saved
//   node other-process.mjs book DIR           imports, changes several, undoes and edits again and again; says what the
//                                             book is at, as JSON, once each is saved
import { writeSync } from 'node:fs';
import { openData } from '../../dist/db/open.js';

const [mode, dir, address] = process.argv.slice(2);
const data = openData(dir);
const say = (line) => writeSync(1, `${line}\n`);

if (mode === 'hold') {
  data.announce(address);
  say('ready');
  setInterval(() => {}, 60_000);
} else if (mode === 'book') {
  changeTheBook();
} else {
  const { prices, projects } = data;
  let item = prices.list().items[0];
  let project = projects.find(projects.list().items[0].id);
  for (let number = Math.round(item.likely) + 1; ; number += 1) {
    item = prices.replace(item.key, item.revision, { ...stated(item), likely: number, high: number });
    project = projects.replace(project.id, project.revision, { ...project, draft: { number } });
    say(number);
  }
}

function stated({ revision: _revision, ...rest }) {
  return rest;
}

/** Import of 1,200 items, several at once, an undo, a removal and an edit, over and over; numbers never come twice. */
function changeTheBook() {
  const { prices } = data;
  const tell = () => {
    const items = prices.snapshot().items;
    const sum = items.reduce((total, { likely }) => total + likely, 0);
    say(JSON.stringify({ revision: prices.revision(), items: items.length, sum }));
  };
  const [sample] = prices.list({ search: 'pull-wire' }).items;
  for (let number = prices.revision() * 10 + 10; ; number += 10) {
    const list = Array.from({ length: 1200 }, (_, at) => ({
      ...stated(sample),
      ...{ key: `many-${at}`, low: 0, likely: number + at, high: number + at, spec: undefined },
    }));
    prices.importItems(list, { removeMissing: number % 20 === 0, kept: ['pull-wire'] });
    tell();
    const some = prices.list({ search: 'many' }).items;
    const steps = some.map((item) => ({
      revisionSeen: item.revision,
      item: { ...stated(item), likely: item.likely + 1, high: item.high + 1 },
    }));
    const { bookRevision } = prices.replaceSeveral(steps, { cause: 'several', why: `number ${number}` });
    tell();
    if (number % 30 === 0) {
      prices.undo(bookRevision);
      tell();
    }
    const one = prices.find('many-7');
    prices.replace(one.key, one.revision, { ...stated(one), likely: one.likely + 1, high: one.high + 1 });
    tell();
  }
}
