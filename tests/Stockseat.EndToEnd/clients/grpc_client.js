// Does the job over gRPC with definitions read from proto/ at run time: node grpc_client.js PROTO HOST:PORT [AUTHORITY CERTIFICATE KEY].
// Prints one JSON object.
"use strict";
const { createHash } = require("node:crypto");
const { call, connect, loader, main, options, refusal } = require("./channel.js");

const [proto, address, ...pem] = process.argv.slice(2);

/** All entries, read in pages of two, each chained by its hash to the one before. */
async function walk(ledger) {
  const entries = [];
  let token = "", pages = 0, hash = Buffer.alloc(32), whole = true;
  do {
    const page = await call(ledger, "ListEntries", { page_size: 2, page_token: token });
    for (const entry of page.entries) {
      hash = createHash("sha256").update(Buffer.from([1])).update(hash).update(entry.body, "utf8").digest();
      whole &&= hash.equals(entry.hash) && entry.serial === entries.length + 1;
      entries.push({ serial: entry.serial, kind: entry.kind });
    }
    token = page.next_page_token;
    pages += 1;
  } while (token !== "" && pages < 100);
  return { entries, pages, whole, head: hash.toString("hex") };
}

main(async () => {
  const files = ["fixture", "gauge", "ledger", "lookup"].map((name) => `stockseat/v1/${name}.proto`);
  const definition = loader.loadSync(files, { ...options, includeDirs: [proto] });
  const [lookup, gauge, ledger] = ["LookupService", "GaugeService", "LedgerService"].map((s) => connect(definition, `stockseat.v1.${s}`, address, ...pem));
  try {
    const record = { fixture: "pinbed-1", readings_metres: [0.0924], lot: "A1077", unit: "mm", request_id: "record-1" };
    const recorded = await call(gauge, "Record", record);
    const again = await call(gauge, "Record", record);
    const answer = await call(lookup, "Locate", { fixture: "pinbed-1", lot: "A1077", tag: "n1" });
    const confirmed = await call(lookup, "Confirm", { serial: answer.serial, read_back: { bx: "-0.004731", by: "0.006308", bz: "0.002300", y: "-0.198692" } });
    const differs = await refusal(lookup, "Confirm", { serial: answer.serial, read_back: { by: "0.006309" } });
    const below = await refusal(lookup, "Locate", { fixture: "pinbed-1", diameter_metres: 0.04 });
    const emptied = await call(gauge, "Emptied", { fixture: "pinbed-1" });
    const missing = await refusal(lookup, "Locate", { fixture: "pinbed-1" });
    return {
      recorded: recorded.serial, again: again.serial, answer, confirms: confirmed.confirms, emptied: emptied.serial,
      refusals: { differs, below, missing }, walked: await walk(ledger), verified: await call(ledger, "Verify", {}),
    };
  } finally {
    [lookup, gauge, ledger].forEach((c) => c.close());
  }
});
