// The custom functions, in the namespace MIX. Parameters in brackets may be left out: they are null then, which the metadata's types cannot say.
// They are streaming functions: a cell shows what is wrong while the service is away, and heals by itself.

import { Desk, type Answer } from "./desk";
import { colours, glaze, isEmpty, match, predict, ramp, recipes, Fault, type Question } from "./questions";

// Same origin: the page comes from the service itself.
const desk = new Desk(() => globalThis.location?.origin ?? "https://localhost:7443");

type Invocation<T> = CustomFunctions.StreamingInvocation<T>;

function shown<T>(invocation: Invocation<T>, call: () => Promise<T>): void {
  let cancelled = false;
  invocation.onCanceled = () => { cancelled = true; };
  void desk.show(
    async () => await call(),
    (value) => invocation.setResult(value instanceof Error ? new CustomFunctions.Error(CustomFunctions.ErrorCode.invalidValue, value.message) as unknown as T : value),
    () => cancelled);
}

/** One value for each question; blank where nothing is asked. A question's own fault is the cell's error, and spares its neighbours. */
function grid(questions: (Question | null)[][], read: (answer: Answer) => any): Promise<any[][]> {
  const alone = questions.length === 1 && questions[0].length === 1;
  return Promise.all(questions.map((row) => Promise.all(row.map(async (question) => {
    if (question === null) return "";
    try {
      return read(await desk.ask(question));
    } catch (fault) {
      if (alone || !(fault instanceof Fault)) throw fault;
      return new CustomFunctions.Error(CustomFunctions.ErrorCode.invalidValue, fault.message);
    }
  }))));
}

const map = <T>(rows: (T | null)[][], question: (each: T) => Question): (Question | null)[][] => rows.map((row) => row.map((each) => (each === null ? null : question(each))));

/**
 * The dried colour of a mix in a hiding layer, as a screen shows it (#rrggbb).
 * @customfunction HEX
 * @param {any[][]} paints A recipe such as 2 tarred rope + 1 kelp, or a column of recipes; with parts: the names of the paints.
 * @param {any[][]} [parts] The parts of each paint; more rows beneath names in a row, or more columns beside names in a column, are more recipes.
 * @param {string} [shelf] The shelf; left out: home.
 * @param {CustomFunctions.StreamingInvocation<any[][]>} invocation
 * @streaming
 */
export function hex(paints: any[][], parts: any[][], shelf: string, invocation: Invocation<any[][]>): void {
  shown(invocation, () => grid(map(recipes(paints, parts), (recipe) => predict(recipe, shelf)), (answer) => answer.color.hex));
}

/**
 * The dried colour of a mix as L, a, b (D65, 2 degrees), and the difference that the truth exceeds once in twenty.
 * @customfunction LAB
 * @param {any[][]} paints A recipe, or a column of recipes; with parts: the names of the paints.
 * @param {any[][]} [parts] The parts of each paint.
 * @param {string} [shelf] The shelf; left out: home.
 * @param {CustomFunctions.StreamingInvocation<any[][]>} invocation
 * @streaming
 */
export function lab(paints: any[][], parts: any[][], shelf: string, invocation: Invocation<any[][]>): void {
  shown(invocation, async () => {
    const rows = await grid(map(recipes(paints, parts), (recipe) => predict(recipe, shelf)), (answer) => [answer.color.lab.l, answer.color.lab.a, answer.color.lab.b, answer.expectedError.boundDeltaE00]);
    return rows.flat().map((row) => (Array.isArray(row) ? row : [row, row, row, row]));
  });
}

/**
 * Steps from the first paint through the others, even to the eye, dark to light: recipe, colour, difference from the step before.
 * @customfunction RAMP
 * @param {any[][]} through Two or more paints or recipes in cells beside each other, or in one text with > between.
 * @param {number} [steps] 2 to 64; left out: 6.
 * @param {number} [drops] The most drops in one recipe, 1 to 80; left out: 6.
 * @param {string} [shelf] The shelf; left out: home.
 * @param {CustomFunctions.StreamingInvocation<any[][]>} invocation
 * @streaming
 */
