// Works at the pages as a person does who has a keyboard only: describes a lot, says that an answer was carried out,
// adopts a revision, writes a note. Each form is sent with Enter.
// Usage: node work_by_keyboard.js BASE FIXTURE REVISION ANSWER on|off, where on or off says whether scripts run; the revision
// waits and the answer was confirmed. Prints one JSON object: what was seen after each step; exit code 0, or 3 when there is
// no browser.
"use strict";
const { browse, link, field, reach, go, run } = require("./browser.js");

const [base, fixture, revision, answer, scripts] = process.argv.slice(2);
const seen = {};

const said = (page, selector) => page.evaluate(what => document.querySelector(what)?.textContent.replace(/\s+/g, " ").trim() ?? null, selector);
const enter = page => go(page, () => page.keyboard.press("Enter"));

async function type(page, fields) {
  for (const [name, text] of Object.entries(fields)) {
    await field(page, name);
    await page.keyboard.type(text);
  }
}

async function press(page, words) {
  await link(page, words);
  await enter(page);
}

run(() => browse(async browser => {
  const page = await browser.newPage();
  if (scripts === "off") await page.setJavaScriptEnabled(false); // Not every browser can be told.

  await page.goto(`${base}/lots`, { waitUntil: "load" });
  await type(page, { lot: "B2077" });
  await reach(page, () => document.activeElement?.name === "unit");
  await page.keyboard.press(" "); // The first unit, mm.
  await type(page, { nominal: "92,5", tolerance: "h11" });
  await enter(page);
  seen.lot = await said(page, ".verdict");
  await press(page, "Send");
  seen.described = await said(page, ".done");

  await page.goto(`${base}/entry/${answer}`, { waitUntil: "load" });
  await press(page, "Say that it was carried out");
  await type(page, { by: "day setter" });
  await enter(page);
  seen.done = new URL(page.url()).pathname;

  await page.goto(`${base}/fixture/${fixture}`, { waitUntil: "load" });
  await press(page, `Adopt revision ${revision}`);
  await type(page, { by: "day setter", why: "bed was moved" });
  await enter(page);
  seen.adopted = new URL(page.url()).pathname;

  await page.goto(`${base}/note?about=${answer}`, { waitUntil: "load" });
  await type(page, { text: "gripper touched pin 2", by: "fitter" });
  await press(page, "Write this note");
  seen.noted = await said(page, "main");
  console.log(JSON.stringify(seen));
  return 0;
}));
