/** Plain text for a terminal of 80 columns. */

export const width = 80;

/** One line of plain text: no control characters, which a terminal would obey, and single spaces. */
export const plain = (text: string): string =>
  text
    .replace(/[\p{Cc}\p{Cs}\p{Bidi_Control}]/gu, ' ')
    .replace(/[^\S\u00A0]+/g, ' ')
    .trim();

/** Breaks text at spaces (inside a word only where it alone is too long), later lines indented by `indent`. */
export function wrap(text: string, first: string, indent: string, columns: number = width): string {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of plain(text).split(' ')) {
    let rest = [...word];
    if (!empty && [...line].length + 1 + rest.length > columns) {
      lines.push(line);
      line = indent;
      empty = true;
    }
    line += empty ? '' : ' ';
    while ([...line].length + rest.length > columns) {
      const room = columns - [...line].length;
      lines.push(line + rest.slice(0, room).join(''));
      rest = rest.slice(room);
      line = indent;
    }
    line += rest.join('');
    empty = false;
  }
  return [...lines, line].join('\n');
}
