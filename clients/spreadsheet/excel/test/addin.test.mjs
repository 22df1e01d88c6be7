// The built add-in with the published mock of Office, against a service that answers as told, and the real one where its address is given.
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { after, before, beforeEach, test } from "node:test";
import { fileURLToPath } from "node:url";
import vm from "node:vm";
import manifests from "office-addin-manifest";
import mock from "office-addin-mock";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const read = (name) => readFileSync(join(root, "dist", name), "utf8");
const patience = 30_000;

let server, requests, respond, functions, actions, painted;

before(async () => {
  server = createServer((request, response) => {
    let body = "";
    request.on("data", (piece) => (body += piece));
    request.on("end", () => {
      const sent = { path: request.url, body: JSON.parse(body) };
      requests.push(sent);
      respond(sent, response);
    });
  });
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
});
after(() => server.close());

const answering = (answerOf) => ({ body }, response) =>
  response.end(JSON.stringify({ answers: body.items.map((item) => ({ key: item.key, ...answerOf(item) })) }));

/** A fresh runtime, as Excel starts it. */
function start(origin = `http://127.0.0.1:${server.address().port}`, excel = {}) {
  functions = {};
  actions = {};
  class CustomError extends Error { constructor(code, message) { super(message); this.code = code; } }
  const sandbox = {
    fetch, setTimeout, clearTimeout, AbortController, console, location: { origin },
    CustomFunctions: { associate: (all) => Object.assign(functions, all), Error: CustomError, ErrorCode: { invalidValue: "#VALUE!" } },
    Office: { actions: { associate: (name, action) => (actions[name] = action) } },
    Excel: excel,
  };
  sandbox.globalThis = sandbox;
  vm.runInNewContext(read("addin.js"), sandbox);
}

beforeEach(() => {
  requests = [];
  respond = answering((item) => ({ predict: { color: { hex: `#${item.predict.recipe.text.length.toString(16).padStart(6, "0")}`, lab: { l: 1, a: 2, b: 3 } }, expectedError: { boundDeltaE00: 4 } } }));
  start();
});

/** The values that a cell shows, until `enough`. */
const shows = (name, parameters, enough = (values) => values.length > 0) => new Promise((resolve, reject) => {
  const values = [];
  const tooLong = setTimeout(() => reject(new Error(`${name} shows ${JSON.stringify(values)}`)), patience);
  const invocation = { setResult: (value) => { values.push(value); if (enough(values)) { clearTimeout(tooLong); invocation.onCanceled?.(); resolve(values); } } };
  functions[name](...parameters, invocation);
});
const plain = (value) => JSON.parse(JSON.stringify(value));
const hex = async (recipe) => plain((await shows("HEX", [[[recipe]], null, null])).at(-1));

test("every function of the metadata is associated, and the other way round", () => {
  const metadata = JSON.parse(read("functions.json"));
  assert.deepEqual(metadata.functions.map((each) => each.id).sort(), Object.keys(functions).sort());
  for (const each of metadata.functions) {
    assert.ok(each.description && each.parameters.every((parameter) => parameter.description), each.id);
    assert.equal(each.options?.stream, true, each.id);
  }
});

test("500 distinct cells are at most 5 requests, and equal cells one question", async () => {
  const recipes = Array.from({ length: 500 }, (_, i) => `${i + 1} kelp`);
  await Promise.all([...recipes, ...recipes].map(hex));
  assert.ok(requests.length <= 5, `${requests.length} requests`);
  assert.equal(500, requests.reduce((sum, each) => sum + each.body.items.length, 0));
  assert.ok(requests.every((each) => each.path === "/v1/batch" && each.body.items.length <= 200));
});

test("decimal commas are decimal points", async () => {
  await hex("2,5 kelp + 1 peat");
  assert.equal(requests[0].body.items[0].predict.recipe.text, "2.5 kelp + 1 peat");
});

test("a table of parts is one request, blank rows stay blank", async () => {
  respond = answering((item) => ({ predict: { color: { hex: "#" + item.predict.recipe.parts.map((part) => part.paint[0] + part.parts).join("") } } }));
  const [values] = await shows("HEX", [[["kelp", "peat"]], [[1, 2], ["", ""], [0, "2,5"]], null]);
  assert.deepEqual(plain(values), [["#k1p2"], [""], ["#p2.5"]]);
  assert.equal(requests.length, 1);
});

