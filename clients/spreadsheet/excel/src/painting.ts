// Paints the selected cells with the colours that stand in them.

/** "#5a6b3c", "5a6b3c" or "#ccc" as "#rrggbb"; null for anything else. */
export function hexOf(cell: unknown): string | null {
  const digits = typeof cell === "string" ? /^\s*#?([0-9a-f]{6}|[0-9a-f]{3})\s*$/i.exec(cell)?.[1] : undefined;
  if (digits === undefined) return null;
  return "#" + (digits.length === 3 ? [...digits].map((digit) => digit + digit).join("") : digits).toLowerCase();
}

/** Black or white, whichever contrasts more (WCAG 2.2). */
export function textOn(hex: string): string {
  const [r, g, b] = [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  const luminance = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  return (luminance + 0.05) / 0.05 >= 1.05 / (luminance + 0.05) ? "#000000" : "#ffffff";
}

/** All in one run of Excel's, which is one undo step where Excel keeps one for add-ins. */
export async function paintSelection(): Promise<void> {
  await Excel.run(async (context) => {
    const range = context.workbook.getSelectedRange().getUsedRange(true);
    range.load("values");
    await context.sync();
    range.values.forEach((row: unknown[], r: number) => row.forEach((value, c) => {
      const hex = hexOf(value);
      if (hex === null) return;
      const format = range.getCell(r, c).format;
      format.fill.color = hex;
      format.font.color = textOn(hex);
    }));
    await context.sync();
  });
}
