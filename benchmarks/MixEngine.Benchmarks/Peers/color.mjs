// Times two general-purpose colour libraries on what is read from stdin: X, Y, Z to CIELAB to the CIEDE2000 difference from a target.
// They know no spectra, so the sums over the bands are plain loops over typed arrays, the same for both.
import { readFileSync } from "node:fs";
import * as culori from "culori";
import Color from "colorjs.io";

const { spectra, weights, aim } = JSON.parse(readFileSync(process.argv[2], "utf8"));
const bands = weights[0].length;
const all = Float64Array.from(spectra.flat());
const [wx, wy, wz] = weights.map((row) => Float64Array.from(row, (weight) => weight / 100)); // Y of white is 1 to them
const sums = (i) => {
  let x = 0, y = 0, z = 0;
  for (let band = 0; band < bands; band++) {
    const r = all[i * bands + band];
    x += r * wx[band];
    y += r * wy[band];
    z += r * wz[band];
  }
  return [x, y, z];
};

const ciede2000 = culori.differenceCiede2000();
const toLab = culori.converter("lab65");
const standard = { mode: "lab65", l: aim[0], a: aim[1], b: aim[2] };
const aimed = new Color("lab-d65", aim);
const libraries = {
  culori: (i) => {
    const [x, y, z] = sums(i);
    return ciede2000(standard, toLab({ mode: "xyz65", x, y, z }));
  },
  colorjs: (i) => Color.deltaE(aimed, new Color("xyz-d65", sums(i)).to("lab-d65"), "2000"),
};

const answer = {};
for (const [name, difference] of Object.entries(libraries)) {
  answer[name] = { seconds: Infinity, sum: 0 };
  for (let turn = 0; turn < 5; turn++) {
    let sum = 0;
    const start = performance.now();
    for (let i = 0; i < spectra.length; i++) sum += difference(i);
    answer[name] = { seconds: Math.min(answer[name].seconds, (performance.now() - start) / 1000), sum };
  }
}
process.stdout.write(JSON.stringify(answer));