test("a fault is that of its cell alone, in the service's words", async () => {
  respond = answering((item) => item.predict.recipe.text === "kelpp"
    ? { error: { code: 3, message: "recipe.text: x", details: [{ fieldViolations: [{ field: "recipe.text", description: "There is no paint 'kelpp'. The nearest: 'kelp'." }] }] } }
    : { predict: { color: { hex: "#4a4e26" } } });
  const [[[fault], [right]]] = await shows("HEX", [[["kelpp"], ["kelp"]], null, null]);
  assert.equal(fault.message, "There is no paint 'kelpp'. The nearest: 'kelp'.");
  assert.equal(right, "#4a4e26");
  const [alone] = await shows("HEX", [[["kelpp"]], null, null]);
  assert.equal(alone.code, "#VALUE!");
});

test("an outage is told, and the cell heals by itself", async () => {
  const answer = respond;
  let calls = 0;
  respond = (sent, response) => (++calls === 1 ? response.destroy() : answer(sent, response));
  const values = await shows("HEX", [[["kelp"]], null, null], (all) => all.length === 2);
  assert.match(values[0].message, /No answer from http:.*asked again by itself/);
  assert.deepEqual(plain(values[1]), [["#000004"]]);
});

test("an answer that is none is named", async () => {
  respond = (_, response) => response.end('{"answers": []}');
  const [fault] = await shows("WORDS", [[["#123456"]]]);
  assert.match(fault.message, /does not answer sheets/);
});

test("a redirection is not followed", async () => {
  respond = (_, response) => { response.writeHead(307, { location: "http://127.0.0.1:9/" }); response.end(); };
  const [fault] = await shows("HEX", [[["kelp"]], null, null]);
  assert.match(fault.message, /No answer from/);
});

test("what cannot be asked is said and not asked", async () => {
  for (const [name, parameters, words] of [
    ["GLAZE", ["tide pool", "white", 1.5, 6, null], "coats: 1.5 is not a whole number."],
    ["WORDS", [[[123456]]], "colour: 123456 is no colour"],
    ["HEX", [[["a", "b", "c"]], [[1, 2]], null], "do not go with 3 paint names"],
    ["DIFFERENCE", [[["#111"], ["#222"]], [["#111"]]], "as many colours"],
  ]) {
    const [fault] = await shows(name, parameters);
    assert.ok(fault.message.includes(words), fault.message);
  }
  assert.equal(requests.length, 0);
});

test("selected cells are painted with their own colours", async () => {
  painted = {};
  const cell = (r, c) => ({ format: { fill: { set color(value) { painted[`${r},${c}`] = [value]; } }, font: { set color(value) { painted[`${r},${c}`].push(value); } } } });
  const excel = new mock.OfficeMockObject({
    context: { workbook: { range: { values: [["#102030", "kelp"], ["F0F0E0", 7]], getUsedRange() { return this; } }, getSelectedRange() { return this.range; } } },
    async run(callback) { await callback(this.context); },
  });
  excel.context.workbook.range.getCell = cell;
  start(undefined, excel);
  await new Promise((completed) => actions.paint({ completed }));
  assert.deepEqual(painted, { "0,0": ["#102030", "#ffffff"], "1,0": ["#f0f0e0", "#000000"] });
});

test("the manifest is read, and every file that it names is there", async () => {
  const info = await manifests.OfficeAddinManifest.readManifestFile(join(root, "dist/manifest.xml"));
  assert.equal(info.displayName, "MixEngine");
  const urls = [...read("manifest.xml").matchAll(/https:\/\/localhost:7443\/excel\/([\w.]+)/g)].map((each) => each[1]);
  assert.ok(urls.length >= 6);
  for (const name of new Set(urls)) readFileSync(join(root, "dist", name));
});

test("the real service answers", { skip: process.env.MIXENGINE_SHEET_SERVICE ? false : "MIXENGINE_SHEET_SERVICE names no service" }, async () => {
  start(process.env.MIXENGINE_SHEET_SERVICE);
  assert.match((await hex("2 tarred rope + 1 kelp"))[0][0], /^#[0-9a-f]{6}$/);
  assert.equal((await shows("RAMP", [[["tarred rope > kelp"]], 4, 6, null]))[0].length, 4);
  assert.equal((await shows("MATCH", [[["#5a6b3c"]], 2, 4, null]))[0][0].length, 4);
  assert.equal((await shows("LAB", [[["kelp"]], null, null]))[0][0].length, 4);
  assert.match((await shows("GLAZE", ["tide pool", "white", 2, 6, null]))[0], /^#/);
  // Sharma, Wu, Dalal 2005, table 1, pair 1.
  assert.ok(Math.abs((await shows("DIFFERENCE", [[[50, 2.6772, -79.7751]], [[50, 0, -82.7485]]]))[0][0][0] - 2.0425) < 0.00005);
  assert.equal(typeof (await shows("WORDS", [[["#5a6b3c"]]]))[0][0][0], "string");
});
