// Checks pages of a running service: html-validate, axe, and in a browser, with scripts on and off, at three widths and with
// text of twice the size: they fit, text has at least 20 px, whatever is pressed at least 48 px, nothing comes from elsewhere,
// nothing is said on the console (a breach of the policy would be), no script runs but our own. On paper they fit too.
// In Firefox (which has a font of its own, as data) only how they look with scripts on: the rest needs ways into the browser that it does not offer.
// Usage: node check_pages.js BASE PATH…; with PICTURES=FOLDER it leaves pictures. Prints the findings, one JSON object a line;
// exit code 0: no findings, 1: some findings, 3: there is no browser.
"use strict";
const path = require("node:path");
const { validate, axe, browse, run, isFirefox } = require("./browser.js");

const [base, ...paths] = process.argv.slice(2);
const WIDTHS = [360, 800, 1280], PAPER = 718; // A4 without its margins, in px.
const found = [];

// Runs in the page. A report is a sheet of paper to read closely, with a style of its own: it only has to fit, from 800 px
// on. The words inside a drawing grow with it; the page says the same in words of its own.
const isSheet = where => where.includes("/report");
function small() {
  if (document.querySelector("link[href^='/files/report-']")) return [];
  const shown = e => { const box = e.getBoundingClientRect(); return box.width > 0 && box.height > 0; };
  const texts = [...document.body.querySelectorAll("*")].filter(e => shown(e) && !e.closest("svg") && [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim() !== ""));
  const targets = [...document.querySelectorAll("a, button, input:not([type=hidden]), select, textarea, summary")].filter(shown);
  return [
    ...texts.filter(e => parseFloat(getComputedStyle(e).fontSize) < 19.99).map(e => `${e.tagName} "${e.textContent.slice(0, 40)}" has ${getComputedStyle(e).fontSize}`),
    ...targets.filter(e => { const b = e.getBoundingClientRect(); return b.width < 47.9 || b.height < 47.9; })
      .map(e => { const b = e.getBoundingClientRect(); return `${e.tagName} "${(e.textContent || e.name).slice(0, 40)}" is ${b.width} x ${b.height}`; }),
  ];
}

const wider = page => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

async function look(browser, where, scripts) {
  const page = await browser.newPage(), state = `${where}, scripts ${scripts ? "on" : "off"}`;
  const find = (by, rule, text) => found.push({ by, rule, at: state, text });
  if (!isFirefox) await page.setJavaScriptEnabled(scripts);
  page.on("request", request => { if (!request.url().startsWith(base + "/") && !(isFirefox && request.url().startsWith("data:"))) find("browser", "no-request", `requested ${request.url().slice(0, 200)}`); });
  page.on("console", message => { if (!/status of 40[0349]/.test(message.text())) find("browser", "console", message.text()); });
  page.on("pageerror", error => find("browser", "page-error", `${error}`));
  page.on("dialog", async dialog => { find("browser", "no-script", `a dialog: ${dialog.message()}`); await dialog.dismiss(); });
  for (const width of isSheet(where) ? WIDTHS.slice(1) : WIDTHS) {
    await page.setViewport({ width, height: width === 800 ? 1280 : 800 });
    await page.goto(base + where, { waitUntil: "load" });
    if (await wider(page) > 0) find("browser", "fits", `wider than a window of ${width} px by ${await wider(page)} px`);
    for (const text of await page.evaluate(small)) find("browser", "size", `at ${width} px: ${text}`);
    if (process.env.PICTURES) {
      const name = `${where.replaceAll(/[^a-z0-9]+/gi, "_")}-${width}-${scripts ? "on" : "off"}.png`;
      await page.screenshot({ path: path.join(process.env.PICTURES, name), fullPage: true });
    }
  }

  if (await page.evaluate(() => document.title.includes("mine"))) find("browser", "no-script", "a text that was sent ran as a script");
  if (await page.evaluate(() => document.cookie) !== "") find("browser", "no-cookie", "there is a cookie");
  if (!isFirefox) {
    await page.setJavaScriptEnabled(true); // For axe only: the page stays as it was loaded.
    await axe(page, find);
    await page.setJavaScriptEnabled(scripts);
  }

  await page.evaluate(() => { document.documentElement.style.fontSize = "40px"; });
  for (const width of isSheet(where) ? WIDTHS.slice(1) : WIDTHS) {
    await page.setViewport({ width, height: 1280 });
    if (await wider(page) > 0) find("browser", "fits", `with text of twice the size wider than a window of ${width} px by ${await wider(page)} px`);
  }

  if (isFirefox) {
    await page.close();
    return;
  }

  await page.goto(base + where, { waitUntil: "load" });
  await page.emulateMediaType("print");
  await page.setViewport({ width: PAPER, height: 1000 });
  if (await wider(page) > 0) find("browser", "fits", `wider than the paper by ${await wider(page)} px`);
  if (process.env.PICTURES) {
    await page.screenshot({ path: path.join(process.env.PICTURES, `${where.replaceAll(/[^a-z0-9]+/gi, "_")}-print.png`), fullPage: true });
  }

  await page.close();
}

run(async () => {
  const none = await browse(async browser => {
    for (const where of paths) {
      await validate(await (await fetch(base + where)).text(), (by, rule, text) => found.push({ by, rule, at: where, text }));
      for (const scripts of isFirefox ? [true] : [true, false]) await look(browser, where, scripts);
    }

    return 0;
  });
  for (const finding of found) console.log(JSON.stringify(finding));
  return none || (found.length > 0 ? 1 : 0);
});
