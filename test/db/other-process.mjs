// Another process that holds a data folder, for the tests of locks and of sudden ends. It runs what is built.
//   node other-process.mjs hold DIR ADDRESS   opens DIR, tells ADDRESS, says "ready" and stays
//   node other-process.mjs write DIR          changes a price and saves a project again and again, and says each number
//                                             once both are saved
import { writeSync } from 'node:fs';
import { openData } from '../../dist/db/open.js';

const [mode, dir, address] = process.argv.slice(2);
const data = openData(dir);
const say = (line) => writeSync(1, `${line}\n`);

if (mode === 'hold') {
  data.announce(address);
  say('ready');
  setInterval(() => {}, 60_000);
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
