// Answers a question read from stdin as JSON with what two independent colour libraries compute:
//   codes: "#rrggbb" ...           each in several spaces
//   pairs: [l, a, b, l, a, b] ...  differences of two CIELAB colours
//   vivid: [l, c, h] ...           OKLCh colours brought into the sRGB gamut
import { text } from "node:stream/consumers";
import * as culori from "culori";
import Color from "colorjs.io";

const { codes, pairs, vivid } = JSON.parse(await text(process.stdin));

// A missing hue or channel is a zero here: the tests compare rectangular coordinates.
const list = (color, ...keys) => keys.map((key) => color[key] ?? 0);
const coords = (color, space) => color.to(space).coords.map((value) => value ?? 0);

const ciede2000 = culori.differenceCiede2000();
const cie94 = culori.differenceCie94();
const cmc21 = culori.differenceCmc(2, 1);
const cmc11 = culori.differenceCmc(1, 1);
const cie76 = culori.differenceEuclidean("lab65");

const answer = {
  culori: {
    codes: codes.map((code) => ({
      xyz: list(culori.xyz65(code), "x", "y", "z"),
      lab: list(culori.lab65(code), "l", "a", "b"),
      oklab: list(culori.oklab(code), "l", "a", "b"),
      d50: list(culori.xyz50(code), "x", "y", "z"),
    })),
    pairs: pairs.map(([l1, a1, b1, l2, a2, b2]) => {
      const standard = { mode: "lab65", l: l1, a: a1, b: b1 };
      const sample = { mode: "lab65", l: l2, a: a2, b: b2 };
      return {
        ciede2000: ciede2000(standard, sample),
        cie94: cie94(standard, sample),
        cmc21: cmc21(standard, sample),
        cmc11: cmc11(standard, sample),
        cie76: cie76(standard, sample),
      };
    }),
    vivid: vivid.map(([l, c, h]) => list(culori.oklab(culori.clampChroma({ mode: "oklch", l, c, h }, "oklch")), "l", "a", "b")),
  },
  colorjs: {
    codes: codes.map((code) => {
      const color = new Color(code);
      return {
        xyz: coords(color, "xyz-d65"),
        lab: coords(color, "lab-d65"),
        oklab: coords(color, "oklab"),
        d50: coords(color, "xyz-d50"),
        cam16: coords(color, "cam16-jmh"),
      };
    }),
    pairs: pairs.map(([l1, a1, b1, l2, a2, b2]) => {
      const standard = new Color("lab", [l1, a1, b1]);
      const sample = new Color("lab", [l2, a2, b2]);
      return {
        ciede2000: Color.deltaE(standard, sample, "2000"),
        cmc21: Color.deltaE(standard, sample, { method: "CMC", l: 2, c: 1 }),
        cmc11: Color.deltaE(standard, sample, { method: "CMC", l: 1, c: 1 }),
        cie76: Color.deltaE(standard, sample, "76"),
      };
    }),
  },
};

process.stdout.write(JSON.stringify(answer));
