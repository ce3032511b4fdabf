// A page that tries everything that a page in a browser can try to send a line to ports that are not its own.
// Usage: node try_page.js [--tls] GRPC PAGE LINE READING… with each port's number; with --tls it is a page that the browser
// lets through to certificates that it does not know. Prints one JSON object: what was tried, how many HTTP replies came
// from the gRPC port, and with which status those of our own pages; exit code 0, or 3 when there is no browser.
"use strict";
const fs = require("node:fs");
const http = require("node:http");
const os = require("node:os");
const path = require("node:path");
const { pathToFileURL } = require("node:url");
const { createRequire } = require("node:module");

const need = createRequire(path.join(__dirname, "..", "..", "node", "package.json"));
const BROWSER = process.env.CHROMIUM || "/usr/bin/chromium";
const secured = process.argv[2] === "--tls";
const [grpc, pages, ...ports] = process.argv.slice(secured ? 3 : 2).map(Number);

// Runs in the page. Every attempt ends by itself or at its time limit; none tells the page anything it may not know.
async function attempt(port, limit, s) {
  const LINES = "\r\nmeasured fixture=pinbed-1 diameter=95.00mm\r\nemptied fixture=pinbed-1\r\n86.00\r\n86.00\r\nD86.00\r\n";
  const at = `http${s}://127.0.0.1:${port}`, long = n => "a".repeat(n), coded = encodeURIComponent(LINES);
  const within = promise => Promise.race([Promise.resolve(promise).catch(() => {}), new Promise(done => setTimeout(done, limit))]);
  const ask = (where, more) => within(fetch(at + where, { mode: "no-cors", cache: "no-store", signal: AbortSignal.timeout(limit), ...more }));
  const post = (where, body, more) => ask(where, { method: "POST", body, ...more });
  const element = (name, values) => within(new Promise(done => {
    const made = Object.assign(document.createElement(name), values);
    made.onload = made.onerror = done;
    document.body.append(made);
  }));
  const form = (enctype, where, ...inputs) => within(new Promise(done => {
    const frame = document.createElement("iframe"), sent = document.createElement("form");
    frame.name = `f${Math.random()}`;
    Object.assign(sent, { method: "POST", enctype, action: at + where, target: frame.name });
    sent.append(...inputs);
    document.body.append(frame, sent);
    frame.onload = done;
    sent.submit();
  }));
  const field = (name, value) => Object.assign(document.createElement("textarea"), { name, value });
  const file = () => {
    const input = Object.assign(document.createElement("input"), { type: "file", name: "f" }), data = new DataTransfer();
    data.items.add(new File([LINES], "86.00", { type: "text/plain" }));
    input.files = data.files;
    return input;
  };
  const socket = (url, protocols) => within(new Promise(done => {
    const made = new WebSocket(url, protocols);
    made.onopen = () => { made.send(LINES); done(); };
    made.onerror = made.onclose = done;
  }));
  const relay = async () => {
    const peer = new RTCPeerConnection({ iceTransportPolicy: "relay", iceServers: ["turn", "turns"].map(s => ({ urls: `${s}:127.0.0.1:${port}?transport=tcp`, username: LINES + long(300), credential: LINES })) });
    peer.createDataChannel("c");
    await peer.setLocalDescription(await peer.createOffer());
    await within(new Promise(done => { peer.onicegatheringstatechange = () => peer.iceGatheringState === "complete" && done(); }));
    peer.close();
  };
  const direct = async () => {
    const [one, other] = [new RTCPeerConnection(), new RTCPeerConnection()];
    one.createDataChannel("c");
    await one.setLocalDescription(await one.createOffer());
    await other.setRemoteDescription(one.localDescription);
    const answer = await other.createAnswer();
    await one.setRemoteDescription({ type: "answer", sdp: answer.sdp.replace(/a=ice-ufrag:.*/, "a=ice-ufrag:9240/8600+9240") });
    await one.addIceCandidate({ candidate: `candidate:1 1 tcp 1518280447 127.0.0.1 ${port} typ host tcptype passive`, sdpMid: "0", sdpMLineIndex: 0 });
    await within(new Promise(() => {}));
    one.close();
    other.close();
  };

  const ways = {
    "get": () => ask("/"),
    "get, lines in the path": () => ask(`/${coded}`),
    "get, lines in the query": () => ask(`/?${coded}&86.00`),
    "get, bare spaces": () => ask("/measured fixture=pinbed-1 diameter=95.00mm"),
    "get, long": () => ask(`/${long(600)}`),
    "head": () => ask("/", { method: "HEAD" }),
    "post": () => post("/", LINES),
    "post, 400": () => post(`/${long(400)}`, LINES),
    "post, 600": () => post(`/${long(600)}`, LINES),
    "post, 5000": () => post(`/${long(5000)}`, LINES),
    "post, 70000": () => post(`/${long(70000)}`, LINES),
    "post, of a size of the reader": () => post(`/${long(494)}`, LINES),
    "post, many lines": () => post(`/${long(600)}`, LINES.repeat(100)),
    "post, bytes": () => post(`/${long(600)}`, new Blob([LINES], { type: "text/plain" })),
    "post, parameters": () => post(`/${long(600)}`, new URLSearchParams({ a: LINES })),
    "post, parts": () => { const parts = new FormData(); parts.append("a", LINES); return post(`/${long(600)}`, parts); },
    "post, kept alive": () => post(`/${long(600)}`, LINES, { keepalive: true }),
    "post, twice on one connection": async () => { await post("/", LINES); await post("/", LINES); },
    "post, from far": () => post("/", LINES, { referrer: `/${long(3000)}`, referrerPolicy: "unsafe-url" }),
    "put": () => ask("/", { method: "PUT", mode: "cors", body: LINES }),
    "own method and headers": () => ask("/", { method: "measured", mode: "cors", headers: { "86.00": "86.00", [long(600)]: "1" } }),
    "beacon": () => navigator.sendBeacon(`${at}/${long(600)}`, LINES),
    "form, text": () => form("text/plain", `/${long(600)}`, field("a", LINES)),
    "form, text, short": () => form("text/plain", "/", field(LINES, LINES)),
    "form, parts": () => form("multipart/form-data", `/${long(600)}`, field("a", LINES), file()),
    "form, coded": () => form("application/x-www-form-urlencoded", `/${long(600)}`, field("a", LINES)),
    "image": () => element("img", { src: `${at}/${coded}` }),
    "script": () => element("script", { src: `${at}/${long(600)}` }),
    "style": () => element("link", { rel: "stylesheet", href: `${at}/${long(600)}` }),
    "frame": () => element("iframe", { src: `${at}/${long(600)}` }),
    "video": () => element("video", { src: `${at}/${long(600)}` }),
    "connect": () => element("link", { rel: "preconnect", href: at }),
    "events": () => within(new Promise(done => { const made = new EventSource(`${at}/${long(600)}`); made.onerror = () => { made.close(); done(); }; })),
    "socket": () => socket(`ws${s}://127.0.0.1:${port}/${long(600)}`, ["86.00"]),
    "socket, ciphered": () => socket(`wss://127.0.0.1:${port}/`),
    "ciphered": () => within(fetch(`https://127.0.0.1:${port}/`, { mode: "no-cors", signal: AbortSignal.timeout(limit) })),
    "relay": relay,
    "direct": direct,
  };
  for (const way of Object.values(ways)) await within(way());
  return Object.keys(ways);
}

