// Sends all its requests in one write, closes its sending side, and reads the replies to the end:
// node line_client.js HOST PORT REQUEST… Prints the replies, byte for byte.
"use strict";
const net = require("node:net");

const [host, port, ...requests] = process.argv.slice(2);
const socket = net.connect({ host, port: Number(port), allowHalfOpen: true });
socket.setTimeout(30_000, () => socket.destroy(new Error("no reply")));
socket.on("error", (failure) => {
  console.error(failure);
  process.exitCode = 1;
});
socket.on("connect", () => socket.end(requests.map((r) => `${r}\n`).join("")));
socket.on("data", (replies) => process.stdout.write(replies));
