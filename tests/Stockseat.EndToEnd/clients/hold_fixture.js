// Holds a fixture and releases it as a person does who has a keyboard only: Tab, letters, Enter. Then does what people do by
// mistake: sends a form twice, goes Back and sends it again, loads the last page again.
// Usage: node hold_fixture.js BASE FIXTURE on|off, where on or off says whether scripts run. Prints one JSON object: what was
// seen after each step; exit code 0, or 3 when there is no browser.
"use strict";
const { browse, link, field, go, run } = require("./browser.js");

const [base, fixture, scripts] = process.argv.slice(2);
const seen = {};

const state = page => page.evaluate(name => document.querySelector(`#fixture-${name} .state`)?.textContent.trim(), fixture);

async function fill(page, by, why) {
  await field(page, "by");
  await page.keyboard.type(by);
  await field(page, "why");
  await page.keyboard.type(why);
}

run(() => browse(async browser => {
  const page = await browser.newPage();
  if (scripts === "off") await page.setJavaScriptEnabled(false); // Not every browser can be told.
  await page.goto(`${base}/?refresh=off`, { waitUntil: "load" });
  seen.before = await state(page);
  await link(page, `Hold ${fixture}`);
  await go(page, () => page.keyboard.press("Enter"));
  await fill(page, "day setter", "cleaning the nests");
  await go(page, () => page.keyboard.press("Enter"));
  seen.held = await state(page);
  seen.said = await page.evaluate(() => document.querySelector(".done")?.textContent);
  await page.reload({ waitUntil: "load" });
  seen.reloaded = await state(page);

  await page.goBack({ waitUntil: "load" });
  seen.back = new URL(page.url()).pathname;
  if (await page.evaluate(() => document.querySelector("#by").value === "")) await fill(page, "day setter", "cleaning the nests");
  await go(page, () => page.evaluate(() => document.querySelector("form").requestSubmit()));
  seen.sentAgain = await state(page);

  await link(page, "Release this hold");
  await go(page, () => page.keyboard.press("Enter"));
  await fill(page, "day setter", "nests are clean");
  await go(page, () => page.evaluate(() => { const button = document.querySelector("button"); button.click(); button.click(); })); // A double click.
  seen.released = await state(page);
  console.log(JSON.stringify(seen));
  return 0;
}));
