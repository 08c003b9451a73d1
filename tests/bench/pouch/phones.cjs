// node phones.cjs <server> <folder> <entries.json> <options as JSON>: entries sent by one LevelDB phone and fetched by a second.
// Prints {push, pull} in ms.
const { readFileSync } = require("node:fs");
const { join } = require("node:path");
const PouchDB = require("pouchdb");

const [server, folder, file, options] = process.argv.slice(2);

async function main() {
  const how = JSON.parse(options);
  const entries = JSON.parse(readFileSync(file, "utf8"));
  const [writer, reader] = [new PouchDB(join(folder, "writer")), new PouchDB(join(folder, "reader"))];
  await writer.bulkDocs(entries.map(({ id, body }) => ({ _id: id, t: "entry", body })));
  const push = await timed(() => writer.replicate.to(server, { ...how }));
  const pull = await timed(() => reader.replicate.from(server, { ...how }));
  const { doc_count } = await reader.info();
  if (doc_count !== entries.length) throw new Error(`the second phone holds ${doc_count}`);
  console.log(JSON.stringify({ push, pull }));
}

async function timed(work) {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

main().then(() => process.exit(0));
