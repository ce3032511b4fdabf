// What both gRPC clients share: the packages, how messages are read, and calls as promises.
"use strict";
const { readFileSync } = require("node:fs");
const path = require("node:path");
const { createRequire } = require("node:module");

const installed = createRequire(path.join(__dirname, "..", "..", "node", "package.json"));
const grpc = installed("@grpc/grpc-js");
const loader = installed("@grpc/proto-loader");

const TIMEOUT_MS = 30_000;
const options = { keepCase: true, longs: Number, enums: String, defaults: true, oneofs: true };
const status = loader.loadSync(path.join(__dirname, "status.proto"), options);

/** A client of one service of a loaded definition; with files in PEM over TLS, with a certificate of its own. */
function connect(definition, service, address, ...files) {
  const Client = grpc.makeGenericClientConstructor(definition[service], service);
  const [authority, certificate, key] = files.map((name) => readFileSync(name));
  return new Client(address, authority ? grpc.credentials.createSsl(authority, key, certificate) : grpc.credentials.createInsecure());
}

/** The response to one call. */
function call(client, method, request) {
  return new Promise((resolve, reject) =>
    client[method](request, { deadline: Date.now() + TIMEOUT_MS }, (failure, response) => (failure ? reject(failure) : resolve(response))));
}

/** The status and ErrorInfo that a refused call carries. */
async function refusal(client, method, request) {
  const failure = await call(client, method, request).then(() => { throw new Error(`${method} was answered, but a refusal was expected`); }, (f) => f);
  const [details] = failure.metadata?.get("grpc-status-details-bin") ?? [];
  if (!details) {
    throw failure;
  }
  const rich = status["clients.Status"].deserialize(details);
  const info = status["clients.ErrorInfo"].deserialize(rich.details[0].value);
  return { status: grpc.status[failure.code], code: rich.code, type: rich.details[0].type_url, text: rich.message, ...info };
}

/** Prints a client's results; an error is always printed and ends with a failure. */
function main(job) {
  job().then((said) => console.log(JSON.stringify(said)), (failure) => {
    console.error(failure);
    process.exitCode = 1;
  });
}

module.exports = { TIMEOUT_MS, call, connect, loader, main, options, refusal };
