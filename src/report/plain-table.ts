/** Columns as wide as their widest text; a minus sign that a spreadsheet takes. */
export function table(
  rows: readonly (readonly string[])[],
  dim: (text: string) => string,
  align: 'left' | 'right' = 'left',
): string[] {
  const widths = rows[0].map((_, i) => Math.max(...rows.map((row) => row[i].length)));
  return rows.map((row, n) => {
    const line = row
      .map((text, i) => (align === 'right' && i > 0 ? text.padStart(widths[i]) : text.padEnd(widths[i])))
      .join('  ')
      .trimEnd()
      .replaceAll('−', '-');
    return n === 0 ? dim(line) : line;
  });
}
