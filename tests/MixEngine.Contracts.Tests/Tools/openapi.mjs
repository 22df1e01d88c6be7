// Holds an OpenAPI document against its standard, and a running service against the document: node openapi.mjs DOCUMENT [ADDRESS].
import { readFile } from "node:fs/promises";
import { validate } from "@readme/openapi-parser";
import { Ajv } from "ajv";
import addFormats from "ajv-formats";

const [, , file, address] = process.argv;
const document = JSON.parse(await readFile(file, "utf8"));

const checked = await validate(structuredClone(document));
if (!checked.valid) throw new Error(JSON.stringify(checked.errors, null, 2));
const operations = Object.entries(document.paths).flatMap(([path, item]) => Object.entries(item).map(([verb, operation]) => ({ path, verb, operation })));
console.log(`valid: ${operations.length} operations`);
if (!address) process.exit();

// Here, unlike for clients, a field that the document does not know is a fault.
const ajv = new Ajv({ strict: false, allErrors: true });
addFormats(ajv);
for (const schema of Object.values(document.components.schemas)) if (schema.properties && !schema.additionalProperties) schema.additionalProperties = false;
ajv.addSchema({ $id: "mixengine", components: document.components });
const fits = (schema, value, where) => {
  const held = ajv.compile(JSON.parse(JSON.stringify(schema).replaceAll('"#/', '"mixengine#/')));
  if (!held(value)) throw new Error(`${where}: ${JSON.stringify(held.errors.slice(0, 5))}\n${JSON.stringify(value).slice(0, 500)}`);
};

const table = "name,hex,opacity,kind\ntarred rope,#2b2320,opaque,\nkelp,#3f4a2b,semi-opaque,\nsea lettuce,#86a545,semi-opaque,\nbrine medium,,,medium\n";
const recipe = { text: "2 tarred rope + 1 kelp" };
const questions = {
  Shelves_ImportShelf: [{ shelf: "home" }, { fileName: "coast.csv", content: Buffer.from(table).toString("base64") }],
  Shelves_ListShelves: [{}],
  Shelves_ListPaints: [{ shelf: "home", "view.illuminant": "A" }],
  Shelves_GetPaint: [{ shelf: "home", paint: "kelp" }],
  Shelves_ExportShelf: [{ shelf: "home" }],
  Mixing_Predict: [{}, { recipe, view: { withReflectance: true } }],
  Mixing_Ramp: [{}, { through: [{ text: "tarred rope" }, { text: "sea lettuce" }], steps: 4 }],
  Mixing_Match: [{}, { target: { text: "#4a4a2b" }, paints: 2 }],
  Mixing_Glaze: [{}, { recipe: { text: "kelp" }, mediumParts: 4, coats: 2, over: { primer: "white" } }],
  Mixing_Cover: [{}, { recipe: { text: "kelp" } }],
  Layering_StepBetween: [{}, { from: { text: "tarred rope" }, to: { text: "sea lettuce" } }],
  Layering_Finish: [{}, { recipes: [recipe] }],
  Swatches_AddSwatch: [{ shelf: "home" }, { recipe, color: { text: "#332f22" }, source: "photo" }],
  Swatches_ListSwatches: [{ shelf: "home", pageSize: "10" }],
  Batch_Compute: [{}, { items: [{ key: "a", predict: { recipe } }, { key: "b", predict: { recipe: { text: "no such paint" } } }] }],
  Schemes_GetSchemeSchema: [{}],
  Schemes_ListSchemeRuns: [{}],
  Schemes_LogMix: [{}, { mix: { parts: [{ paint: "kelp", drops: 3 }] } }],
  Schemes_ListMixes: [{}],
};

for (const [id, [parameters, body]] of Object.entries(questions)) {
  const found = operations.find(({ operation }) => operation.operationId === id);
  if (!found) throw new Error(`the document has no ${id}`);
  const url = new URL(found.path.replace(/\{(\w+)\}/g, (_, name) => encodeURIComponent(parameters[name])), address);
  for (const parameter of found.operation.parameters ?? []) if (parameter.in === "query" && parameters[parameter.name]) url.searchParams.set(parameter.name, parameters[parameter.name]);
  if (body) fits(found.operation.requestBody.content["application/json"].schema, body, `${id}, request`);
  const answer = await fetch(url, { method: found.verb.toUpperCase(), body: body && JSON.stringify(body), headers: body && { "content-type": "application/json" } });
  const json = await answer.json();
  if (!answer.ok) throw new Error(`${id}: HTTP ${answer.status} ${JSON.stringify(json)}`);
  fits(found.operation.responses["200"].content["application/json"].schema, json, `${id}, answer`);
}

const refused = await fetch(new URL("/v1/predict", address), { method: "POST", body: JSON.stringify({ recipe: { text: "no such paint" } }), headers: { "content-type": "application/json" } });
if (refused.status !== 400) throw new Error(`a refusal has HTTP ${refused.status}`);
fits(document.paths["/v1/predict"].post.responses.default.content["application/json"].schema, await refused.json(), "a refusal");

// The service hands out this very document.
const served = await (await fetch(new URL("/openapi.json", address))).text();
if (served !== (await readFile(file, "utf8"))) throw new Error("the service serves another document");
console.log(`held: ${Object.keys(questions).length} operations`);
