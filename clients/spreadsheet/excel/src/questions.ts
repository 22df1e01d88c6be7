// From the arguments of a function to questions, as the service's contract words them. Knows nothing of Excel, nothing of paint.

export type Cell = string | number | boolean | null | undefined;
export type Grid = Cell[][];

/** One item of a batch: its kind and its body. Equal questions are asked once. */
export interface Question { readonly kind: string; readonly body: unknown }

/** Arguments that cannot be asked; the message says why. */
export class Fault extends Error {}

const PRIMERS: Record<string, string> = {
  black: "black", grey: "grey", gray: "grey", white: "white", schwarz: "black", grau: "grey", weiß: "white", weiss: "white",
};

export const isEmpty = (cell: Cell): boolean => cell === null || cell === undefined || (typeof cell === "string" && cell.trim() === "");

export const text = (name: string, cell: Cell): string => {
  if (isEmpty(cell)) throw new Fault(`${name} is empty.`);
  return String(cell);
};

export const number = (name: string, cell: Cell, otherwise: number): number => {
  if (isEmpty(cell)) return otherwise;
  if (typeof cell === "number") return cell;
  const written = String(cell).trim();
  if (!/^[-+]?\d{1,9}([.,]\d{0,9})?$/.test(written)) throw new Fault(`${name}: '${written}' is not a number.`);
  return Number(written.replace(",", "."));
};

export const whole = (name: string, cell: Cell, otherwise: number): number => {
  const value = number(name, cell, otherwise);
  if (!Number.isInteger(value)) throw new Fault(`${name}: ${value} is not a whole number.`);
  return value;
};

/** A recipe with decimal points: "2,5 kelp" is "2.5 kelp". Three digits might be thousands, and are left for the service to ask about. */
export const recipeText = (written: string): string => written.replace(/(^|[+:])(\s*\d+),(\d{1,2}|\d{4,9})(?=[\s:])/g, "$1$2.$3");

/** Between semicolons a comma is a decimal comma: "lab:40,5;-12;20". */
export const colourText = (written: string): string =>
  /^\s*lab:/i.test(written) && written.includes(";") ? written.replace(/,/g, ".").replace(/;/g, ",") : written;

const shelfOf = (shelf: Cell) => (isEmpty(shelf) ? {} : { shelf: String(shelf).trim() });

export const labRow = (row: Cell[]): unknown =>
  row.length === 3 && row.every((cell) => typeof cell === "number") ? { lab: { l: row[0], a: row[1], b: row[2] } } : null;

export const colour = (name: string, cell: Cell): unknown => {
  if (typeof cell === "number") throw new Fault(`${name}: ${cell} is no colour; write #5a6b3c or lab:40,-12,20, or give three cells with L, a and b.`);
  return { text: colourText(text(name, cell)) };
};

/** The colours of a range; three numbers in a row are L, a and b. Null where a cell is empty. */
export const colours = (name: string, range: Grid): unknown[][] =>
  range.every((row) => labRow(row) !== null)
    ? range.map((row) => [labRow(row)])
    : range.map((row) => row.map((cell) => (isEmpty(cell) ? null : colour(name, cell))));

export const predict = (recipe: unknown, shelf: Cell): Question => ({ kind: "predict", body: { recipe, ...shelfOf(shelf) } });

/** The recipes of names and parts: names in a row with rows of parts beneath, or in a column with columns of parts beside. */
export const recipes = (paints: Grid, parts: Grid | null | undefined): (unknown | null)[][] => {
  if (parts === null || parts === undefined || parts.flat().every(isEmpty)) return paints.map((row) => row.map((cell) => (isEmpty(cell) ? null : { text: recipeText(String(cell)) })));
  if (paints.length > 1 && paints[0].length > 1) throw new Fault("paints: with parts, names stand in one row or one column.");
  const inColumn = paints.length > 1 || (paints[0].length === 1 && parts.length === 1);
  const names = paints.flat();
  const rows = inColumn ? parts[0].map((_, column) => parts.map((row) => row[column])) : parts;
  if (rows.some((row) => row.length !== names.length)) throw new Fault(`parts: ${parts.length} x ${parts[0].length} numbers do not go with ${names.length} paint names; give one number for each name.`);
  const mixed = rows.map((row) => {
    const used = row.map((cell, i) => ({ paint: names[i], parts: number("parts", cell, 0) })).filter((part) => part.parts !== 0)
      .map((part) => ({ paint: text("paints", part.paint), parts: part.parts }));
    return used.length > 0 ? { parts: used } : null;
  });
  return inColumn ? [mixed] : mixed.map((recipe) => [recipe]);
};

export const ramp = (through: Grid, steps: Cell, drops: Cell, shelf: Cell): Question => {
  const cells = through.flat().filter((cell) => !isEmpty(cell)).map(String);
  const path = cells.length === 1 ? cells[0].split(">").map((part) => part.trim()) : cells;
  return { kind: "ramp", body: { through: path.map((part) => ({ text: recipeText(part) })), steps: whole("steps", steps, 0), drops: whole("drops", drops, 0), ...shelfOf(shelf) } };
};

export const match = (target: unknown, most: Cell, drops: Cell, shelf: Cell): Question =>
  ({ kind: "match", body: { target, paints: whole("most", most, 0), drops: whole("drops", drops, 0), ...shelfOf(shelf) } });

const surface = (cell: Cell): unknown => {
  const written = text("over", cell).trim();
  if (/^(#|lab:)/i.test(written)) return { color: { text: colourText(written) } };
  const primer = PRIMERS[written.toLowerCase()];
  return primer ? { primer } : { recipe: { text: recipeText(written) } };
};

export const glaze = (recipe: Cell, over: Cell, coats: Cell, medium: Cell, shelf: Cell): Question => ({
  kind: "glaze",
  body: { recipe: { text: recipeText(text("recipe", recipe)) }, over: surface(over), coats: whole("coats", coats, 1), mediumParts: number("medium", medium, 0), ...shelfOf(shelf) },
});
