// Asks for a colour over gRPC from Node.js, reading the protos as they are.   node match.mjs '#5a6b3c' [http://127.0.0.1:7401]
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import grpc from '@grpc/grpc-js';
import loader from '@grpc/proto-loader';

const here = dirname(fileURLToPath(import.meta.url));
const { MIXENGINE_ADDRESS, MIXENGINE_KEY, MIXENGINE_CA } = process.env;
const [target, address = MIXENGINE_ADDRESS || 'http://127.0.0.1:7401'] = process.argv.slice(2);
const files = ['mixengine/v1/mixing.proto', 'mixengine/v1/shelf.proto'];
const definition = loader.loadSync(files, { includeDirs: [join(here, '../../protos'), join(here, 'google-protos')], defaults: true });
const { v1 } = grpc.loadPackageDefinition(definition).mixengine;

const metadata = new grpc.Metadata();
if (MIXENGINE_KEY) {
  metadata.set('authorization', `Bearer ${MIXENGINE_KEY}`);
}

// Over https:// encrypted; MIXENGINE_CA stands in for the authorities that Node.js knows.
const { protocol, hostname, port } = new URL(address);
const credentials = protocol === 'https:' ? grpc.credentials.createSsl(MIXENGINE_CA ? readFileSync(MIXENGINE_CA) : null) : grpc.credentials.createInsecure();
const service = `${hostname}:${port || 443}`;
const [shelves, mixing] = [new v1.Shelves(service, credentials), new v1.Mixing(service, credentials)];
const ask = (client, method, request) => promisify(client[method].bind(client))(request, metadata, { deadline: Date.now() + 60_000 });

try {
  await ask(shelves, 'ImportShelf', { shelf: 'samples', fileName: 'coast.csv', content: readFileSync(join(here, 'coast.csv')) });
  const { matches: [best] } = await ask(mixing, 'Match', { shelf: 'samples', target: { text: target } });
  console.log(`${best.recipe.text} gives ${best.color.hex}, ${best.color.words}, ${best.deltaE00.toFixed(2)} from the target`);
} catch (refusal) {
  console.error(refusal.details ?? refusal.message);
  process.exitCode = 1;
} finally {
  shelves.close();
  mixing.close();
}
