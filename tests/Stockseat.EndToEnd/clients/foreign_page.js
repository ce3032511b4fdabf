// Pages of other sites, and our own under a name that is not ours, try to hold a fixture in a browser of somebody who may.
// Usage: node foreign_page.js BASE FIXTURE. Prints one JSON object: the replies that the browser got; exit code 0, or 3 when
// there is no browser.
"use strict";
const http = require("node:http");
const { browse, run } = require("./browser.js");

const [base, fixture] = process.argv.slice(2);
const port = new URL(base).port;

const form = token => `<!doctype html><title>t</title><form method="post" action="${base}/hold/${fixture}">
  <input name="form" value="${token}"><input name="by" value="nobody"><input name="why" value="nothing"></form>
  <script>document.forms[0].submit()</script>`;

run(() => browse(async browser => {
  const replies = [];
  const token = (await (await fetch(`${base}/hold/${fixture}`)).text()).match(/name="form" value="([^"]+)"/)[1]; // The worst case: it leaked.
  const server = http.createServer((_, reply) => reply.setHeader("content-type", "text/html").end(form(token)));
  await new Promise(done => server.listen(0, "127.0.0.1", done));
  const page = await browser.newPage();
  page.on("response", reply => { if (new URL(reply.url()).port === port && !reply.url().endsWith("/favicon.ico")) replies.push({ way: page.way, status: reply.status(), method: reply.request().method() }); });
  const visit = async (way, url) => {
    page.way = way;
    await page.goto(url, { waitUntil: "networkidle0" }).catch(() => {});
  };
  const attempt = async (way, work, ...arguments_) => {
    page.way = way;
    await page.evaluate(work, ...arguments_).catch(() => {});
  };
  await visit("another port of this machine", `http://127.0.0.1:${server.address().port}/`);
  await visit("another site", `http://evil.example:${server.address().port}/`);
  await visit("our pages under another name", `http://evil.example:${port}/hold/${fixture}`);
  await visit("a page that frames ours", `http://evil.example:${server.address().port}/frame`);
  const fields = { form: token, by: "nobody", why: "nothing" };
  await page.goto("about:blank");
  await attempt("a script of no site", async (to, sent) => { await fetch(to, { method: "POST", mode: "no-cors", body: new URLSearchParams(sent) }); },
    `${base}/hold/${fixture}`, fields);
  server.close();
  console.log(JSON.stringify({ replies }));
  return 0;
}, "--host-resolver-rules=MAP evil.example 127.0.0.1"));
