// Looks at the board while something changes, and while the service can't be reached. Usage: node watch_board.js BASE FIXTURE.
// Prints one JSON object: what the board said, without being loaded again; exit code 0, or 3 when there is no browser.
"use strict";
const { browse, run } = require("./browser.js");

const [base, fixture] = process.argv.slice(2);
const LIMIT = { timeout: 30_000 };

run(() => browse(async browser => {
  const board = await browser.newPage(), seen = {};
  let loads = 0;
  board.on("load", () => loads++);
  await board.goto(`${base}/`, { waitUntil: "load" });
  const other = await browser.newPage();
  await other.goto(`${base}/hold/${fixture}`, { waitUntil: "load" });
  await other.type("#by", "day setter");
  await other.type("#why", "cleaning the nests");
  await Promise.all([other.waitForNavigation(), other.click("button")]);
  await board.bringToFront(); // A page that nobody sees does not refresh.
  await board.waitForFunction(name => document.querySelector(`#fixture-${name} .state`)?.textContent.includes("Does not answer"), LIMIT, fixture);
  seen.sum = await board.$eval(".sum", e => e.textContent);

  await board.focus(`a[href="/hold/${fixture}"]`);
  const at = await board.$eval(".at strong", e => e.textContent);
  await board.waitForFunction(before => document.querySelector(".at strong").textContent !== before, LIMIT, at);
  seen.focused = await board.evaluate(() => document.activeElement.getAttribute("href"));

  await board.setOfflineMode(true);
  await board.waitForSelector("#lost", LIMIT);
  seen.lost = await board.$eval("#lost", e => e.textContent);
  seen.firstChild = await board.$eval("main", e => e.firstElementChild.id);
  await board.setOfflineMode(false);
  await board.waitForFunction(() => !document.querySelector("#lost"), LIMIT);
  seen.loads = loads;
  console.log(JSON.stringify(seen));
  return 0;
}));
