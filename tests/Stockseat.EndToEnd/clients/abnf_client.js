// Makes lines from the ABNF of proto/README.md with a general ABNF library, and mutations of them; asks the service,
// and compares: a line of the grammar is never refused as malformed, and any other line always is.
"use strict";
const fs = require("fs");
const net = require("net");
const path = require("path");
const { apgApi, apgLib } = require(path.join(__dirname, "../../node/node_modules/apg-js"));

const [readme, port, count, seed] = [process.argv[2], Number(process.argv[3]), Number(process.argv[4]), Number(process.argv[5])];
const MALFORMED = new Set(["verb-unknown", "key-unknown", "key-doubled", "key-missing", "value-malformed", "request-malformed", "request-too-long",
  "diameter-missing", "diameter-malformed", "unit-missing", "unit-unknown", "purpose-unknown"]);
const LONGEST = 512;

function load() {
  const block = fs.readFileSync(readme, "utf8").match(/^```abnf tested by AbnfTests\n([^]*?)^```/m)[1];
  const core = "SP = %x20\nDQUOTE = %x22\nDIGIT = %x30-39\nALPHA = %x41-5A / %x61-7A\n";
  const api = new apgApi((block + core).replace(/\n/g, "\r\n"));
  api.generate();
  if (api.errors.length > 0) throw new Error(api.errorsToAscii());
  return { rules: api.rules, grammar: api.toObject() };
}

// mulberry32: small, and the same numbers everywhere for the same seed.
function random(state) {
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const { rules, grammar } = load();
const ids = apgLib.ids;
const next = random(seed);
const below = n => Math.floor(next() * n);
const parser = new apgLib.parser();
const isIn = (rule, text) => parser.parse(grammar, rule, apgLib.utils.stringToChars(text)).success;

function make(rule, at) {
  const op = rule.opcodes[at];
  switch (op.type) {
    case ids.ALT: return make(rule, op.children[below(op.children.length)]);
    case ids.CAT: return op.children.map(c => make(rule, c)).join("");
    case ids.REP: {
      const times = Math.min(op.max, op.min + below(next() < 0.2 ? 9 : 4));
      return Array.from({ length: times }, () => make(rule, at + 1)).join("");
    }
    case ids.RNM: return make(rules[op.index], 0);
    case ids.TRG: return String.fromCharCode(op.min + below(op.max - op.min + 1));
    case ids.TBS: case ids.TLS: return String.fromCharCode(...op.string);
    default: throw new Error(`opcode ${op.type}`);
  }
}

const ruleOf = name => rules.find(r => r.lower === name);
const keysOf = line => [...line.replace(/"[^"]*"/g, "").matchAll(/(?<= )[a-z]+(?==)/g)].map(m => m[0]);

// Rules that the grammar states in its comments only.
function isWhole(line) {
  const keys = keysOf(line), verb = line.trim().split(" ")[0], has = k => keys.includes(k);
  const needs = { measured: ["fixture"], locate: ["fixture"], confirm: ["serial"], emptied: ["fixture"], loaded: ["fixture"], next: ["fixture"] }[verb] ?? [];
  if (has("after") && !/ trial="?yes"?( |$)/.test(line) || has("nests") && has("first")) return false;
  return new Set(keys).size === keys.length && needs.every(has) && has("nominal") === has("within") && (verb !== "measured" || has("diameter") !== has("diameters"));
}

function mutate(line) {
  const at = below(line.length), other = String.fromCharCode(0x20 + below(95));
  switch (below(6)) {
    case 0: return line.slice(0, at) + line.slice(at + 1);
    case 1: return line.slice(0, at) + other + line.slice(at);
    case 2: return line.slice(0, at) + other + line.slice(at + 1);
    case 3: return line.slice(0, at) + line.slice(at, at + 8) + line.slice(at);
    case 4: return line.slice(0, at) + (line[at] === line[at].toUpperCase() ? line[at].toLowerCase() : line[at].toUpperCase()) + line.slice(at + 1);
    default: return line.slice(0, at);
  }
}

function lines() {
  const all = [];
  while (all.length < count) {
    const line = make(ruleOf("request"), 0);
    if (line.length > LONGEST || !isWhole(line)) continue;
    if (!isIn("request", line)) throw new Error(`made from the grammar, but not part of it: ${line}`);
    all.push(line, mutate(line));
  }
  return all.filter(l => l.length <= LONGEST && l.trim().split(" ")[0] !== "bye" && !/^(GET|POST|PUT|HEAD|DELETE|OPTIONS|PATCH|CONNECT|TRACE|PRI) |^[-!#$%&'*+.^_`|~0-9A-Za-z]+:/.test(l));
}

function judge(line, reply, counts, wrong) {
  const reason = /^refused .*?reason=([a-z-]+)/.exec(reply)?.[1];
  const expected = isIn("request", line) && isWhole(line);
  // That a length is above 0 and at most 10 m is not in the grammar either; of several faults the first is reported.
  const refused = MALFORMED.has(reason) && !(expected && / is not above 0 and up to 10 m/.test(reply));
  const name = `${expected ? "in" : "out"} ${refused ? "refused" : "accepted"}`;
  counts[name] = (counts[name] ?? 0) + 1;
  if (expected) {
    const verb = line.trim().split(" ")[0];
    counts[verb] = (counts[verb] ?? 0) + 1;
  }
  if (expected === refused || !isIn("reply", reply)) wrong.push({ line, reply });
}

// The first line of a connection has to be a request.
const all = ["hello", ...lines()], counts = {}, wrong = [];
let got = "", at = 0;
const socket = net.connect(port, "127.0.0.1", () => socket.end(all.map(l => l + "\n").join("")));
socket.setEncoding("latin1");
socket.on("data", text => {
  const parts = (got + text).split("\n");
  got = parts.pop();
  for (const reply of parts) judge(all[at++], reply, counts, wrong);
});
socket.on("close", () => console.log(JSON.stringify({ sent: all.length, replied: at, counts, wrong: wrong.slice(0, 10), wrongs: wrong.length })));
