// Measures blanks as a person does at a tablet with an inch caliper: chooses the fixture and the unit, types readings with a
// point or a comma, looks at what they mean, sends. Then does what people do by mistake: sends twice, goes Back, loads again.
// One blank is of another lot, which the page says before anything is sent.
// Usage: node measure_blank.js BASE FIXTURE LOT on|off, where on or off says whether scripts run. Prints one JSON object: what
// was seen after each step; exit code 0, or 3 when there is no browser.
"use strict";
const { browse, run } = require("./browser.js");

const [base, fixture, lot, scripts] = process.argv.slice(2);
const seen = {};

const text = (page, selector) => page.evaluate(what => document.querySelector(what)?.textContent.replace(/\s+/g, " ").trim() ?? null, selector);
const cells = (page, table) => page.evaluate(n => [...document.querySelectorAll("table")[n].querySelectorAll("tbody th, tbody td")].map(e => e.textContent.trim()).join(" "), table);
const go = async (page, act) => { await Promise.all([page.waitForNavigation({ waitUntil: "load" }), act()]); };
const press = (page, words) => go(page, () => page.evaluate(what => {
  [...document.querySelectorAll("main a, main button")].find(e => e.textContent.trim() === what).click();
}, words));

async function type(page, readings, unit, of) {
  await page.click(`input[name=unit][value=${unit}]`);
  for (const [i, reading] of readings.entries()) await page.type(`#reading${i + 1}`, reading);
  if (of) await page.type("#lot", of);
  await press(page, "Check before sending");
}

run(() => browse(async browser => {
  const page = await browser.newPage();
  if (scripts === "off") await page.setJavaScriptEnabled(false); // Not every browser can be told.
  await page.goto(`${base}/measure`, { waitUntil: "load" });
  await press(page, `Measure ${fixture}`);
  await page.type("#reading1", "3.638"); // No unit is chosen: the browser itself does not send it.
  await page.evaluate(() => document.querySelector("main button").click());
  seen.withoutUnit = new URL(page.url()).pathname;
  await page.evaluate(() => { document.querySelector("#reading1").value = ""; });

  await type(page, ["3.740"], "in", lot);
  seen.otherLot = await text(page, ".verdict");
  await press(page, "Change it");
  seen.kept = await page.evaluate(() => document.querySelector("#reading1").value);
  await page.evaluate(() => { document.querySelector("#reading1").value = ""; });
  await page.type("#reading1", "3,638");
  await page.type("#reading2", "3.6390");
  await press(page, "Check before sending");
  seen.verdict = await text(page, ".verdict");
  seen.understood = await cells(page, 0);
  seen.shift = await cells(page, 1);
  seen.drawn = await page.evaluate(() => document.querySelectorAll("figure svg circle").length > 0);
  await go(page, () => page.evaluate(() => { const send = document.querySelector("form[method=post] button"); send.click(); send.click(); })); // A double click.
  seen.sent = await text(page, ".verdict");
  await page.reload({ waitUntil: "load" });
  seen.reloaded = await text(page, ".verdict");
  await page.goBack({ waitUntil: "load" });
  seen.back = await text(page, "h1");
  await page.goForward({ waitUntil: "load" });
  seen.forward = await text(page, ".verdict");
  console.log(JSON.stringify(seen));
  return 0;
}));
