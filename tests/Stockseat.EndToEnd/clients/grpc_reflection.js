// Knows none of the service's files: asks by reflection what the service offers, and calls that.
// node grpc_reflection.js v1|v1alpha HOST:PORT. Prints one JSON object.
"use strict";
const path = require("node:path");
const { TIMEOUT_MS, call, connect, loader, main, options, refusal } = require("./channel.js");

const [version, address] = process.argv.slice(2);
const REFLECTION = "grpc.reflection.v1.ServerReflection";

const reflection = loader.loadSync(path.join(__dirname, "reflection.proto"), options);
const info = reflection[REFLECTION].ServerReflectionInfo;
info.path = info.path.replace(".v1.", `.${version}.`);

/** One question, on a stream of its own. */
function ask(server, question) {
  return new Promise((resolve, reject) => {
    const stream = server.ServerReflectionInfo({ deadline: Date.now() + TIMEOUT_MS });
    let reply;
    stream.on("data", (data) => { reply = data; });
    stream.on("error", reject);
    stream.on("end", () => resolve(reply));
    stream.write(question);
    stream.end();
  });
}

/** The definition of a symbol, with everything that its file needs. */
async function resolve(server, symbol) {
  const { file_descriptor_response: files, error_response: error } = await ask(server, { file_containing_symbol: symbol });
  if (!files) {
    throw new Error(`${symbol}: ${error?.error_message}`);
  }
  const set = reflection["grpc.reflection.v1.FileDescriptorResponse"].serialize(files);
  return loader.loadFileDescriptorSetFromBuffer(set, options);
}

main(async () => {
  const server = connect(reflection, REFLECTION, address);
  const clients = [server];
  try {
    const { list_services_response: listed } = await ask(server, { list_services: "*" });
    const services = listed.service.map((s) => s.name).sort();
    const methods = {};
    for (const service of services.filter((s) => s.startsWith("stockseat."))) {
      methods[service] = Object.keys((await resolve(server, service))[service]).sort();
    }
    const unknown = await ask(server, { file_containing_symbol: "stockseat.v1.NoService" });
    for (const service of ["stockseat.v1.LookupService", "grpc.health.v1.Health"]) {
      clients.push(connect(await resolve(server, service), service, address));
    }
    const [, lookup, health] = clients;
    return {
      services, methods, unknown: unknown.error_response.error_code,
      answer: await call(lookup, "Locate", { fixture: "pinbed-1", diameter_metres: 0.0924, tag: "n2" }),
      refusal: await refusal(lookup, "Locate", { fixture: "pinbed-9", diameter_metres: 0.0924 }),
      health: (await call(health, "Check", { service: "stockseat.v1.LookupService" })).status,
      whole: (await call(health, "Check", {})).status,
    };
  } finally {
    clients.forEach((c) => c.close());
  }
});
