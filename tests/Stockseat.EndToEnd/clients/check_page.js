// Checks a page as a strict reader would: html-validate (recommended, standards and accessibility), axe (all rules) in a
// browser, and that the page runs no script and requests nothing. Usage: node check_page.js FILE. Prints the findings, one JSON
// object a line; exit code 0: no findings, 1: some findings, 3: there is no browser.
"use strict";
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { pathToFileURL } = require("node:url");
const { createRequire } = require("node:module");

const need = createRequire(path.join(__dirname, "..", "..", "node", "package.json"));
const BROWSER = process.env.CHROMIUM || "/usr/bin/chromium";
const found = [];
const find = (by, rule, text) => found.push({ by, rule, text });

async function validate(file) {
  const { HtmlValidate, StaticConfigLoader } = need("html-validate");
  const report = await new HtmlValidate(new StaticConfigLoader({
    root: true,
    extends: ["html-validate:recommended", "html-validate:standard", "html-validate:a11y"],
    // Our pages are also well-formed XML, which requires <meta/>.
    rules: { "void-style": ["error", { style: "selfclosing" }] },
  })).validateFile(file);
  for (const result of report.results) {
    for (const m of result.messages) find("html-validate", m.ruleId, `${m.line}:${m.column} ${m.message}`);
  }
}

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
  await page.evaluate(need("axe-core").source);
  const result = await page.evaluate(() => {
    const all = axe.getRules().map(r => r.ruleId);
    return axe.run(document, { runOnly: { type: "rule", values: all }, resultTypes: ["violations"] });
  });
  for (const v of result.violations) {
    for (const node of v.nodes) find("axe", v.id, `${node.target.join(" ")}: ${node.failureSummary.replaceAll("\n", " ")}`);
  }
}

async function main() {
  const file = path.resolve(process.argv[2]);
  if (!fs.existsSync(BROWSER)) {
    console.error(`no browser at ${BROWSER}`);
    return 3;
  }

  await validate(file);
  const { default: puppeteer } = await import(pathToFileURL(need.resolve("puppeteer-core")).href);
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "stockseat-page-"));
  const browser = await puppeteer.launch({
    executablePath: BROWSER, headless: true, userDataDir: folder,
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
  try {
    await look(browser, file);
  } finally {
    await browser.close();
    fs.rmSync(folder, { recursive: true, force: true });
  }

  for (const finding of found) console.log(JSON.stringify(finding));
  return found.length > 0 ? 1 : 0;
}

main().then(code => { process.exitCode = code; }, failure => { console.error(failure); process.exitCode = 2; });