async function main() {
  if (!fs.existsSync(BROWSER)) {
    console.error(`no browser at ${BROWSER}`);
    return 3;
  }

  const { default: puppeteer } = await import(pathToFileURL(need.resolve("puppeteer-core")).href);
  const server = http.createServer((_, reply) => reply.setHeader("content-type", "text/html").end("<!doctype html><title>t</title><body></body>"));
  await new Promise(done => server.listen(0, "127.0.0.1", done));
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "stockseat-page-"));
  const browser = await puppeteer.launch({
    executablePath: BROWSER, headless: true, userDataDir: folder,
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
      "--allow-loopback-in-peer-connection", ...(secured ? ["--ignore-certificate-errors"] : [])],
  });
  const replies = {}, statuses = new Set();
  let tried = [];
  try {
    const page = await browser.newPage();
    page.on("response", reply => { const port = new URL(reply.url()).port; replies[port] = (replies[port] ?? 0) + 1; if (port === String(pages)) statuses.add(reply.status()); });
    await page.goto(`http://127.0.0.1:${server.address().port}/`);
    await page.evaluate(() => { for (let i = 0; i < 3; i++) document.cookie = `c${i}=86.00 ${"a".repeat(2000)}`; }); // A host's cookies go to all of its ports.
    const all = await Promise.all([grpc, pages, ...ports].map(port => page.evaluate(attempt, port, 1000, secured ? "s" : "")));
    tried = all[0];
    for (const port of ports) {
      const other = await browser.newPage();
      await other.goto(`http${secured ? "s" : ""}://127.0.0.1:${port}/${"a".repeat(600)}`, { timeout: 3000 }).catch(() => {});
      await other.close();
    }
  } finally {
    await browser.close();
    server.close();
    fs.rmSync(folder, { recursive: true, force: true });
  }

  console.log(JSON.stringify({ tried, grpc: replies[grpc] ?? 0, statuses: [...statuses], others: ports.reduce((sum, port) => sum + (replies[port] ?? 0), 0) }));
  return 0;
}

main().then(code => { process.exitCode = code; }, failure => { console.error(failure); process.exitCode = 2; });
