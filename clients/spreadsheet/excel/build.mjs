// Builds the folder that the service serves: functions.json, addin.js, the page and the manifest. Needs no network.
import { cpSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";

const here = dirname(fileURLToPath(import.meta.url));
const out = process.argv[2] ?? join(here, "dist");
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });

const metadata = await generateCustomFunctionsMetadata(join(here, "src/functions.ts"), true);
if (metadata.errors?.length) throw new Error(metadata.errors.join("\n"));
writeFileSync(join(out, "functions.json"), metadata.metadataJson);

await build({ entryPoints: [join(here, "src/addin.ts")], bundle: true, format: "iife", target: "es2020", minify: true, outfile: join(out, "addin.js"), legalComments: "none" });
cpSync(join(here, "site"), out, { recursive: true });
