// What clients in a browser share: where it is, its packages, and the rules by which pages are judged.
"use strict";
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { pathToFileURL } = require("node:url");
const { createRequire } = require("node:module");

const need = createRequire(path.join(__dirname, "..", "..", "node", "package.json"));
const NO_BROWSER = 3;

// Chromium, or Firefox where BROWSER says so.
const isFirefox = process.env.BROWSER === "firefox";
const BROWSER = isFirefox ? process.env.FIREFOX || "/usr/bin/firefox-esr" : process.env.CHROMIUM || "/usr/bin/chromium";

// html-validate's findings in the text of a page.
async function validate(text, find) {
  const { HtmlValidate, StaticConfigLoader } = need("html-validate");
  const report = await new HtmlValidate(new StaticConfigLoader({
    root: true,
    extends: ["html-validate:recommended", "html-validate:standard", "html-validate:a11y"],
    // Our pages are also well-formed XML, which requires <meta/>.
    rules: { "void-style": ["error", { style: "selfclosing" }] },
  })).validateString(text);
  for (const result of report.results) {
    for (const m of result.messages) find("html-validate", m.ruleId, `${m.line}:${m.column} ${m.message}`);
  }
}

// axe's findings in an open page, by all of its rules.
async function axe(page, find) {
  await page.evaluate(need("axe-core").source);
  const result = await page.evaluate(() => {
    const all = window.axe.getRules().map(r => r.ruleId);
    return window.axe.run(document, { runOnly: { type: "rule", values: all }, resultTypes: ["violations"] });
  });
  for (const v of result.violations) {
    for (const node of v.nodes) find("axe", v.id, `${node.target.join(" ")}: ${node.failureSummary.replaceAll("\n", " ")}`);
  }
}

// Runs work in a browser of its own; the exit code says when there is none.
async function browse(work, ...more) {
  if (!fs.existsSync(BROWSER)) {
    console.error(`no browser at ${BROWSER}`);
    return NO_BROWSER;
  }

  const { default: puppeteer } = await import(pathToFileURL(need.resolve("puppeteer-core")).href);
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "stockseat-page-"));
  const browser = await puppeteer.launch(isFirefox ? {
    browser: "firefox", executablePath: BROWSER, headless: true, userDataDir: folder, protocolTimeout: 60_000,
    extraPrefsFirefox: { "network.proxy.type": 0 },
  } : {
    executablePath: BROWSER, headless: true, userDataDir: folder, protocolTimeout: 60_000,
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
      ...more],
  });
  try {
    return await work(browser);
  } finally {
    await browser.close();
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

// Presses Tab until something is focused for which it holds.
async function reach(page, what, ...arguments_) {
  for (let i = 0; i < 80; i++) {
    await page.keyboard.press("Tab");
    if (await page.evaluate(what, ...arguments_)) return;
  }

  throw new Error(`can't be reached by Tab: ${what} ${arguments_}`);
}

const link = (page, words) => reach(page, words => document.activeElement?.textContent.trim() === words, words);
const field = (page, name) => reach(page, name => document.activeElement?.name === name, name);
const go = async (page, act) => { await Promise.all([page.waitForNavigation({ waitUntil: "load" }), act()]); };

const run = main => main().then(code => { process.exitCode = code; }, failure => { console.error(failure); process.exitCode = 2; });

module.exports = { validate, axe, browse, reach, link, field, go, run, isFirefox };
