// node server.cjs <folder>: PouchDB's express server on LevelDB in that folder, and a page with its browser build.
// Prints its port when it listens.
const { mkdirSync, readFileSync } = require("node:fs");
const { join } = require("node:path");
const express = require("express");
const PouchDB = require("pouchdb");

const folder = process.argv[2];
process.chdir(folder);
mkdirSync(join(folder, "books"), { recursive: true });
const Kept = PouchDB.defaults({ prefix: join(folder, "books/") });
const script = readFileSync(require.resolve("pouchdb/dist/pouchdb.min.js"));
const app = express();
app.get("/", (_, answer) => answer.type("html").send("<!doctype html><title>Bench</title><script src=/pouchdb.js></script>"));
app.get("/pouchdb.js", (_, answer) => answer.type("js").send(script));
const options = { mode: "minimumForPouchDB", inMemoryConfig: true, logPath: join(folder, "log.txt") };
app.use("/db", require("express-pouchdb")(Kept, options));
const server = app.listen(0, "127.0.0.1", () => console.log(server.address().port));
