// Checks a page in a file as a strict reader would: html-validate (recommended, standards and accessibility), axe (all rules) in a
// browser, and that the page runs no script and requests nothing. Usage: node check_page.js FILE. Prints the findings, one JSON
// object a line; exit code 0: no findings, 1: some findings, 3: there is no browser.
"use strict";
const fs = require("node:fs");
const path = require("node:path");
const { pathToFileURL } = require("node:url");
const { validate, axe, browse, run } = require("./browser.js");

const found = [];
const find = (by, rule, text) => found.push({ by, rule, text });

async function look(browser, file) {
  const url = pathToFileURL(file).href;
  const page = await browser.newPage();
  const session = await page.createCDPSession();
  session.on("Debugger.scriptParsed", s => { if (!s.url.startsWith("pptr:")) find("browser", "no-script", `a script ran, from ${s.url || "no file"}`); });
  await session.send("Debugger.enable");
  page.on("request", request => { if (request.url() !== url) find("browser", "no-request", `requested ${request.url().slice(0, 200)}`); });
  page.on("console", message => find("browser", "console", message.text()));
  page.on("dialog", async dialog => { find("browser", "no-script", `a dialog: ${dialog.message()}`); await dialog.dismiss(); });
  await page.setViewport({ width: 800, height: 1280 });
  await page.goto(url, { waitUntil: "load" });
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  if (wide > 0) find("browser", "fits", `the page is ${wide} px wider than a window of 800 px`);
  await session.detach();
  await axe(page, find);
}

run(async () => {
  const file = path.resolve(process.argv[2]);
  const none = await browse(async browser => {
    await validate(fs.readFileSync(file, "utf8"), find);
    await look(browser, file);
    return 0;
  });
  for (const finding of found) console.log(JSON.stringify(finding));
  return none || (found.length > 0 ? 1 : 0);
});
