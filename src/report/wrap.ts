/**
 * Lines of at most `width` characters, broken at plain spaces; a longer word is cut at the width.
 * @param text its leading spaces are kept
 * @param indent what the second and further lines begin with
 */
export function wrapped(text: string, width: number, indent = ''): string[] {
  const lead = /^ */.exec(text)?.[0] ?? '';
  const room = width - Math.max(lead.length, indent.length);
  const words = text
    .trim()
    .split(/ +/)
    .flatMap((word) => word.match(new RegExp(`.{1,${room}}`, 'gu')) ?? []);
  const lines: string[] = [];
  let line = lead + (words[0] ?? '');
  for (const word of words.slice(1)) {
    if (line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent + word;
    } else line += ` ${word}`;
  }
  return [...lines, line];
}