export function rampOf(through: any[][], steps: number, drops: number, shelf: string, invocation: Invocation<any[][]>): void {
  shown(invocation, async () => (await desk.ask(ramp(through, steps, drops, shelf))).steps.map((step: Answer) => [step.recipe.text, step.color.hex, step.stepDeltaE00 ?? ""]));
}

/**
 * The shelf's best recipe for a colour: recipe, its colour, its difference, and what stands in the way.
 * @customfunction MATCH
 * @param {any[][]} colour #5a6b3c, lab:40,-12,20, three cells with L, a and b, or a column of such.
 * @param {number} [most] The most paints in the recipe, 1 to 3; left out: 3.
 * @param {number} [drops] The most drops in one recipe, 1 to 80; left out: 6.
 * @param {string} [shelf] The shelf; left out: home.
 * @param {CustomFunctions.StreamingInvocation<any[][]>} invocation
 * @streaming
 */
export function matchOf(colour: any[][], most: number, drops: number, shelf: string, invocation: Invocation<any[][]>): void {
  shown(invocation, async () => {
    const rows = await grid(map(colours("colour", colour), (target) => match(target, most, drops, shelf)), (answer) => {
      const best = answer.matches[0];
      return [best.recipe.text, best.color.hex, best.deltaE00, answer.reason ?? ""];
    });
    return rows.flat().map((row) => (Array.isArray(row) ? row : [row, row, row, row]));
  });
}

/**
 * The colour after some coats of a let-down paint over something.
 * @customfunction GLAZE
 * @param {any} recipe What is brushed on: a paint or a recipe.
 * @param {any} over What lies beneath: a colour, the primer black, grey or white, or a recipe.
 * @param {number} [coats] How many coats, 1 to 100; left out: 1.
 * @param {number} [medium] Parts of medium to one part of the recipe, 0 to 100; left out: 0.
 * @param {string} [shelf] The shelf; left out: home.
 * @param {CustomFunctions.StreamingInvocation<string>} invocation
 * @streaming
 */
export function glazeOf(recipe: any, over: any, coats: number, medium: number, shelf: string, invocation: Invocation<string>): void {
  shown(invocation, async () => {
    if (isEmpty(recipe) || isEmpty(over)) return "";
    const answer = await desk.ask(glaze(recipe, over, coats, medium, shelf));
    return answer.coats[answer.coats.length - 1].color.hex;
  });
}

/**
 * How different two colours look (CIEDE2000): below 1 hardly, above 5 plainly.
 * @customfunction DIFFERENCE
 * @param {any[][]} first #5a6b3c, lab:40,-12,20, three cells with L, a and b, or a column of such.
 * @param {any[][]} second The same number of colours.
 * @param {CustomFunctions.StreamingInvocation<any[][]>} invocation
 * @streaming
 */
export function difference(first: any[][], second: any[][], invocation: Invocation<any[][]>): void {
  shown(invocation, async () => {
    const [one, other] = [colours("first", first), colours("second", second)];
    if (one.length !== other.length || one[0].length !== other[0].length) throw new Fault("second: give as many colours as in first.");
    const pairs = one.map((row, r) => row.map((each, c) => (each === null || other[r][c] === null ? null : { kind: "difference", body: { first: each, second: other[r][c] } })));
    return grid(pairs, (answer) => answer.deltaE00);
  });
}

/**
 * A colour in words: its lightness, its dullness, its hue.
 * @customfunction WORDS
 * @param {any[][]} colour #5a6b3c, lab:40,-12,20, three cells with L, a and b, or a column of such.
 * @param {CustomFunctions.StreamingInvocation<any[][]>} invocation
 * @streaming
 */
export function words(colour: any[][], invocation: Invocation<any[][]>): void {
  shown(invocation, () => grid(map(colours("colour", colour), (color) => ({ kind: "words", body: { color } })), (answer) => answer.color.words));
}

export { desk };
